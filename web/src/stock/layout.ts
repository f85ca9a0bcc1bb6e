// A layout measured: how large the sheet is, which strips it is ripped into, where labels fit.
import type { Plan } from '../api/plan';

export type SheetLayout = Plan['stock']['sheets'][number]['layouts'][number];

/** The sheet's own size: as far as anything lies or is cut, and the trimmed edge on both sides. */
export function extent(layout: SheetLayout): { long: number; broad: number } {
  const pieces = [
    ...layout.pieces.map((one) => [one.x_mm, one.y_mm, one.x_mm + one.length_mm, one.y_mm + one.width_mm] as const),
    ...layout.offcuts.map((one) => [one.x_mm, one.y_mm, one.x_mm + one.length.mm, one.y_mm + one.width.mm] as const),
  ];
  const cuts = layout.cuts.map((cut) => (cut.along ? [cut.from_mm, cut.at_mm, cut.to_mm, cut.at_mm] : [cut.at_mm, cut.from_mm, cut.at_mm, cut.to_mm]) as readonly [number, number, number, number]);
  const all = [...pieces, ...cuts];
  const low = (at: 0 | 1) => Math.max(0, Math.min(...all.map((one) => one[at])));
  const high = (at: 2 | 3) => Math.max(...all.map((one) => one[at]));
  if (all.length === 0) return { long: 0, broad: 0 };
  return { long: high(2) + low(0), broad: high(3) + low(1) };
}

/** The strips of the first rips: from, to and the setting of the fence. */
export function strips(layout: SheetLayout): Array<{ number: number; at: number; setting: number }> {
  const first = Math.min(...layout.cuts.map((cut) => cut.stage));
  return layout.cuts.filter((cut) => cut.stage === first).map((cut) => ({ number: cut.number, at: cut.at_mm, setting: cut.setting.mm }));
}

/** Height of letters that fits a piece, in the drawing's millimetres; 0 where none does. */
export function letter_height(long: number, broad: number, letters: number, largest: number): number {
  const height = Math.min(broad * 0.6, (long * 0.9) / (letters * 0.6), largest);
  return height < largest * 0.4 ? 0 : height;
}

/** What the bound says, in words a maker would use. */
export function bound_in_words(sheets: number, bound: number, proven: boolean): string {
  const are = (count: number) => `${count} ${count === 1 ? 'sheet' : 'sheets'}`;
  if (proven || sheets <= bound) return `${are(sheets)}; no layout can do with fewer.`;
  return `${are(sheets)}; at least ${are(bound)} are needed by any layout, so ${are(sheets - bound)} might yet be saved.`;
}

/** "A1, B2 (3 times)": each name once. */
export function counted(names: readonly string[]): string {
  const times = new Map<string, number>();
  for (const name of names) times.set(name, (times.get(name) ?? 0) + 1);
  return [...times].map(([name, count]) => (count > 1 ? `${name} (${count} times)` : name)).join(', ');
}
