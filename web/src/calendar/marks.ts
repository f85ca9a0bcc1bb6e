// What is not work but a day: to order by, to freeze, wanted, ready.
import * as format from '../look/format';
import type { Plan } from '../api/plan';
import type { Calendar } from './days';

export type Mark = { day: string; kind: 'order' | 'freeze' | 'ready' | 'wanted'; says: string[]; late: boolean };

const kShares: Record<string, string> = { '0.5': 'half of such jobs', '0.8': 'four in five', '0.9': 'nine in ten' };
const share_in_words = (share: number) => kShares[String(share)] ?? format.percent(share * 100);

/** One mark a day and kind, by day. */
export function marks_of(calendar: Calendar, wanted: string | undefined): Mark[] {
  const found = new Map<string, Mark>();
  const add = (day: string, kind: Mark['kind'], says: string, late = false) => {
    const mark = found.get(day + kind) ?? { day, kind, says: [], late: false };
    mark.says.push(says);
    mark.late ||= late;
    found.set(day + kind, mark);
  };
  for (const one of calendar.deliveries) add(one.order_by, 'order', one.what, one.late);
  for (const one of calendar.freezes) add(one.date, 'freeze', one.what);
  for (const one of calendar.finish.odds) add(one.date, 'ready', share_in_words(one.share));
  if (wanted) add(wanted, 'wanted', 'wanted');
  return [...found.values()].sort((a, b) => a.day.localeCompare(b.day) || a.kind.localeCompare(b.kind));
}

/** Where a day stands among those drawn: its place, or before or behind them all. A day that is not
 *  drawn, a weekend, stands with the last drawn day before it. */
export function place_among(day: string, days: readonly string[]): number | 'before' | 'behind' {
  if (days.length === 0 || day > days.at(-1)!) return 'behind';
  if (day < days[0]!) return 'before';
  return days.filter((one) => one <= day).length - 1;
}

/** How sure the wanted date is, as one says it. */
export function wanted_in_words(finish: Calendar['finish'], wanted: string | undefined): string {
  if (!wanted || finish.wanted_holds === undefined) return '';
  const day = format.date(wanted);
  const holds = finish.wanted_holds;
  const odds = holds > 0.99 ? 'is safe' : holds < 0.01 ? 'cannot be kept' : `holds in ${Math.round(holds * 100)} of 100 such jobs`;
  const spare = finish.spare_days ?? 0;
  const room = spare > 0 ? `; work may begin ${format.count(spare, 'working day')} later, four times in five`
    : spare < 0 ? `; it would have to begin ${format.count(-spare, 'working day')} earlier` : '';
  return `Wanted ${day}: that ${odds}${room}.`;
}

/** The day that holds four times in five. */
export const ready_day = (plan: Plan) => plan.calendar?.finish.odds.find((one) => one.share === 0.8)?.date;
