import type { Plan } from '../api/plan';
import * as format from '../look/format';

type Solid = Plan['stock']['solids'][number];

/** A cubic metre in board feet: 144 cubic inches of 25.4 mm each. */
const kBoardFeetInCubicMetre = 1e9 / (144 * 25.4 ** 3);

/** A volume of rough timber as it is sold where the unit is at home. */
export function timber(board_feet: number, unit: format.Unit): string {
  return unit === 'inch'
    ? `${board_feet.toFixed(board_feet < 10 ? 1 : 0)} board feet`
    : `${(board_feet / kBoardFeetInCubicMetre).toFixed(3)} m3`;
}

const times = (odds: number) => format.count(Math.round(odds * 100), 'time');

/** How sure the boards asked for are to be enough, and what would be; nothing when it was not drawn. */
export function enough_in_words(solid: Solid, unit: format.Unit, currency: string): string {
  const odds = solid.odds;
  if (!odds || odds.purchases === 0) return '';
  const steps = odds.enough.map((one) => `${times(one.odds)} with ${timber(one.board_feet, unit)} (${format.count(one.boards, 'board')})`);
  return `The boards asked for hold everything ${times(odds.planned_odds)} in 100. Enough ${steps.join(', ')}. `
    + `Cheapest on average: ${timber(odds.best_board_feet, unit)}, at ${format.money(odds.trip, currency)} for another trip.`;
}
