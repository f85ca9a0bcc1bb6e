// A standing person 1.70 m high in outline, for scale; millimetres right and up from between the feet.
// Proportions by eye.
const kHalf: ReadonlyArray<readonly [number, number]> = [
  [0, 820], [40, 820], [70, 420], [75, 60], [150, 0], [165, 30], [135, 70], [150, 430], [170, 820], [165, 960],
  [205, 900], [225, 760], [255, 770], [262, 930], [245, 1180], [225, 1350], [150, 1415], [55, 1440], [52, 1475],
  [95, 1530], [102, 1600], [85, 1665], [45, 1696], [0, 1700],
];
export const kFigure: ReadonlyArray<readonly [number, number]> = [
  ...kHalf,
  ...kHalf.slice(1, -1).reverse().map(([right, up]) => [-right, up] as const),
];
