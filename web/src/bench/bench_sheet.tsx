import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import * as format from '../look/format';
import { Words, unit } from '../look/words';
import { NoPlan } from '../piece/piece_sheet';
import * as open from '../state/open';
import { GlueUps } from './glue_ups';
import { Ladder } from './ladder';
import { SettingList } from './setting_list';
import { first_open, phases, setting_mm, step_minutes, steps_of, type Step } from './steps';
import { done, fetch_ticks, not_kept, tick } from './ticks';

type View = 'steps' | 'card' | 'settings' | 'glue';
const kViews: ReadonlyArray<readonly [View, string]> = [['steps', 'All steps'], ['card', 'One card a step'], ['settings', 'Settings'], ['glue', 'Glue-ups']];
const view = signal<View>(typeof matchMedia !== 'undefined' && matchMedia('(max-width: 800px)').matches ? 'card' : 'steps');
const at = signal(-1);

/** "?step=12" opens the card of step 12. */
const step_asked = (search: string) => Number(search.match(/[?&]step=(\d+)/)?.[1] ?? 0) - 1;

/** What is done, in batches that share a setting. */
export function BenchSheet() {
  const plan = open.plan.value;
  useEffect(() => { at.value = step_asked(location.search); if (at.value >= 0) view.value = 'card'; void fetch_ticks(open.id.value); }, [open.id.value]);
  if (!plan) return <NoPlan />;
  const steps = steps_of(plan);
  const { hours } = plan.bench;
  return (
    <>
      <div class="row" style={{ justifyContent: 'space-between' }}>
        <h1>Bench</h1>
        <div class="row" role="group" aria-label="How the steps are shown">
          {kViews.map(([id, name]) => <button key={id} aria-pressed={view.value === id} onClick={() => { view.value = id; }}>{name}</button>)}
        </div>
      </div>
      {not_kept.value && <p class="word">The server does not answer: ticks are not kept beyond this page.</p>}
      <div class="bar" role="progressbar" aria-label="Steps done" aria-valuenow={done.value.size} aria-valuemin={0} aria-valuemax={steps.length} style={{ margin: '0.6rem 0' }}><div style={{ width: `${(100 * done.value.size) / Math.max(1, steps.length)}%` }} /></div>
      {view.value === 'card' && <OneCard steps={steps} />}
      {view.value === 'settings' && <SettingList plan={plan} />}
      {view.value === 'glue' && <GlueUps plan={plan} />}
      {view.value === 'steps' && (
        <>
          <p>{done.value.size} of {steps.length} steps done. Half of such jobs take at most {format.hours(hours.bench.median)} at the bench, four in five {format.hours(hours.bench.p80)}. {plan.bench.settings} machine settings; in the order of the drawings it would be {plan.bench.settings_drawing_order}.</p>
          {plan.bench.driven_by.length > 0 && <p class="soft">Most of the spread comes from: {plan.bench.driven_by.join(', ')}.</p>}
          <Ladder steps={steps} unit={plan.commission.unit} />
          {phases(steps).map(({ phase, steps: own }) => (
            <section key={own[0]?.number} aria-label={`${phase}, from step ${own[0]?.number}`}>
              <h2>{format.sentence(phase)} <span class="soft small">about {format.minutes(own.reduce((sum, step) => sum + step_minutes(step), 0))}</span></h2>
              {own.map((step) => <Row key={step.number} step={step} />)}
            </section>
          ))}
        </>
      )}
    </>
  );
}

/** The figure for the machine, in the unit it is written in, and converted where one reads another. */
function Setting({ step }: { step: Step }) {
  const written = open.plan.value?.commission.unit ?? 'mm';
  const mm = setting_mm(step.setting, written);
  if (!step.setting) return <span class="soft small">{step.machine}</span>;
  return (
    <>
      <div class={mm !== null ? 'setting' : 'strong'}><Words of={mm !== null ? format.bare_length(mm, unit.value) : step.setting} />{mm !== null && <span class="small soft" style={{ fontSize: '0.9rem', letterSpacing: 0 }}> {unit.value === 'inch' ? 'in' : 'mm'}</span>}</div>
      <div class="small soft">{step.setting_kind && `${step.setting_kind}, `}{step.machine || 'by hand'}</div>
    </>
  );
}

function Row({ step }: { step: Step }) {
  const is_done = done.value.has(step.number);
  return (
    <article class={`step${is_done ? ' done' : ''}`}>
      <label class="tick"><input type="checkbox" checked={is_done} aria-label={`Step ${step.number} done: ${step.name}`} onChange={(event) => void tick(open.id.value, step.number, event.currentTarget.checked)} /></label>
      <div><Setting step={step} /></div>
      <div>
        <h3>{step.number}. {step.name}</h3>
        {says_more(step) && <p><Words of={step.says} /></p>}
        <Extras step={step} />
      </div>
      <div class="soft figure">{format.minutes(step_minutes(step))}{step.unattended_minutes > 0 && <><br /><span class="small">then {format.minutes(step.unattended_minutes)} alone</span></>}</div>
    </article>
  );
}

const says_more = (step: Step) => step.says.replace(/\.$/, '') !== step.name;

function Extras({ step }: { step: Step }) {
  return (
    <>
      {step.cautions.map((caution) => <p key={caution} class="caution"><Words of={caution} /></p>)}
      <p class="small soft">{[step.pieces > 0 && step.parts.length > 0 && step.phase !== 'office' && step.phase !== 'outside' && format.count(step.pieces, 'piece'), step.spares > 0 && `${format.count(step.spares, 'spare')} among them`, step.test && `test on ${step.test}`, step.people > 1 && `${step.people} people`].filter(Boolean).join(' · ')}</p>
    </>
  );
}

/** For the phone in the shop: one step, read at arm's length, turned by big buttons or a swipe. */
function OneCard({ steps }: { steps: readonly Step[] }) {
  const from = useRef<[number, number] | null>(null);
  const index = at.value < 0 ? first_open(steps, done.value) : Math.min(at.value, steps.length - 1);
  const step = steps[index];
  if (!step) return <p class="empty">There are no steps in this plan.</p>;
  const turn = (by: number) => { at.value = Math.min(steps.length - 1, Math.max(0, index + by)); };
  const is_done = done.value.has(step.number);
  const swipe_end = (event: PointerEvent) => {
    const start = from.current;
    from.current = null;
    if (!start) return;
    const [across, down] = [event.clientX - start[0], event.clientY - start[1]];
    if (Math.abs(across) > 60 && Math.abs(across) > 2 * Math.abs(down)) turn(across < 0 ? 1 : -1);
  };
  return (
    <article class="one-card" aria-label={`Step ${step.number} of ${steps.length}`} tabIndex={0}
      onKeyDown={(event) => { if (event.key === 'ArrowRight') turn(1); if (event.key === 'ArrowLeft') turn(-1); }}
      onPointerDown={(event) => { from.current = [event.clientX, event.clientY]; }} onPointerUp={swipe_end}>
      <p class="soft">Step {step.number} of {steps.length}, {step.phase}</p>
      <Setting step={step} />
      <h2>{step.name}</h2>
      <div class="words">{says_more(step) && <p><Words of={step.says} /></p>}<Extras step={step} /><p class="soft">{format.minutes(step_minutes(step))}{step.unattended_minutes > 0 && `, then ${format.minutes(step.unattended_minutes)} alone`}</p></div>
      <div class="buttons">
        <button onClick={() => turn(-1)} disabled={index === 0}>Back</button>
        <button class={is_done ? '' : 'main'} onClick={() => { void tick(open.id.value, step.number, !is_done); if (!is_done) turn(1); }}>{is_done ? 'Not done yet' : 'Done'}</button>
        <button onClick={() => turn(1)} disabled={index === steps.length - 1}>Next</button>
      </div>
    </article>
  );
}
