import { describe, expect, it } from 'vitest';
import { drawn_apart, far_first, frame_of, is_behind, projected, type Solid } from '../../src/bench/apart';
import { alike } from '../../src/bench/glue_ups';
import { by_machine, is_done, type Setting } from '../../src/bench/setting_list';

type Triple = [number, number, number];
const solid = (code: string, at: Triple, size: Triple, move: Triple = [0, 0, 0]): Solid => ({ code, at, size, move });

describe('boxes pulled apart', () => {
  const front = solid('front', [0, 0, 0], [500, 20, 100]);
  const back = solid('back', [0, 300, 0], [500, 20, 100]);
  const top = solid('top', [0, 0, 100], [500, 320, 20]);
  it('are drawn far ones first: the back, then the front, then what lies on both', () => {
    for (const order of [[front, back, top], [top, front, back], [back, top, front]]) expect(far_first(order).map((one) => one.code)).toEqual(['back', 'front', 'top']);
    expect([is_behind(back, front), is_behind(front, back), is_behind(front, top)]).toEqual([true, false, true]);
  });
  it('count where they are moved to, not where they stand', () => expect(is_behind(front, solid('back', [0, 300, 0], [500, 20, 100], [0, -600, 0]))).toBe(true));
  it('are all drawn, also where they go round in a ring or into each other', () => {
    const ring = [solid('a', [0, 0, 0], [300, 100, 100]), solid('b', [200, 0, 50], [100, 300, 100]), solid('c', [0, 0, 50], [300, 300, 20])];
    expect(far_first(ring).map((one) => one.code).sort()).toEqual(['a', 'b', 'c']);
  });
  it('know the way home of what was moved', () => {
    const [one] = drawn_apart([solid('a', [0, 0, 0], [100, 100, 100], [200, 0, 0])]);
    expect(one).toMatchObject({ moved: true, home: projected([50, 50, 50]), centre: projected([250, 50, 50]) });
    expect(one!.faces).toHaveLength(3);
    expect(drawn_apart([front])[0]!.moved).toBe(false);
  });
  it('are seen from where is_behind says: going away along the line of sight keeps the place on the paper', () => {
    const away: Triple = [Math.sin((32 * Math.PI) / 180) * Math.cos((24 * Math.PI) / 180), Math.cos((32 * Math.PI) / 180) * Math.cos((24 * Math.PI) / 180), -Math.sin((24 * Math.PI) / 180)];
    expect(projected(away)[0]).toBeCloseTo(0);
    expect(projected(away)[1]).toBeCloseTo(0);
    expect([away[0] > 0, away[1] > 0, away[2] < 0]).toEqual([true, true, true]);
  });
  it('keep what is higher higher, and what is behind above on the paper', () => {
    expect(projected([0, 0, 10])[1]).toBeLessThan(projected([0, 0, 0])[1]);
    expect(projected([0, 10, 0])[1]).toBeLessThan(projected([0, 0, 0])[1]);
    expect(projected([10, 0, 0])[0]).toBeGreaterThan(projected([0, 0, 0])[0]);
  });
  it('stand in a frame with a margin', () => expect(frame_of([[0, 0], [10, 4]], 1)).toEqual({ x: -1, y: -1, wide: 12, high: 6 }));
});

describe('clamps', () => {
  const clamp = (part: string, along: 'x' | 'y', count: number) => ({ part, along, count, span: { mm: 1, text: '' }, reach: null, force_newtons: 4400, at: [] });
  it('of one kind on like parts are one line', () => {
    const lines = alike([clamp('a.1', 'x', 1), clamp('a.2', 'x', 2), clamp('a.1', 'y', 1), clamp('b.1', 'x', 1)], (path) => path[0]!);
    expect(lines.map((one) => [one.part, one.along, one.count])).toEqual([['a.1', 'x', 3], ['a.1', 'y', 1], ['b.1', 'x', 1]]);
  });
});

describe('the setting list', () => {
  const setting = (machine: string, operations: number[]) => ({ machine, operations }) as Setting;
  it('keeps its order and stands under each machine anew', () => {
    const runs = by_machine([setting('saw', [0]), setting('saw', [1]), setting('router', [2]), setting('saw', [3])]);
    expect(runs.map((run) => [run.machine, run.settings.map((one) => one.number)])).toEqual([['saw', [1, 2]], ['router', [3]], ['saw', [4]]]);
  });
  it('is done with a setting when all its steps are', () => {
    expect(is_done(setting('saw', [0, 1]), new Set([1]))).toBe(false);
    expect(is_done(setting('saw', [0, 1]), new Set([1, 2]))).toBe(true);
  });
});
