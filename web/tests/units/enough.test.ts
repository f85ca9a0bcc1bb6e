import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/api/plan';
import { enough_in_words, timber } from '../../src/stock/enough';

type Solid = Plan['stock']['solids'][number];
const drawn = {
  odds: {
    purchases: 120, planned_board_feet: 54, planned_odds: 0.983, best_board_feet: 50, best_odds: 0.87, trip: 9817, left_over: 504, from: '',
    enough: [{ odds: 0.8, board_feet: 48.99, boards: 9 }, { odds: 0.99, board_feet: 7.5, boards: 1 }],
  },
} as unknown as Solid;

describe('how sure the boards are to be enough', () => {
  it('is said with times in a hundred', () => {
    expect(enough_in_words(drawn, 'inch', 'USD')).toBe(
      'The boards asked for hold everything 98 times in 100. Enough 80 times with 49 board feet (9 boards), 99 times with 7.5 board feet (1 board). '
      + 'Cheapest on average: 50 board feet, at $98.17 for another trip.');
  });
  it('is silent when no purchase was drawn', () => {
    expect(enough_in_words({} as Solid, 'mm', 'EUR')).toBe('');
  });
});

// 1 m3 = 423.776 board feet: NIST Handbook 44, appendix C (from memory).
it('gives timber in cubic metres where millimetres are at home', () => {
  expect(timber(423.776, 'mm')).toBe('1.000 m3');
  expect(timber(9.96, 'inch')).toBe('10.0 board feet');
});
