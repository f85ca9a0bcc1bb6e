// The settings of the machines in the order in which they are made, in figures to be read from a metre.
import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { Words, unit } from '../look/words';
import * as open from '../state/open';
import { open_parts } from './parts';
import { done, tick } from './ticks';

export type Setting = Plan['bench']['setting_list'][number];

/** Settings that follow on each other at one machine, under its name. */
export function by_machine(settings: readonly Setting[]): Array<{ machine: string; settings: Array<Setting & { number: number }> }> {
  const runs: Array<{ machine: string; settings: Array<Setting & { number: number }> }> = [];
  settings.forEach((setting, at) => {
    const numbered = { ...setting, number: at + 1 };
    const last = runs.at(-1);
    if (last?.machine === setting.machine) last.settings.push(numbered);
    else runs.push({ machine: setting.machine, settings: [numbered] });
  });
  return runs;
}

export const is_done = (setting: Setting, ticked: ReadonlySet<number>) => setting.operations.every((one) => ticked.has(one + 1));

export function SettingList({ plan }: { plan: Plan }) {
  const { setting_list } = plan.bench;
  if (setting_list.length === 0) return <p class="empty">No machine needs a setting for this piece.</p>;
  const ready = setting_list.filter((one) => is_done(one, done.value)).length;
  return (
    <>
      <p>{ready} of {setting_list.length} settings done. Set once, prove it on scrap, run all its pieces, then tick. In the order of the drawings there would be {plan.bench.settings_drawing_order}; this order saves about {format.minutes(plan.bench.saved_minutes)}.</p>
      {by_machine(setting_list).map((run, at) => (
        <section key={at} aria-label={`${run.machine || 'At the bench'}, from setting ${run.settings[0]?.number}`}>
          <h2>{format.sentence(run.machine || 'at the bench, with a jig')}</h2>
          {run.settings.map((one) => <Row key={one.number} setting={one} />)}
        </section>
      ))}
    </>
  );
}

function Row({ setting }: { setting: Setting & { number: number } }) {
  const finished = is_done(setting, done.value);
  const figure = setting.length ? format.bare_length(setting.length.mm, unit.value) : setting.figure;
  const put = async (to: boolean) => { for (const one of setting.operations) await tick(open.id.value, one + 1, to); };
  return (
    <article class={`step setting-row${finished ? ' done' : ''}`}>
      <label class="tick"><input type="checkbox" checked={finished} aria-label={`Setting ${setting.number} done: ${setting.kind} ${figure}`} onChange={(event) => void put(event.currentTarget.checked)} /></label>
      <div>
        <div class={setting.length ? 'setting far' : 'setting'}><Words of={figure} />{setting.length && <span class="unit"> {unit.value === 'inch' ? 'in' : 'mm'}</span>}</div>
        <div class="soft">{format.sentence(setting.kind)}{setting.depth && <>, <span class="strong"><Words of={format.length(setting.depth.mm, unit.value)} /></span> deep</>}</div>
      </div>
      <div>
        <h3>{format.count(setting.pieces, 'piece')}{setting.spares > 0 && <span class="soft">, {setting.spares} of them spare</span>}</h3>
        <p>{open_parts(setting.parts)}</p>
        {setting.test && <p class="small soft">Prove it: <Words of={setting.test} /></p>}
      </div>
      <div class="soft figure">{format.minutes(setting.setup_minutes)} to set<br /><span class="small">{format.minutes(setting.work_minutes)} to run</span></div>
    </article>
  );
}
