import { describe, expect, it } from 'vitest';
import type { Finding, Plan } from '../../src/api/plan';
import type { WrittenValue } from '../../src/api/server';
import { usual_reason, with_acceptance } from '../../src/findings/accepting';
import { edits_for, helps, outcome, type Mend } from '../../src/findings/mends';
import { sag_scale } from '../../src/findings/pictures';
import { remedies } from '../../src/findings/remedies';
import { part_cost, stock_name, stock_price } from '../../src/piece/part_cost';
import { size_like } from '../../src/piece/written_values';

const value = (path: string, line: number, column: number, written: string, millimetres?: number, kind = 'length'): WrittenValue =>
  ({ path, line, column, written, kind, says: '', ...(millimetres === undefined ? {} : { millimetres }) }) as WrittenValue;
const length = (mm: number) => ({ mm, text: `${mm} mm` });
const mend = (fields: string[], was: number, to: number, line = 10, column = 5): Mend => ({ from: { file: 'a.yaml', line, column }, fields, was: length(was), to: length(to), says: `${to}` });
const finding = (mends: Mend[], more: Partial<Finding> = {}) => ({ id: 'sag.a', value: 5, limit_value: 2, mends, ...more }) as Finding;

describe('a sag', () => {
  it('is drawn out until the deeper of sag and limit fills the picture', () => {
    expect(sag_scale(4, 2) * 4).toBe(52);
    expect(sag_scale(1, 2) * 2).toBe(52);
    expect(Number.isFinite(sag_scale(0, 0))).toBe(true);
  });
});

describe('the written value that ends a finding', () => {
  const values = [
    value('names/board', 3, 5, '18 mm', 18), value('names/rail_high', 4, 5, '98', 98), value('piece/rail/stock', 10, 12, 'oak', undefined, 'text'), value('piece/rail/height', 10, 25, '98', 98),
    value('piece/shelves/thickness', 12, 20, 'board', 18, 'expression'), value('piece/shelves/nosing/height', 13, 20, '20', 20), value('piece/leg/height', 20, 9, '2 * 49', 98, 'expression'),
  ];
  it('stands beside the first that is written at its place', () => {
    expect(edits_for(finding([mend(['height'], 98, 68)]), values, 'mm')).toEqual([{ value: values[3], to: '68', says: '68' }]);
  });
  it('may stand deeper, or under a name, which then is what changes', () => {
    expect(edits_for(finding([mend(['nosing/height'], 20, 38, 12, 1)]), values, 'mm').map((one) => [one.value.path, one.to])).toEqual([['piece/shelves/nosing/height', '38']]);
    expect(edits_for(finding([mend(['thickness'], 18, 21, 12, 1)]), values, 'mm').map((one) => [one.value.path, one.to])).toEqual([['names/board', '21 mm']]);
  });
  it('is not offered when it comes to something else, is reckoned, or is not written', () => {
    expect(edits_for(finding([mend(['height'], 90, 68)]), values, 'mm')).toEqual([]);
    expect(edits_for(finding([mend(['height'], 98, 68, 20, 1)]), values, 'mm')).toEqual([]);
    expect(edits_for(finding([mend(['width'], 98, 68)]), values, 'mm')).toEqual([]);
    expect(edits_for(finding([mend(['height'], 98, 68, 99, 1)]), values, 'mm')).toEqual([]);
  });
  it('is written in its own unit', () => expect([size_like('3/4', 19.84375, 'inch'), size_like('20 mm', 25.4, 'inch'), size_like('1 in', 12.7, 'mm'), size_like('20', 12.7, 'mm')]).toEqual(['25/32', '25.4 mm', '1/2 in', '12.7']));
});

describe('what a trial comes to', () => {
  const plan = (found: Array<Partial<Finding>>, price = 100) => ({ findings: { open: found }, price: { price }, bench: { hours: { total: { mean: 10 } } } }) as unknown as Plan;
  const before = plan([{ id: 'sag.a' }, { id: 'b' }]);
  it('ends it, eases it, brings others, or cannot be built', () => {
    expect(outcome(finding([]), before, plan([{ id: 'b' }, { id: 'c', title: 'C' }], 130), [])).toEqual({ ends: true, eases: false, price_change: 30, hours_change: 0, brings: ['C'], errors: [] });
    expect(outcome(finding([]), before, plan([{ id: 'sag.a', value: 3, limit_value: 2 }]), [])).toMatchObject({ ends: false, eases: true });
    expect(outcome(finding([]), before, null, ['a', 'b']).errors).toEqual(['a', 'b']);
  });
  it('is offered only when it helps', () => {
    expect(helps(outcome(finding([]), before, plan([{ id: 'sag.a', value: 6, limit_value: 2 }]), []))).toBe(false);
    expect(helps(outcome(finding([]), before, plan([]), []))).toBe(true);
    expect(helps(outcome(finding([]), before, null, []))).toBe(false);
  });
});

describe('the option of a choice that ends a finding', () => {
  const choice = (option: string, more: object) => ({ choice: 'arch', option, says: option, picked: false, price_change: 5, hours_change: 1, days_change: 0, findings_gone: ['sag.a'], findings_new: ['x'], errors: [], ...more });
  const of = (choices: object[]) => remedies(finding([]), { choices } as unknown as Plan, [value('choices/arch/pick', 1, 1, 'sawn', undefined, 'choice')]);
  it('is found', () => expect(of([choice('bent', {})])).toMatchObject([{ says: 'bent', price_change: 5, brings: 1, to: 'bent' }]));
  it('is not the one that is taken, one that cannot be built, or one that ends another', () => {
    expect(of([choice('a', { picked: true }), choice('b', { errors: ['no'] }), choice('c', { findings_gone: [] })])).toEqual([]);
  });
});

describe('accepting a finding', () => {
  const item = '  - {finding: tip_over, reason: "It is \\"fast\\""}';
  it.each([
    ['at the end', 'commission: x\n', `commission: x\n\ndismissed:\n${item}\n`],
    ['in an empty list', 'a: 1\ndismissed: []  # none\nb: 2\n', `a: 1\ndismissed:  # none\n${item}\nb: 2\n`],
    ['before what stands there', 'dismissed:\n  - {finding: b, reason: c}\n', `dismissed:\n${item}\n  - {finding: b, reason: c}\n`],
    ['as far in as what stands there', 'dismissed:\n\n- finding: b\n  reason: c\n', `dismissed:\n${item.trim()}\n\n- finding: b\n  reason: c\n`],
  ])('is written %s', (_, text, after) => expect(with_acceptance(text, 'tip_over', ' It is "fast" \n')).toBe(after));
  it('leaves alone what is written in another way', () => expect(with_acceptance('dismissed: [{finding: b, reason: c}]\n', 'a', 'b')).toBeNull());
  it('begins with what is mostly done against tipping', () => expect([usual_reason('tip_over').includes('wall'), usual_reason('sag')]).toEqual([true, '']));
});

describe('what a part costs', () => {
  const size = (mm: number) => ({ length: length(mm), width: length(10), thickness: length(10) });
  const part = (stock: string, mm: number) => ({ stock, rough: size(mm) });
  const parts = [part('oak', 100), part('oak', 300), part('ply', 50), part('pull', 5)] as unknown as Plan['piece']['parts'];
  const plan = { piece: { parts }, stock: { solids: [{ stock: 'oak', price: 4000 }], sheets: [{ stock: 'ply', price: 999 }], purchases: [{ stock: 'oak', what: 'white oak 4/4' }] } } as unknown as Plan;
  it('is its share of the stock by rough volume, and the shares add up', () => {
    expect([0, 1].map((at) => part_cost(plan, parts[at]!))).toEqual([1000, 3000]);
    expect(part_cost(plan, parts[2]!)).toBe(999);
  });
  it('is not known of what is bought in', () => expect([part_cost(plan, parts[3]!), stock_price(plan, 'pull')]).toEqual([null, null]));
  it('is called what the shopping list calls it', () => expect([stock_name(plan, 'oak'), stock_name(plan, 'birch_ply_18')]).toEqual(['white oak 4/4', 'birch ply 18']));
});
