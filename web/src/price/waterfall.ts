// From material to price, as steps of one staircase.
import type { Plan } from '../api/plan';

export type Step = { name: string; from: number; to: number; total: boolean };

const kGroups: ReadonlyArray<readonly [string, readonly string[]]> = [
  ['Timber', ['timber', 'solid']], ['Sheets', ['sheets', 'sheet', 'band', 'bands']], ['Hardware', ['hardware']], ['Finish', ['finish']],
  ['Bench hours', ['labour']], ['Office hours', ['office']], ['Reserve', ['reserve']],
];

/** Cost lines in groups, one step each, then cost, margin, price, tax and total. The steps between two
 *  totals add up to their difference exactly. */
export function waterfall(price: Plan['price']): Step[] {
  const named = new Set(kGroups.flatMap(([, kinds]) => kinds));
  const sum = (of: (kind: string) => boolean) => price.lines.filter((line) => of(line.kind)).reduce((total, line) => total + line.cost, 0);
  const groups = kGroups.map(([name, kinds]) => [name, sum((kind) => kinds.includes(kind))] as const);
  groups.splice(4, 0, ['Other', sum((kind) => !named.has(kind))]);
  const steps: Step[] = [];
  let at = 0;
  for (const [name, cost] of groups) {
    if (cost === 0) continue;
    steps.push({ name, from: at, to: at + cost, total: false });
    at += cost;
  }
  if (at !== price.cost) steps.push({ name: 'Rounding', from: at, to: price.cost, total: false });
  steps.push({ name: 'Cost', from: 0, to: price.cost, total: true });
  steps.push({ name: 'Margin', from: price.cost, to: price.price, total: false });
  steps.push({ name: 'Price', from: 0, to: price.price, total: true });
  if (price.tax !== 0) {
    steps.push({ name: 'Tax', from: price.price, to: price.total, total: false });
    steps.push({ name: 'With tax', from: 0, to: price.total, total: true });
  }
  return steps;
}
