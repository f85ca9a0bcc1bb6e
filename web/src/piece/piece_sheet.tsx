import { useEffect } from 'preact/hooks';
import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { Sizes, Words, unit } from '../look/words';
import * as open from '../state/open';
import { PartCard, WholeCard } from './part_card';
import { forget_looks, hidden, picked } from './seen';
import { Stage } from './stage';
import { stock_name } from './part_cost';

/** The piece, and whatever part of it is picked. */
export function PieceSheet() {
  const plan = open.plan.value;
  useEffect(() => forget_looks, [open.id.value]);
  const part = plan?.piece.parts.find((one) => one.path === picked.value);
  return (
    <>
      <div class="piece">
        <Stage />
        <aside aria-label={part ? 'The picked part' : 'The piece'}>
          {part && plan ? <PartCard plan={plan} part={part} /> : plan ? <WholeCard plan={plan} /> : <NoPlan />}
        </aside>
      </div>
      {plan && <PartList plan={plan} />}
    </>
  );
}

export function NoPlan() {
  if (open.errors.value.length > 0) {
    return (
      <div class="empty">
        <p class="strong">The text cannot be planned yet.</p>
        <p><Words of={open.errors.value[0]?.message ?? ''} /></p>
        <a href={`/c/${open.id.value}/text`}>Go to the text</a>
      </div>
    );
  }
  return open.reachable.value ? <p class="soft">Planning …</p> : <p class="empty">This commission was not read on this device before, so there is nothing to show without the server.</p>;
}

function PartList({ plan }: { plan: Plan }) {
  return (
    <section aria-label="Parts">
      <h2>Parts</h2>
      <div class="wide" tabIndex={0} role="region" aria-label="Table of parts">
        <table class="list-of-parts">
          <thead><tr><th>Part</th><th class="right">Pieces</th><th>Cut size, {unit.value === 'inch' ? 'inches' : 'millimetres'}</th><th>Stock</th><th>Shown</th></tr></thead>
          <tbody>
            {plan.piece.lines.map((line) => {
              const hides = line.parts.every((path) => hidden.value.has(path));
              return (
                <tr key={`${line.code}${line.hand}`}>
                  <td><button aria-pressed={line.parts.includes(picked.value ?? '')} onClick={() => { picked.value = line.parts[0] ?? null; }}>{line.code} {line.name}{line.hand && `, ${line.hand}`}</button></td>
                  <td class="right">{line.quantity}</td>
                  <td class="figure"><Words of={[line.cut.length.mm, line.cut.width.mm, line.cut.thickness.mm].map((mm) => format.bare_length(mm, unit.value)).join(' × ')} /></td>
                  <td>{stock_name(plan, line.stock)}</td>
                  <td><button aria-label={`${hides ? 'Show' : 'Hide'} ${line.code} ${line.name}`} onClick={() => hide_all(line.parts, !hides)}>{hides ? 'Show' : 'Hide'}</button></td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <p class="caption">Length along the grain × width × thickness. Whole piece <Sizes mm={plan.piece.overall.size} />, width × depth × height.</p>
    </section>
  );
}

function hide_all(paths: readonly string[], hide: boolean): void {
  const next = new Set(hidden.value);
  for (const path of paths) if (hide) next.add(path); else next.delete(path);
  hidden.value = next;
}
