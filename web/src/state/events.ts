// One stream of events a tab.
import { signal } from '@preact/signals';
import type { EventBetter, EventChanged, EventProgress } from '../api/server';
import { told_better, told_changed } from './open';

/** Work that has lasted for a while: what is over at once is not worth a word. */
export const progress = signal<EventProgress | null>(null);
const kWhile = 1500; // milliseconds
let newest: EventProgress | null = null;
let waiting: ReturnType<typeof setTimeout> | undefined;

export function told_progress(event: EventProgress): void {
  newest = event.share >= 1 ? null : event;
  if (!newest) no_progress();
  else if (progress.value) progress.value = newest;
  else waiting ??= setTimeout(() => { waiting = undefined; progress.value = newest; }, kWhile);
}

export function no_progress(): void {
  clearTimeout(waiting);
  waiting = undefined;
  newest = progress.value = null;
}
export const shelf_changes = signal(0);

export function listen(): void {
  const stream = new EventSource('/api/events');
  const on = <T>(name: string, act: (event: T) => void) =>
    stream.addEventListener(name, (event) => act(JSON.parse((event as MessageEvent<string>).data) as T));
  on<EventChanged>('changed', (event) => {
    shelf_changes.value++;
    told_changed(event.id, event.version);
  });
  on<EventProgress>('progress', told_progress);
  stream.addEventListener('error', no_progress);
  on<EventBetter>('better', (event) => told_better(event.id));
  addEventListener('pagehide', () => stream.close());
}
