// Plans a text with one value changed, without keeping or showing it: one trial after the other, and
// each of them once.
import type { Finding, Plan } from '../api/plan';
import { server } from '../api/client';
import { outcome, type Edit, type Outcome } from './mends';

const known = new Map<string, Promise<Outcome | null>>();
const kMost = 60;
let last: Promise<unknown> = Promise.resolve();

/** Null when the server is away or the value cannot be changed where it stands. */
export function tried(id: string, text: string, finding: Finding, before: Plan, edit: Edit): Promise<Outcome | null> {
  const key = [id, text, finding.id, edit.value.path, edit.to].join('\n');
  const found = known.get(key);
  if (found) return found;
  const trial = last.then(() => attempt(id, text, finding, before, edit)).catch(() => { known.delete(key); return null; });
  last = trial;
  if (known.size >= kMost) known.clear();
  known.set(key, trial);
  return trial;
}

async function attempt(id: string, text: string, finding: Finding, before: Plan, { value, to }: Edit): Promise<Outcome> {
  const edited = await server.edit(id, text, value.line, value.column, value.written, to);
  const answer = await server.plan(id, { text: edited.text, quick: true, trial: true });
  return outcome(finding, before, answer.plan, answer.errors.map((one) => one.message));
}
