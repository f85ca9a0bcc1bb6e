// What an edit changed, counted from two plans.
import type { Part, Plan, Finding } from '../api/plan';
import { ready_day } from '../calendar/marks';

export type Change = { what: 'parts' | 'sheets' | 'settings' | 'hours' | 'cost' | 'price' | 'margin' | 'mass' | 'ready'; before: number; after: number };
export type PartChange = { code: string; name: string; how: 'new' | 'gone' | 'changed'; before: Part | null; after: Part | null };
export type Changes = { figures: Change[]; parts: PartChange[]; findings_new: Finding[]; findings_gone: Finding[] };

export const sheets_of = (plan: Plan) => plan.stock.sheets.reduce((sum, one) => sum + one.sheets, 0);

/** Days since 1970; 0 without a date. */
const days_since = (day: string | undefined) => (day ? Date.parse(`${day}T00:00:00Z`) / 86_400_000 : 0);

const kFigures: Array<[Change['what'], (plan: Plan) => number]> = [
  ['price', (plan) => plan.price.price],
  ['cost', (plan) => plan.price.cost],
  ['margin', (plan) => plan.price.margin_percent],
  ['hours', (plan) => plan.bench.hours.total.mean],
  ['ready', (plan) => days_since(ready_day(plan))],
  ['parts', (plan) => plan.piece.parts.length],
  ['sheets', sheets_of],
  ['settings', (plan) => plan.bench.settings],
  ['mass', (plan) => plan.piece.mass_kg],
];

const size_of = (part: Part) =>
  [part.stock, part.cut.length.mm, part.cut.width.mm, part.cut.thickness.mm, part.features.length].join('|');

function part_changes(before: Plan, after: Plan): PartChange[] {
  const old = new Map(before.piece.parts.map((part) => [part.path, part]));
  const changes: PartChange[] = [];
  for (const part of after.piece.parts) {
    const was = old.get(part.path);
    old.delete(part.path);
    if (!was) changes.push({ code: part.code, name: part.name, how: 'new', before: null, after: part });
    else if (size_of(was) !== size_of(part)) changes.push({ code: part.code, name: part.name, how: 'changed', before: was, after: part });
  }
  for (const part of old.values()) changes.push({ code: part.code, name: part.name, how: 'gone', before: part, after: null });
  return like_parts_once(changes);
}

/** Four legs that all changed alike are one line. */
function like_parts_once(changes: PartChange[]): PartChange[] {
  const seen = new Set<string>();
  return changes.filter((change) => {
    const key = [change.how, change.code, change.name, change.before && size_of(change.before), change.after && size_of(change.after)].join('/');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

export function changes_between(before: Plan, after: Plan): Changes {
  const ids = (plan: Plan) => new Set(plan.findings.open.map((finding) => finding.id));
  const [was, is] = [ids(before), ids(after)];
  return {
    figures: kFigures.map(([what, of]) => ({ what, before: of(before), after: of(after) }))
      .filter((change) => Math.abs(change.after - change.before) > 1e-9),
    parts: part_changes(before, after),
    findings_new: after.findings.open.filter((finding) => !was.has(finding.id)),
    findings_gone: before.findings.open.filter((finding) => !is.has(finding.id)),
  };
}

export const nothing_changed = (changes: Changes) =>
  changes.figures.length + changes.parts.length + changes.findings_new.length + changes.findings_gone.length === 0;
