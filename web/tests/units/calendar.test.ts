import { describe, expect, it } from 'vitest';
import { agenda, days_of, fits, hours_of, idle_minutes, monday_of, promised_in_words, rows_without_cover, shown_days, stretches, weekday, weeks_of, type Calendar, type Entry } from '../../src/calendar/days';
import { marks_of, place_among, wanted_in_words } from '../../src/calendar/marks';
import { rows_of, shortened } from '../../src/calendar/pictures';

const entry = (name: string, starts: string, ends: string, more: Partial<Entry> = {}): Entry => ({
  commission: 0, operation: 0, name, phase: '', machine: '', starts, ends, free: ends, hands_on_minutes: 10, people: 1, who: ['Ada'], helper: false, called_in: false, waits_for: '', drives: false, critical: 0, ...more,
});
const calendar = (entries: Entry[], more: Partial<Calendar> = {}): Calendar => ({
  starts: '2026-03-02', finish: { planned: '2026-03-06', odds: [] }, bound: '2026-03-06', proven: false, draws: 0, commissions: [], entries, driven_by: [], critical: [], held_up: [], weeks: [], deliveries: [], freezes: [], overlaps: [], notes: [], ...more,
});
const hours = { opens: 480, closes: 960 };

describe('days', () => {
  // ISO 8601: 2026-01-01 is a Thursday and 2026-W01 begins on Monday 2025-12-29.
  it('knows the weekday and the Monday', () => {
    expect(weekday('2026-01-01')).toBe(3);
    expect(monday_of('2026-01-01')).toBe('2025-12-29');
    expect(monday_of('2028-02-29')).toBe('2028-02-28');
  });
  it('shows weekdays, and a weekend only when there is work', () => {
    expect(shown_days('2026-03-06', '2026-03-09', [])).toEqual(['2026-03-06', '2026-03-09']);
    expect(shown_days('2026-03-06', '2026-03-09', [entry('a', '2026-03-07T08:00', '2026-03-07T09:00')])).toEqual(['2026-03-06', '2026-03-07', '2026-03-09']);
  });
  it('goes on to a day after the work when asked, and has none without work', () => {
    const one = calendar([entry('a', '2026-03-05T08:00', '2026-03-05T09:00')]);
    expect(days_of(one)).toEqual(['2026-03-05']);
    expect(days_of(one, '2026-03-09')).toEqual(['2026-03-05', '2026-03-06', '2026-03-09']);
    expect(days_of(calendar([]))).toEqual([]);
    expect(weeks_of(days_of(one, '2026-03-09')).map((week) => week.monday)).toEqual(['2026-03-02', '2026-03-09']);
  });
  it('takes the hours of the shop from its work, eight to four at least', () => {
    expect(hours_of([])).toEqual(hours);
    expect(hours_of([entry('a', '2026-03-05T07:30', '2026-03-05T16:10')])).toEqual({ opens: 420, closes: 1020 });
  });
});

describe('what stands in a day', () => {
  const days = ['2026-03-05', '2026-03-06', '2026-03-09'];
  it('is cut at closing time, and what dries over a weekend stands in every day of it', () => {
    const coat = entry('coat', '2026-03-05T15:00', '2026-03-06T09:00', { free: '2026-03-09T05:00' });
    expect(stretches(coat, hours, days)).toEqual([
      { day: '2026-03-05', from: 900, to: 960, alone: false }, { day: '2026-03-06', from: 480, to: 540, alone: false }, { day: '2026-03-06', from: 540, to: 960, alone: true },
    ]);
  });
  it('never covers itself in a row, and loses nothing', () => {
    const bars = [[0, 3], [1, 2], [2, 5], [3, 4], [5, 6]].map(([from, to]) => ({ from: from!, to: to! }));
    const rows = rows_without_cover(bars);
    expect(rows.length).toBe(2);
    expect(rows.flat().length).toBe(bars.length);
    for (const row of rows) for (let at = 1; at < row.length; at++) expect(row[at]!.from).toBeGreaterThanOrEqual(row[at - 1]!.to);
  });
  it('sets work of one name that follows on itself as one line, by the same people only', () => {
    const rip = (starts: string, ends: string, who = ['Ada']) => entry('Rip', `2026-03-05T${starts}`, `2026-03-05T${ends}`, { who });
    const lines = agenda(calendar([rip('08:00', '08:10'), rip('08:10', '08:30'), rip('08:30', '08:40', ['Bo']), rip('09:00', '09:10')]), hours, days).get('2026-03-05')!;
    expect(lines.map((line) => [line.from, line.to, line.times, line.minutes])).toEqual([[480, 510, 2, 20], [510, 520, 1, 10], [540, 550, 1, 10]]);
  });
  it('says on the next day that it goes on, and does not join what follows a wait', () => {
    const glue = entry('Glue', '2026-03-05T15:30', '2026-03-06T08:30', { free: '2026-03-06T09:15' });
    const found = agenda(calendar([glue, entry('Glue', '2026-03-06T08:30', '2026-03-06T09:00')]), hours, days);
    expect(found.get('2026-03-05')!.map((line) => line.goes_on)).toEqual([false]);
    expect(found.get('2026-03-06')!.map((line) => [line.goes_on, line.times])).toEqual([[true, 1], [false, 1]]);
  });
  it('says what fits into a wait, with its minutes', () => {
    const wait = { entry: 0, open_minutes: 45, fits: [{ name: 'Rip', times: 2, minutes: 26.4 }, { name: 'Sand', times: 1, minutes: 19 }], says: '' };
    expect(fits(wait)).toEqual(['Rip (2 times, 26 min)', 'Sand (19 min)']);
    const none = { ...wait, fits: [] };
    expect(fits(none)).toBeNull();
    expect(idle_minutes(calendar([], { overlaps: [none, { ...wait, entry: 1, open_minutes: 30 }] }))).toBe(45);
  });
  it('says how much of a week is promised', () => {
    const one = calendar([], { weeks: [{ monday: '2026-03-02', at_hand_minutes: 1800, promised_minutes: [450] }, { monday: '2026-03-09', at_hand_minutes: 0, promised_minutes: [0] }] });
    expect(['2026-03-02', '2026-03-09', '2026-03-16'].map((monday) => promised_in_words(one, monday))).toEqual(['7.5 h of 30 h hands-on time at hand', '', '']);
  });
  it('has people before machines, and what is left alone last', () => {
    const rows = rows_of([entry('a', '2026-03-05T08:00', '2026-03-05T09:00', { machine: 'table saw', free: '2026-03-05T10:00' })], hours, days, true);
    expect(rows.map((row) => [row.name, row.alone, row.bars.length])).toEqual([['Ada', false, 1], ['table saw', false, 1], ['left alone', true, 1]]);
    expect(rows[0]!.bars[0]).toMatchObject({ from: 0, to: 0.125 });
    expect(rows[2]!.bars[0]).toMatchObject({ from: 0.125, to: 0.25 });
  });
  it('shortens a name to its room, and to nothing where that says nothing', () => expect([shortened('Crosscut', 200, 10), shortened('Crosscut', 40, 10), shortened('Crosscut', 20, 10)]).toEqual(['Crosscut', 'Crossc…', '']));
});

describe('marks', () => {
  const delivery = (what: string, order_by: string, late = false) => ({ commission: 0, purchase: 0, what, lead_days: 3, needed: order_by, order_by, late });
  const one = calendar([], {
    deliveries: [delivery('oak', '2026-03-04'), delivery('ash', '2026-03-04', true), delivery('pins', '2026-05-01')], freezes: [{ commission: 0, date: '2026-03-05', what: 'openings', why: 'cut' }],
    finish: { planned: '2026-03-06', odds: [{ share: 0.5, date: '2026-03-09' }, { share: 0.8, date: '2026-03-09' }, { share: 0.9, date: '2026-03-10' }] },
  });
  it('stand once a day and kind, late when one of them is', () => {
    expect(marks_of(one, '2026-06-01').map((mark) => [mark.day, mark.kind, mark.says.length, mark.late])).toEqual([
      ['2026-03-04', 'order', 2, true], ['2026-03-05', 'freeze', 1, false], ['2026-03-09', 'ready', 2, false], ['2026-03-10', 'ready', 1, false], ['2026-05-01', 'order', 1, false], ['2026-06-01', 'wanted', 1, false],
    ]);
  });
  it('keep their place when they are beyond the days that are drawn', () => {
    const days = ['2026-03-05', '2026-03-06', '2026-03-09'];
    expect(['2026-03-04', '2026-03-05', '2026-03-08', '2026-03-09', '2026-03-10'].map((day) => place_among(day, days))).toEqual(['before', 0, 1, 2, 'behind']);
    expect(place_among('2026-03-04', [])).toBe('behind');
  });
  it('say how sure the wanted date is', () => {
    const finish = (wanted_holds: number, spare_days: number) => ({ planned: '', odds: [], wanted_holds, spare_days });
    expect(wanted_in_words(finish(1, 61), '2026-06-26')).toBe('Wanted 26 June 2026: that is safe; work may begin 61 working days later, four times in five.');
    expect(wanted_in_words(finish(0.42, -3), '2026-06-26')).toBe('Wanted 26 June 2026: that holds in 42 of 100 such jobs; it would have to begin 3 working days earlier.');
    expect(wanted_in_words(finish(0, 0), '2026-06-26')).toContain('cannot be kept');
    expect(wanted_in_words({ planned: '', odds: [] }, undefined)).toBe('');
  });
});
