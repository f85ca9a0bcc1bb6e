import { percent } from '../look/format';

/** Odds as one says them. */
export function chance(share: number): string {
  if (share < 0.005) return 'less than 1 in 200';
  return share < 0.1 ? `about 1 in ${Math.round(1 / share)}` : percent(share * 100);
}
