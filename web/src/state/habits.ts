// What the reader prefers, kept in this browser: the unit of sizes, light or dark.
import { effect, signal } from '@preact/signals';

export type Unit = 'inch' | 'mm';
function remembered<T extends string>(key: string, allowed: readonly T[]): T | null {
  try {
    const found = localStorage.getItem(key) as T | null;
    return found && allowed.includes(found) ? found : null;
  } catch {
    return null;
  }
}

/** null follows the commission. */
export const unit_taken = signal<Unit | null>(remembered('unit', ['inch', 'mm']));
export const light = signal<'light' | 'dark' | 'system'>(remembered('light', ['light', 'dark']) ?? 'system');

export function keep_habits(): void {
  effect(() => {
    try {
      if (unit_taken.value) localStorage.setItem('unit', unit_taken.value);
      else localStorage.removeItem('unit');
      localStorage.setItem('light', light.value);
    } catch {
      // A browser that keeps nothing: the habit lasts as long as the page.
    }
    if (light.value === 'system') delete document.documentElement.dataset['light'];
    else document.documentElement.dataset['light'] = light.value;
  });
}
