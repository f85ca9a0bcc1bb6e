// One stream of events a tab.
import { signal } from '@preact/signals';
import type { EventBetter, EventChanged, EventProgress } from '../api/server';
import { told_better, told_changed } from './open';

export const progress = signal<EventProgress | null>(null);
export const shelf_changes = signal(0);

export function listen(): void {
  const stream = new EventSource('/api/events');
  const on = <T>(name: string, act: (event: T) => void) =>
    stream.addEventListener(name, (event) => act(JSON.parse((event as MessageEvent<string>).data) as T));
  on<EventChanged>('changed', (event) => {
    shelf_changes.value++;
    told_changed(event.id, event.version);
  });
  on<EventProgress>('progress', (event) => { progress.value = event.share >= 1 ? null : event; });
  on<EventBetter>('better', (event) => told_better(event.id));
  addEventListener('pagehide', () => stream.close());
}
