import { signal } from '@preact/signals';
import { server } from '../api/client';

export const done = signal<ReadonlySet<number>>(new Set());
export const not_kept = signal(false);

export async function fetch_ticks(id: string): Promise<void> {
  done.value = new Set();
  try {
    done.value = new Set((await server.ticks(id)).done);
    not_kept.value = false;
  } catch {
    not_kept.value = true;
  }
}

/** Ticks at once and tells the server; when it does not hear, the tick stands and the page says so. */
export async function tick(id: string, step: number, is_done: boolean): Promise<void> {
  const next = new Set(done.value);
  if (is_done) next.add(step); else next.delete(step);
  done.value = next;
  try {
    await server.tick(id, step, is_done);
    not_kept.value = false;
  } catch {
    not_kept.value = true;
  }
}
