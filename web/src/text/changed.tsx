import type { Change } from '../state/changes';
import { nothing_changed } from '../state/changes';
import * as format from '../look/format';
import { Severity, Sizes, currency, unit } from '../look/words';
import * as open from '../state/open';

const kNames: Record<Change['what'], string> = {
  price: 'Price', cost: 'Cost', margin: 'Margin', hours: 'Hours', parts: 'Parts', sheets: 'Sheets', settings: 'Machine settings', mass: 'Weight', ready: 'Ready, four in five',
};

export function shown(what: Change['what'], value: number, money: string, in_unit: format.Unit): string {
  if (what === 'price' || what === 'cost') return format.money(value, money);
  if (what === 'margin') return format.percent(value, 1);
  if (what === 'hours') return `${value.toFixed(1)} h`;
  if (what === 'mass') return format.mass(value, in_unit);
  if (what === 'ready') return value === 0 ? 'no date' : format.short_date(new Date(value * 86_400_000).toISOString());
  return String(Math.round(value));
}

/** What the edits since the last keeping changed, before and after. */
export function Changed() {
  const changes = open.changes.value;
  return (
    <section aria-label="What this edit changed" aria-live="polite">
      <h2 style={open.errors.value.length > 0 ? {} : { marginTop: 0 }}>What this edit changed</h2>
      {!changes || nothing_changed(changes) ? (
        <p class="soft">{open.unsaved.value ? 'Nothing in the plan.' : 'Nothing yet. Change a size, and the difference stands here before you keep it.'}</p>
      ) : (
        <>
          <div class="delta" style={{ marginBottom: '0.8rem' }}>
            {changes.figures.flatMap((one) => [
              <span key={`${one.what}n`}>{kNames[one.what]}</span>,
              <span key={`${one.what}b`} class="soft figure">{shown(one.what, one.before, currency.value, unit.value)}</span>,
              <span key={`${one.what}a`} aria-label="becomes">→</span>,
              <span key={`${one.what}c`} class="strong figure">{shown(one.what, one.after, currency.value, unit.value)}</span>,
            ])}
          </div>
          {changes.findings_new.map((one) => <p key={one.id}><Severity of={one.severity} /> New: {one.title}</p>)}
          {changes.findings_gone.map((one) => <p key={one.id}>Gone: {one.title}</p>)}
          {changes.parts.length > 0 && <h3 style={{ margin: '0.6rem 0 0.2rem' }}>{format.count(changes.parts.length, 'line')} of parts</h3>}
          <ul class="small">
            {changes.parts.slice(0, 40).map((one, at) => (
              <li key={at} style={{ borderTop: '1px solid var(--faint)', padding: '0.25rem 0' }}>
                <span class="strong">{one.code} {one.name}</span>{one.how !== 'changed' && ` ${one.how}`}
                {one.after && <><br />{one.before && <><span class="soft"><Sizes mm={[one.before.cut.length.mm, one.before.cut.width.mm, one.before.cut.thickness.mm]} /></span> → </>}<Sizes mm={[one.after.cut.length.mm, one.after.cut.width.mm, one.after.cut.thickness.mm]} /></>}
              </li>
            ))}
          </ul>
          {changes.parts.length > 40 && <p class="caption">and {changes.parts.length - 40} more</p>}
        </>
      )}
    </section>
  );
}
