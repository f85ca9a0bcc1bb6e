// How the piece is looked at; not part of the commission.
import { signal } from '@preact/signals';

export type View = 'solid' | 'front' | 'side' | 'top' | 'perspective';
export const view = signal<View>('solid');
export const picked = signal<string | null>(null);
export const hidden = signal<ReadonlySet<string>>(new Set());
export const apart = signal(0);
export type Axis = 'x' | 'y' | 'z';
export const section = signal(0);
/** Across the width, the depth or the height. */
export const section_axis = signal<Axis>('x');
export const dimensions = signal(false);
export const figure = signal(false);
export const chair = signal(false);
export const no_webgl = signal(false);

export function forget_looks(): void {
  picked.value = null;
  hidden.value = new Set();
  apart.value = section.value = 0;
}
