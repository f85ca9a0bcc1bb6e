import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/api/plan';
import type { Way } from '../../src/api/server';
import { curve, density } from '../../src/price/hours_curve';
import { staircase } from '../../src/price/undominated';
import { waterfall } from '../../src/price/waterfall';
import { chance } from '../../src/price/odds';
import { bound_in_words, counted, extent, letter_height, strips, type SheetLayout } from '../../src/stock/layout';
import { room_at, tightest } from '../../src/findings/corner';
import { first_open, phases, setting_mm, spread_labels, type Step } from '../../src/bench/steps';
import { changes_between, nothing_changed } from '../../src/state/changes';
import { kChair } from '../../src/piece/chair';
import { unpacked } from '../../src/piece/packed';

const price = {
  cost: 1000, price: 1250, tax: 250, total: 1500,
  lines: [{ kind: 'timber', what: '', cost: 300, from: '' }, { kind: 'labour', what: '', cost: 600, from: '' }, { kind: 'unheard_of', what: '', cost: 100, from: '' }],
} as unknown as Plan['price'];

describe('the waterfall', () => {
  it('climbs without a gap to the cost, then to price and total', () => {
    const steps = waterfall(price);
    expect(steps.map((step) => step.name)).toEqual(['Timber', 'Other', 'Bench hours', 'Cost', 'Margin', 'Price', 'Tax', 'With tax']);
    let at = 0;
    for (const step of steps) {
      expect(step.from).toBe(step.total ? 0 : at);
      at = step.to;
    }
    expect(at).toBe(price.total);
  });
  it('says so where the lines do not add up', () => {
    expect(waterfall({ ...price, cost: 1001 }).find((step) => step.name === 'Rounding')).toMatchObject({ from: 1000, to: 1001 });
  });
});

describe('the curve of the hours', () => {
  const spread = { median: 56.2, p90: 66.5 };
  it('has half its area below the median and nine tenths below the ninth', () => {
    const below = (limit: number) => Array.from({ length: 20000 }, (_, at) => (at + 0.5) * (limit / 20000)).reduce((sum, hours) => sum + (density(hours, spread) * limit) / 20000, 0);
    expect(below(spread.median)).toBeCloseTo(0.5, 3);
    expect(below(spread.p90)).toBeCloseTo(0.9, 3);
  });
  it('reaches the hours of a loss when they are near', () => expect(curve(spread, 90).at(-1)?.[0]).toBeGreaterThan(90));
  it('says odds as one says them', () => expect([chance(0.001), chance(0.0104), chance(0.3)]).toEqual(['less than 1 in 200', 'about 1 in 96', '30 %']));
});

describe('the staircase of a scatter', () => {
  const way = (name: string, price_: number | null, hours: number | null) => ({ name, price: price_, hours_mean: hours }) as Way;
  it('keeps each way that no other beats in both', () => {
    const ways = [way('a', 100, 10), way('b', 90, 12), way('c', 95, 13), way('d', 80, 20), way('e', null, null), way('f', 120, 9)];
    const best = staircase(ways, 'hours');
    expect(best.map((one) => one.name)).toEqual(['f', 'a', 'b', 'd']);
    for (const one of ways.filter((other) => other.price !== null)) {
      const beaten = ways.some((other) => other !== one && other.price !== null && other.price <= one.price! && other.hours_mean! <= one.hours_mean!);
      expect(best.includes(one)).toBe(!beaten);
    }
  });
});

describe('a layout', () => {
  const length = (mm: number) => ({ mm, text: '' });
  const layout: SheetLayout = {
    copies: 1,
    length: { mm: 2440, text: '2440 mm' },
    width: { mm: 1220, text: '1220 mm' },
    pieces: [{ part: 'a', x_mm: 10, y_mm: 10, length_mm: 1770, width_mm: 440, turned: false }],
    cuts: [{ number: 1, stage: 1, along: true, at_mm: 450, from_mm: 10, to_mm: 2430, setting: length(440) }, { number: 2, stage: 2, along: false, at_mm: 1780, from_mm: 10, to_mm: 450, setting: length(1770) }],
    offcuts: [{ x_mm: 1784, y_mm: 454, length: length(646), width: length(756), value: 1 }],
  };
  it('is as large as the sheet with its trimmed edges', () => expect(extent(layout)).toEqual({ long: 2440, broad: 1220 }));
  it('names the fence of the first rips only', () => expect(strips(layout)).toEqual([{ number: 1, at: 450, setting: 440 }]));
  it('writes nothing where letters would be too small', () => {
    expect(letter_height(800, 400, 4, 50)).toBe(50);
    expect(letter_height(800, 20, 4, 50)).toBe(0);
  });
  it('names what has no room each once', () => expect([counted(['A1', 'B2', 'A1']), counted([])]).toEqual(['A1 (2 times), B2', '']));
  it('says what the bound means', () => {
    expect(bound_in_words(7, 7, false)).toBe('7 sheets; no layout can do with fewer.');
    expect(bound_in_words(7, 6, false)).toBe('7 sheets; at least 6 sheets are needed by any layout, so 1 sheet might yet be saved.');
  });
});

describe('round a corner', () => {
  it('lets a thin ladder of the known greatest length just pass', () => {
    // The longest ladder round a corner of widths a and b: (a^(2/3) + b^(2/3))^(3/2), a textbook result.
    const [a, b] = [1067, 965];
    const longest = (a ** (2 / 3) + b ** (2 / 3)) ** 1.5;
    expect(tightest(longest, 0, a, b).room).toBeCloseTo(0, 0);
    expect(tightest(longest * 1.01, 0, a, b).room).toBeLessThan(0);
    expect(room_at(0, 500, 300, a, b)).toBeCloseTo(a - 300);
  });
});

describe('steps', () => {
  const step = (number: number, phase: string) => ({ number, phase }) as Step;
  it('keeps the order and heads each run of a phase', () => {
    const runs = phases([step(1, 'office'), step(2, 'milling'), step(3, 'milling'), step(4, 'office')]);
    expect(runs.map((run) => [run.phase, run.steps.map((one) => one.number)])).toEqual([['office', [1]], ['milling', [2, 3]], ['office', [4]]]);
  });
  it.each([['16 1/4', 'inch', 412.75], ['3/4', 'inch', 19.05], ['425.8', 'mm', 425.8], ['27 x 10', 'mm', null], ['taper to 50 mm', 'mm', null], ['', 'mm', null]] as const)('reads the setting %s', (setting, unit, mm) => {
    if (mm === null) expect(setting_mm(setting, unit)).toBeNull();
    else expect(setting_mm(setting, unit)).toBeCloseTo(mm, 6);
  });
  it('opens at the first that is not done', () => expect(first_open([step(1, ''), step(2, ''), step(3, '')], new Set([1, 3]))).toBe(1));
  it('moves labels apart and keeps their order', () => {
    const placed = spread_labels([10, 11, 12, 100], 20);
    const sorted = [...placed].sort((a, b) => a - b);
    expect(placed).toEqual(sorted);
    for (let at = 1; at < placed.length; at++) expect(placed[at]! - placed[at - 1]!).toBeGreaterThanOrEqual(19.9);
    expect(placed[3]).toBeCloseTo(100, 0);
  });
});

describe('what an edit changed', () => {
  const size = (mm: number) => ({ length: { mm, text: '' }, width: { mm: 1, text: '' }, thickness: { mm: 1, text: '' } });
  const part = (path: string, mm: number) => ({ path, code: 'A1', name: path, stock: 's', cut: size(mm), features: [] });
  const plan = (parts: unknown[], findings: string[], total: number) => ({
    piece: { parts, mass_kg: 1 }, stock: { sheets: [{ sheets: 2 }] }, findings: { open: findings.map((id) => ({ id })) },
    bench: { settings: 1, hours: { total: { mean: 5 } } }, price: { price: total, cost: 1, margin_percent: 2 },
  }) as unknown as Plan;
  it('lists figures, parts and findings before and after', () => {
    const changes = changes_between(plan([part('a', 1), part('b', 1)], ['x', 'y'], 10), plan([part('a', 2), part('c', 1)], ['y', 'z'], 12));
    expect(changes.figures).toEqual([{ what: 'price', before: 10, after: 12 }]);
    expect(changes.parts.map((one) => [one.name, one.how])).toEqual([['a', 'changed'], ['c', 'new'], ['b', 'gone']]);
    expect(changes.findings_new.map((one) => one.id)).toEqual(['z']);
    expect(changes.findings_gone.map((one) => one.id)).toEqual(['x']);
  });
  it('says when nothing did', () => expect(nothing_changed(changes_between(plan([part('a', 1)], [], 1), plan([part('a', 1)], [], 1)))).toBe(true));
});

describe('packed solids', () => {
  it('reads back what was packed', () => {
    const head = new TextEncoder().encode(JSON.stringify({ nv: 3, ni: 3, parts: [] }));
    const padded = Math.ceil(head.length / 4) * 4;
    const buffer = new ArrayBuffer(4 + padded + 9 * 4 * 2 + 3 * 4);
    new DataView(buffer).setUint32(0, padded, true);
    new Uint8Array(buffer, 4, padded).fill(32).set(head);
    new Float32Array(buffer, 4 + padded, 9).set([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    new Uint32Array(buffer, 4 + padded + 72, 3).set([2, 1, 0]);
    const solids = unpacked(buffer);
    expect([...solids.places]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect([...solids.corners]).toEqual([2, 1, 0]);
  });
});

describe('the chair for scale', () => {
  it('has its seat at 450 mm, stands on the floor, and is one piece about the middle', () => {
    const tops = kChair.map((one) => one.at[2] + one.size[2]);
    const seat = kChair.find((one) => one.size[0] > 300 && one.size[1] > 300)!;
    expect(seat.at[2] + seat.size[2]).toBe(450);
    expect(Math.min(...kChair.map((one) => one.at[2]))).toBe(0);
    expect(Math.max(...tops)).toBeLessThan(1000);
    for (const axis of [0, 1] as const) {
      const low = Math.min(...kChair.map((one) => one.at[axis]));
      const high = Math.max(...kChair.map((one) => one.at[axis] + one.size[axis]));
      expect(low + high).toBeCloseTo(0);
    }
  });
});
