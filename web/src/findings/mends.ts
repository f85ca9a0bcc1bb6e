// What a written value has to become so that a finding ends, and what else comes of it.
import type { Finding, Plan } from '../api/plan';
import type { WrittenValue } from '../api/server';
import type { Unit } from '../look/format';
import { first_value_at, parent_of, size_like } from '../piece/written_values';

export type Mend = Finding['mends'][number];
export type Edit = { value: WrittenValue; to: string; says: string };

const kSame = 0.05; // millimetres: a size that is written in sixteenths comes to no round one
const is_name = (written: string) => /^[a-z_][a-z0-9_]*$/.test(written);

/** The written value that a mend speaks of: one that comes to what it says, at its place; where a name
 *  stands there, the name's own value. Null when it is not written as a plain size. */
export function value_of(mend: Mend, values: readonly WrittenValue[]): WrittenValue | null {
  const first = first_value_at(mend.from, values);
  if (!first) return null;
  for (const field of mend.fields) {
    const at = values.find((one) => one.path === `${parent_of(first.path)}/${field}`);
    if (!at || at.millimetres === undefined || Math.abs(at.millimetres - mend.was.mm) > kSame) continue;
    const named = is_name(at.written) ? values.find((one) => one.path === `names/${at.written}`) : at;
    if (named?.kind === 'length' && named.millimetres !== undefined && Math.abs(named.millimetres - mend.was.mm) <= kSame) return named;
  }
  return null;
}

export function edits_for(finding: Finding, values: readonly WrittenValue[], unit: Unit): Edit[] {
  return finding.mends.flatMap((mend) => {
    const value = value_of(mend, values);
    return value ? [{ value, to: size_like(value.written, mend.to.mm, unit), says: mend.says }] : [];
  });
}

export type Outcome = { ends: boolean; eases: boolean; price_change: number; hours_change: number; brings: string[]; errors: string[] };

/** What a plan with the edit says beside one without. */
export function outcome(finding: Finding, before: Plan, after: Plan | null, errors: readonly string[]): Outcome {
  if (!after) return { ends: false, eases: false, price_change: 0, hours_change: 0, brings: [], errors: [...errors] };
  const known = new Set(before.findings.open.map((one) => one.id));
  const still = after.findings.open.find((one) => one.id === finding.id);
  return {
    ends: !still,
    eases: still !== undefined && Math.abs(still.value - still.limit_value) < Math.abs(finding.value - finding.limit_value),
    price_change: after.price.price - before.price.price,
    hours_change: after.bench.hours.total.mean - before.bench.hours.total.mean,
    brings: after.findings.open.filter((one) => !known.has(one.id)).map((one) => one.title),
    errors: [],
  };
}

/** Whether an edit is worth offering: it can be built, and it helps. */
export const helps = (one: Outcome) => one.ends || one.eases;
