// The calendar of a plan laid out in days: which are shown, what stands in them, where a mark falls.
import type { Plan } from '../api/plan';
import * as format from '../look/format';

export type Calendar = NonNullable<Plan['calendar']>;
export type Entry = Calendar['entries'][number];
/** Minutes after midnight between which the shop is at work. */
export type Hours = { opens: number; closes: number };
/** A part of one day: worked on, or left alone to set, dry or come back. */
export type Stretch = { day: string; from: number; to: number; alone: boolean };

const kDay = 86_400_000;
export const day_of = (moment: string) => moment.slice(0, 10);
export const minute_of = (moment: string) => Number(moment.slice(11, 13)) * 60 + Number(moment.slice(14, 16));
export const clock = (minute: number) => `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
const number_of = (day: string) => Math.round(Date.parse(`${day}T00:00:00Z`) / kDay);
export const later_by = (day: string, days: number) => new Date((number_of(day) + days) * kDay).toISOString().slice(0, 10);
/** 0 is Monday. */
export const weekday = (day: string) => (number_of(day) + 3) % 7;
export const monday_of = (day: string) => later_by(day, -weekday(day));

/** Whole hours that hold all the work there is. */
export function hours_of(entries: readonly Entry[]): Hours {
  const opens = Math.min(...entries.map((one) => minute_of(one.starts)), 8 * 60);
  const closes = Math.max(...entries.map((one) => minute_of(one.ends)), 16 * 60);
  return { opens: Math.floor(opens / 60) * 60, closes: Math.ceil(closes / 60) * 60 };
}

/** Every weekday from `first` to `last`, and the days of a weekend on which there is work. */
export function shown_days(first: string, last: string, entries: readonly Entry[]): string[] {
  const worked = new Set(entries.flatMap((one) => [day_of(one.starts), day_of(one.ends)]));
  const days: string[] = [];
  for (let day = first; day <= last; day = later_by(day, 1)) if (weekday(day) < 5 || worked.has(day)) days.push(day);
  return days;
}

/** From the first piece of work to the last, or to `at_least`. */
export function days_of(calendar: Calendar, at_least = ''): string[] {
  const { entries } = calendar;
  if (entries.length === 0) return [];
  const first = entries.map((one) => day_of(one.starts)).sort()[0]!;
  const last = [...entries.map((one) => day_of(one.ends)), at_least].sort().at(-1)!;
  return shown_days(first, last, entries);
}

export function weeks_of(days: readonly string[]): Array<{ monday: string; days: string[] }> {
  const weeks = new Map<string, string[]>();
  for (const day of days) weeks.set(monday_of(day), [...(weeks.get(monday_of(day)) ?? []), day]);
  return [...weeks].map(([monday, own]) => ({ monday, days: own }));
}

function between(from: string, to: string, { opens, closes }: Hours, days: readonly string[], alone: boolean): Stretch[] {
  return days.filter((day) => day >= day_of(from) && day <= day_of(to)).flatMap((day) => {
    const begins = day === day_of(from) ? Math.max(opens, minute_of(from)) : opens;
    const ends = day === day_of(to) ? Math.min(closes, minute_of(to)) : closes;
    return ends > begins ? [{ day, from: begins, to: ends, alone }] : [];
  });
}

/** An entry cut at the ends of the days: first what is worked on, then what is left alone. */
export function stretches(entry: Entry, hours: Hours, days: readonly string[]): Stretch[] {
  return [...between(entry.starts, entry.ends, hours, days, false), ...between(entry.ends, entry.free, hours, days, true)];
}

/** Rows in which nothing covers anything else, as few as a first fit gives. */
export function rows_without_cover<T extends { from: number; to: number }>(bars: readonly T[]): T[][] {
  const rows: T[][] = [];
  for (const bar of [...bars].sort((a, b) => a.from - b.from)) {
    const free = rows.find((row) => row.at(-1)!.to <= bar.from + 1e-9);
    if (free) free.push(bar); else rows.push([bar]);
  }
  return rows;
}

export type AgendaLine = { entries: number[]; from: number; to: number; name: string; times: number; minutes: number; goes_on: boolean; alone_until: string };

/** What is done on each day, in its order; work of one name by the same people that follows on itself
 *  is one line. `entries` are indices in the calendar. */
export function agenda(calendar: Calendar, hours: Hours, days: readonly string[]): Map<string, AgendaLine[]> {
  const found = new Map<string, AgendaLine[]>(days.map((day) => [day, []]));
  calendar.entries.forEach((entry, index) => {
    for (const part of stretches(entry, hours, days)) {
      if (part.alone) continue;
      const lines = found.get(part.day)!;
      const before = lines.filter((line) => calendar.entries[line.entries[0]!]!.who.join() === entry.who.join()).at(-1);
      const alone_until = entry.free > entry.ends ? entry.free : '';
      if (before && before.name === entry.name && before.to === part.from && !before.alone_until) {
        before.entries.push(index);
        Object.assign(before, { to: part.to, times: before.times + 1, minutes: before.minutes + entry.hands_on_minutes, alone_until });
      } else {
        const goes_on = part.day !== day_of(entry.starts);
        lines.push({ entries: [index], from: part.from, to: part.to, name: entry.name, times: 1, minutes: entry.hands_on_minutes, goes_on, alone_until });
      }
    }
  });
  for (const lines of found.values()) lines.sort((a, b) => a.from - b.from || a.to - b.to);
  return found;
}

/** What fits into a wait: "Rip to width (4 times, 31 min)". Null when nothing of this work does. */
export function fits(overlap: Calendar['overlaps'][number]): string[] | null {
  if (overlap.fits.length === 0) return null;
  return overlap.fits.map(({ name, times, minutes }) => `${name} (${times > 1 ? `${times} times, ` : ''}${Math.round(minutes)} min)`);
}

/** Minutes of waiting into which nothing of this commission fits. */
export const idle_minutes = (calendar: Calendar) =>
  calendar.overlaps.filter((one) => fits(one) === null).reduce((sum, one) => sum + one.open_minutes, 0);

/** How much of a week this commission takes of what all who are in have to give. */
export function promised_in_words({ weeks }: Calendar, monday: string): string {
  const week = weeks.find((one) => one.monday === monday);
  if (!week || week.at_hand_minutes <= 0) return '';
  return `${format.minutes(week.promised_minutes[0] ?? 0)} of ${format.minutes(week.at_hand_minutes)} hands-on time at hand`;
}
