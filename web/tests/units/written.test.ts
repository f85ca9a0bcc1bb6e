import { describe, expect, it } from 'vitest';
import { next_size, named_values, overall_sizes, values_of } from '../../src/piece/written_values';
import type { WrittenValue } from '../../src/api/server';
import { differing_lines } from '../../src/text/differing';
import { extent_of } from '../../src/text/extent';
import { place_at } from '../../src/text/place';
import { offers, type Schema } from '../../src/text/completion';
import { first_step, redone, stepped, undone } from '../../src/state/undo';
import { address_of, route_of } from '../../src/state/route';

describe('a stepper', () => {
  it.each([
    ['50', 1270, 'inch', 1, '50 1/32'], ['50', 1270, 'inch', -1, '49 31/32'], ['3/4', 19.05, 'inch', 1, '25/32'],
    ['860', 860, 'mm', 1, '860.5'], ['18 mm', 18, 'inch', -1, '17.5 mm'], ['3/4 in', 19.05, 'mm', 1, '25/32 in'],
    ['20 mm', 20.2, 'mm', 1, '20.5 mm'], ['0', 0, 'mm', -1, '0'],
  ] as const)('from %s (%d mm, %s) by %d', (written, mm, unit, way, to) => expect(next_size(written, mm, unit, way)).toBe(to));
});

const value = (path: string, line: number, column: number): WrittenValue => ({ path, line, column, written: '1', kind: 'length' });

describe('which values made a part', () => {
  const values = [value('names/side', 1, 9), value('piece/width', 2, 10), value('piece/stack/0/frame/leg/size', 4, 12), value('piece/stack/0/frame/leg/taper', 4, 30), value('piece/stack/0/frame/rail/height', 5, 12)];
  it('takes those beside the first at its place', () => {
    const found = values_of({ from: { file: 'a', line: 4, column: 5 } }, values);
    expect(found.map((one) => one.path)).toEqual(['piece/stack/0/frame/leg/size', 'piece/stack/0/frame/leg/taper']);
  });
  it('finds none behind the last', () => expect(values_of({ from: { file: 'a', line: 90, column: 1 } }, values)).toEqual([]));
  it('knows overall sizes and names', () => expect([overall_sizes(values), named_values(values)].map((found) => found.map((one) => one.path))).toEqual([['piece/width'], ['names/side']]));
});

describe('undo', () => {
  it('takes typing back as one step and steppers one by one', () => {
    let steps = first_step('a');
    steps = stepped(steps, 'ab', 1000, true);
    steps = stepped(steps, 'abc', 1100, true);
    expect(undone(steps).present).toBe('a');
    steps = stepped(steps, 'abcd', 1150, false);
    steps = undone(steps);
    expect(steps.present).toBe('abc');
    expect(redone(steps).present).toBe('abcd');
    expect(undone(undone(undone(undone(steps)))).present).toBe('a');
  });
});

describe('two texts', () => {
  it('marks only the lines that are not in both', () => {
    const [left, right] = differing_lines('a\nb\nc\nd', 'a\nx\nc\nd\ne');
    expect(left.map((line) => line.other)).toEqual([false, true, false, false]);
    expect(right.map((line) => line.other)).toEqual([false, true, false, false, true]);
    expect(right.map((line) => line.text).join('\n')).toBe('a\nx\nc\nd\ne');
  });
  it('marks nothing in equal texts', () => expect(differing_lines('a\nb', 'a\nb').flat().some((line) => line.other)).toBe(false));
});

describe('under which words an error stands', () => {
  const text = 'piece:\n  leg: {size: 1 3/4, taper: yes}\n';
  it.each([[2, 15, '1 3/4'], [2, 3, 'leg'], [1, 1, 'piece'], [99, 99, '']])('line %d column %d', (line, column, word) => {
    const { from, to } = extent_of(text, { line, column });
    expect(text.slice(from, to)).toBe(word);
  });
});

describe('completion', () => {
  const text = 'commission: x\nuse:\n  what: table\npiece:\n  stack:\n    - name: base\n      leg_and_rail_frame:\n        leg: {stock: oak, \n        ra';
  it.each([
    [text.length, ['piece', 'stack', '[]', 'leg_and_rail_frame', 'leg'], undefined, 'ra'],
    [text.indexOf('oak') + 2, ['piece', 'stack', '[]', 'leg_and_rail_frame', 'leg'], 'stock', 'oa'],
    [text.indexOf('table') + 1, ['use'], 'what', 't'],
    [3, [], undefined, 'com'],
  ])('knows the place at %d', (offset, path, key, word) => expect(place_at(text, offset)).toEqual({ path, ...(key ? { key } : {}), word }));
  it('comes out of closed braces', () => {
    const closed = text.replace('oak, ', 'oak}');
    expect(place_at(closed, closed.length)).toEqual({ path: ['piece', 'stack', '[]', 'leg_and_rail_frame'], word: 'ra' });
  });
  const schema: Schema = { type: 'object', properties: { use: { $ref: '#/$defs/use' }, units: { enum: ['inch', 'mm'], description: 'Of bare numbers' } }, $defs: { use: { properties: { what: {}, children: { description: 'Are there children' } } } } };
  it('offers keys and words that may stand there', () => {
    expect(offers(schema, { path: [], word: 'u' }).map((one) => one.word)).toEqual(['use', 'units']);
    expect(offers(schema, { path: ['use'], word: 'ch' })).toEqual([{ word: 'children', says: 'Are there children', key: true }]);
    expect(offers(schema, { path: [], key: 'units', word: '' }).map((one) => one.word)).toEqual(['inch', 'mm']);
    expect(offers(schema, { path: ['nowhere'], word: '' })).toEqual([]);
  });
});

describe('addresses', () => {
  it.each([['/', 'shelf'], ['/c/a_1', 'piece'], ['/c/a/price', 'price'], ['/c/a/nothing', 'piece'], ['/c/../etc', 'shelf']])('%s shows %s', (path, sheet) => expect(route_of(path).sheet).toBe(sheet));
  it('come back to the same sheet', () => expect(route_of(address_of('wall', 'bench'))).toEqual({ sheet: 'bench', id: 'wall' }));
});
