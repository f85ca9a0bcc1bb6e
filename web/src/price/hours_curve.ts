// The spread of the hours as a curve: skewed to the right, through the median and the hours that nine
// jobs in ten stay under.
export type Spread = { median: number; p90: number };
const kNine = 1.2815515655446004; // standard normal, 90 %

export function density(hours: number, { median, p90 }: Spread): number {
  if (hours <= 0) return 0;
  const sigma = Math.max(1e-6, Math.log(p90 / median) / kNine);
  const z = Math.log(hours / median) / sigma;
  return Math.exp(-0.5 * z * z) / (hours * sigma * Math.sqrt(2 * Math.PI));
}

/** Points of the curve over the range worth drawing, wide enough for `also` to be on it. */
export function curve(spread: Spread, also: number, points = 90): Array<[number, number]> {
  const sigma = Math.log(spread.p90 / spread.median) / kNine;
  const low = spread.median * Math.exp(-3 * sigma);
  const high = Math.max(spread.median * Math.exp(3.2 * sigma), Math.min(also, spread.median * 2) * 1.03);
  return Array.from({ length: points + 1 }, (_, at) => {
    const hours = low + ((high - low) * at) / points;
    return [hours, density(hours, spread)] as [number, number];
  });
}
