import { describe, expect, it } from 'vitest';
import { bare_length, date, hours_change, length, mass, minutes, money, sizes } from '../../src/look/format';
import { pieces_of, raised } from '../../src/look/fractions';

describe('sizes', () => {
  // 1 in is 25.4 mm exactly (international inch, 1959).
  it.each([
    [25.4, 'inch', '1'], [19.05, 'inch', '3/4'], [447.675, 'inch', '17 5/8'], [0.79375, 'inch', '1/32'], [0, 'inch', '0'],
    [20, 'inch', '25/32+'], [19, 'inch', '3/4-'], [-19.05, 'inch', '-3/4'], [25.3, 'inch', '1-'],
    [18, 'mm', '18'], [714.8, 'mm', '714.8'], [6.35, 'mm', '6.4'], [-0.01, 'mm', '0'],
  ] as const)('%d mm in %s is %s', (mm, unit, text) => expect(bare_length(mm, unit)).toBe(text));
  it('says the unit once', () => {
    expect(length(19.05, 'inch')).toBe('3/4 in');
    expect(sizes([2100, 950, 750], 'mm')).toBe('2100 × 950 × 750 mm');
  });
  it('weighs in the unit of the sizes', () => {
    expect(mass(0.45359237 * 135, 'inch')).toBe('135 lb'); // the international pound
    expect(mass(2.26, 'mm')).toBe('2.3 kg');
  });
});

describe('money, hours, dates', () => {
  it('shows pence only where they matter', () => {
    expect([money(600000, 'USD'), money(8034, 'USD'), money(-10000, 'GBP'), money(8100, 'CHF')]).toEqual(['$6,000', '$80.34', '−£100', 'CHF 81']);
  });
  it('rounds hours to halves and minutes to what can be known', () => {
    expect([hours_change(2.28), hours_change(-5.19), hours_change(0.1)]).toEqual(['+2.5 h', '−5 h', 'no change']);
    expect([minutes(4.6), minutes(43), minutes(60), minutes(200), minutes(0.1)]).toEqual(['5 min', '45 min', '1 h', '3.5 h', '1 min']);
  });
  it('spells out dates and leaves anything else', () => {
    expect([date('2026-06-26'), date('soon'), date(undefined)]).toEqual(['26 June 2026', 'soon', '']);
  });
});

describe('fractions', () => {
  it('raises the power of a metre and nothing else', () => expect(['6.8 m2', '0.024 m3', 'M8 x 100', 'm2', '5 m25', '3 mm2'].map(raised)).toEqual(['6.8 m²', '0.024 m³', 'M8 x 100', 'm2', '5 m25', '3 mm2']));
  const fractions = (line: string) => pieces_of(line).filter((piece) => piece.fraction).map((piece) => piece.text);
  it.each([
    ['Fence at 16 1/4 in', ['1/4']], ['a third: 9/32+ in', ['9/32']], ['black cherry 4/4', []], ['oak 8/4, 5/4', []],
    ['on 03/04/2026', []], ['1/2 in of 7/8 in', ['1/2', '7/8']], ['', []],
  ])('%s', (line, found) => expect(fractions(line)).toEqual(found));
  it('loses no letter', () => {
    for (const line of ['Fence at 16 1/4 in', '1/2 in of 7/8 in', 'span / 360']) {
      expect(pieces_of(line).map((piece) => piece.text).join('').replaceAll(' ', '')).toBe(line.replaceAll(' ', ''));
    }
  });
});
