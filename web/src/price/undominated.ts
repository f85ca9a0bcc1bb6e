// Which ways to build are not worse than another in everything that counts.
import type { Way } from '../api/server';

export type Axis = 'hours' | 'risk';
export const buildable = (way: Way) => way.price !== null && way.hours_mean !== null;
export const across_of = (way: Way, axis: Axis) => (axis === 'hours' ? (way.hours_mean ?? 0) : (way.chance_of_loss ?? 0) * 100);

/** The lower staircase of a scatter, left to right: no other way is both cheaper and further left. */
export function staircase(ways: readonly Way[], axis: Axis): Way[] {
  const sorted = ways.filter(buildable).sort((a, b) => across_of(a, axis) - across_of(b, axis) || (a.price ?? 0) - (b.price ?? 0));
  const best: Way[] = [];
  for (const way of sorted) if (best.length === 0 || (way.price ?? 0) < (best.at(-1)?.price ?? 0)) best.push(way);
  return best;
}
