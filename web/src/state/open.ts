// The commission that lies open: its text, the plan of it, and what stands between the two.
import { computed, effect, signal } from '@preact/signals';
import type { Plan } from '../api/plan';
import type { WrittenError, WrittenValue } from '../api/server';
import { Refused, Unreachable, server } from '../api/client';
import { changes_between } from './changes';
import { draft_of, drop_draft, put_draft, type Draft } from './drafts';
import { known_plan, keep_plan } from './offline';
import { first_step, redone, stepped, undone, type Steps } from './undo';

export const id = signal('');
export const steps = signal<Steps>(first_step(''));
export const text = computed(() => steps.value.present);
/** What the server keeps. */
export const kept = signal<{ text: string; version: string } | null>(null);
/** The last good plan, the text it is of, and the one it is compared with. */
export const plan = signal<Plan | null>(null);
export const planned_text = signal<string | null>(null);
export const baseline = signal<Plan | null>(null);
export const errors = signal<readonly WrittenError[]>([]);
export const values = signal<readonly WrittenValue[]>([]);
export const planning = signal(false);
export const reachable = signal(true);
/** A failure that is nobody's written mistake: said once, in plain words. */
export const trouble = signal<string | null>(null);
export const missing = signal(false);
export const conflict = signal<{ text: string; version: string } | null>(null);
export const offered = signal<Draft | null>(null);
/** Milliseconds from the last edit to fresh figures. */
export const last_wait = signal(0);

export const unsaved = computed(() => kept.value !== null && text.value !== kept.value.text);
export const stale = computed(() => plan.value !== null && (planned_text.value !== text.value || errors.value.length > 0));
export const changes = computed(() => {
  const [before, after] = [baseline.value, plan.value];
  return before && after && before !== after ? changes_between(before, after) : null;
});

const kPause = 40; // milliseconds of quiet before the figures are asked for
let asked = 0;
let edited_at = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let underway: AbortController | undefined;

function clear(): void {
  plan.value = null;
  planned_text.value = null;
  baseline.value = null;
  kept.value = null;
  errors.value = [];
  values.value = [];
  conflict.value = null;
  offered.value = null;
  trouble.value = null;
  missing.value = false;
  steps.value = first_step('');
}

export async function open(which: string): Promise<void> {
  if (id.value === which) return;
  id.value = which;
  clear();
  const [read] = await Promise.all([read_text(which), replan(which, undefined, false)]);
  if (id.value !== which || !read) return;
  if (planned_text.value === null && plan.value) planned_text.value = read.text;
  offer_draft(which, read);
  void fetch_values();
}

async function read_text(which: string): Promise<{ text: string; version: string } | null> {
  try {
    const read = await server.text(which);
    if (id.value !== which) return null;
    kept.value = read;
    steps.value = first_step(read.text);
    return read;
  } catch (error) {
    failed(error);
    return null;
  }
}

function offer_draft(which: string, read: { text: string; version: string }): void {
  const draft = draft_of(which);
  if (draft && draft.text !== read.text) offered.value = draft;
  else drop_draft(which);
}

export function take_offered(): void {
  const draft = offered.value;
  offered.value = null;
  if (draft) change(draft.text, false);
}

export function drop_offered(): void {
  offered.value = null;
  drop_draft(id.value);
}

/** Plans `asked_text`, or the kept text when there is none. The newest question wins. */
async function replan(which: string, asked_text: string | undefined, quick: boolean): Promise<void> {
  const mine = ++asked;
  underway?.abort();
  underway = new AbortController();
  planning.value = true;
  try {
    const answer = await server.plan(which, { ...(asked_text === undefined ? {} : { text: asked_text }), quick }, underway.signal);
    if (mine !== asked || id.value !== which) return;
    reachable.value = true;
    trouble.value = null;
    errors.value = answer.errors;
    if (answer.plan) take_plan(which, answer.plan, asked_text);
    last_wait.value = edited_at > 0 ? performance.now() - edited_at : 0;
  } catch (error) {
    if (error instanceof DOMException) return;
    failed(error);
    if (error instanceof Unreachable && !plan.value) await take_known(which);
  } finally {
    if (mine === asked) planning.value = false;
  }
}

function take_plan(which: string, fresh: Plan, of: string | undefined): void {
  const choices_known = plan.value?.choices ?? [];
  // A quick plan leaves the comparison of choices out; the last one stands until the full plan comes.
  plan.value = fresh.choices.length === 0 && choices_known.length > 0 && of !== undefined ? { ...fresh, choices: choices_known } : fresh;
  planned_text.value = of ?? kept.value?.text ?? null;
  baseline.value ??= fresh;
  if (of === undefined) void keep_plan(which, fresh);
}

async function take_known(which: string): Promise<void> {
  const known = await known_plan(which);
  if (!known || id.value !== which) return;
  plan.value = known;
  baseline.value = known;
}

function failed(error: unknown): void {
  if (error instanceof Unreachable) reachable.value = false;
  else if (error instanceof Refused && error.status === 404) missing.value = true;
  else trouble.value = error instanceof Error ? error.message : String(error);
}

async function fetch_values(): Promise<void> {
  const [which, of] = [id.value, text.value];
  try {
    const answer = await server.values(which, of);
    if (id.value === which && text.value === of) values.value = answer.values;
  } catch (error) {
    if (error instanceof Unreachable) reachable.value = false;
  }
}

/** The text is another one now; the figures follow. */
export function change(to: string, typing: boolean): void {
  if (to === text.value) return;
  steps.value = stepped(steps.value, to, performance.now(), typing);
  follow(typing ? kPause : 0);
}

function follow(pause: number): void {
  edited_at = performance.now();
  if (unsaved.value) put_draft(id.value, { text: text.value, version: kept.value?.version ?? '', at: new Date().toISOString() });
  else drop_draft(id.value);
  clearTimeout(timer);
  const which = id.value;
  timer = setTimeout(() => {
    void replan(which, text.value, true);
    void fetch_values();
  }, pause);
}

export function undo(): void {
  steps.value = undone(steps.value);
  follow(0);
}
export function redo(): void {
  steps.value = redone(steps.value);
  follow(0);
}

/** Puts another written value in the place of one, in the text. */
export async function set_value(value: WrittenValue, to: string): Promise<void> {
  try {
    const answer = await server.edit(id.value, text.value, value.line, value.column, value.written, to);
    values.value = values.value.map((one) => (one === value ? { ...one, written: to } : one));
    change(answer.text, false);
  } catch (error) {
    failed(error);
  }
}

export async function save(): Promise<boolean> {
  const base = kept.value;
  if (!base || !unsaved.value) return true;
  const wanted = text.value;
  try {
    const answer = await server.keep(id.value, wanted, base.version);
    kept.value = { text: wanted, version: answer.version };
    reachable.value = true;
    if (text.value === wanted) drop_draft(id.value);
    baseline.value = plan.value;
    return true;
  } catch (error) {
    if (error instanceof Refused && error.status === 409 && error.answer.text !== undefined) {
      conflict.value = { text: error.answer.text, version: error.answer.version ?? '' };
    } else {
      failed(error);
    }
    return false;
  }
}

export function discard(): void {
  if (kept.value) change(kept.value.text, false);
  drop_draft(id.value);
}

/** Settles a conflict: theirs becomes what is kept; ours goes on as an edit of it, or is dropped. */
export function settle(mine: boolean): void {
  const theirs = conflict.value;
  if (!theirs) return;
  conflict.value = null;
  const ours = text.value;
  kept.value = theirs;
  steps.value = stepped(steps.value, mine ? ours : theirs.text, performance.now(), false);
  follow(0);
  if (mine) void save();
}

/** Something was told by the server about a commission. */
export function told_changed(which: string, version: string): void {
  if (which !== id.value || !kept.value || version === kept.value.version || version === '') return;
  void (async () => {
    const theirs = await server.text(which).catch(() => null);
    if (!theirs || id.value !== which || theirs.version === kept.value?.version) return;
    if (unsaved.value && theirs.text !== text.value) {
      conflict.value = theirs;
    } else {
      kept.value = theirs;
      steps.value = stepped(steps.value, theirs.text, performance.now(), false);
      follow(0);
    }
  })();
}

/** The full plan of a text that was planned quickly is there. */
export function told_better(which: string): void {
  if (which !== id.value || planning.value || errors.value.length > 0) return;
  const of = text.value;
  void (async () => {
    const answer = await server.plan(which, { text: of }).catch(() => null);
    if (answer?.plan && id.value === which && text.value === of) take_plan(which, answer.plan, of);
  })();
}

export async function try_again(): Promise<void> {
  reachable.value = true;
  trouble.value = null;
  if (kept.value) await replan(id.value, text.value, false);
  else {
    const which = id.value;
    id.value = '';
    await open(which);
  }
}

export function close(): void {
  id.value = '';
  clear();
}

effect(() => {
  if (typeof window === 'undefined') return;
  window.onbeforeunload = unsaved.value && !reachable.value ? () => true : null;
});
