// A plain chair for scale, its seat 450 mm high: boxes, millimetres, x to the right and y to the back from
// the middle of the floor under it. Seat heights about 450 mm are common practice, no source.
type Triple = readonly [number, number, number];
export type Block = { at: Triple; size: Triple };

const [kWide, kDeep, kSeat, kBack, kLeg] = [430, 430, 450, 860, 36];
const leg = (x: number, y: number, high: number): Block => ({ at: [x, y, 0], size: [kLeg, kLeg, high] });

export const kChair: readonly Block[] = [
  leg(-kWide / 2, -kDeep / 2, kSeat - 24), leg(kWide / 2 - kLeg, -kDeep / 2, kSeat - 24),
  leg(-kWide / 2, kDeep / 2 - kLeg, kBack), leg(kWide / 2 - kLeg, kDeep / 2 - kLeg, kBack),
  { at: [-kWide / 2, -kDeep / 2, kSeat - 24], size: [kWide, kDeep - kLeg, 24] },
  { at: [-kWide / 2 + kLeg, kDeep / 2 - 28, kBack - 110], size: [kWide - 2 * kLeg, 20, 90] },
  { at: [-kWide / 2 + kLeg, kDeep / 2 - 28, kSeat + 130], size: [kWide - 2 * kLeg, 20, 60] },
];
