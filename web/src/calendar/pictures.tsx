// The days drawn: what somebody works on solid, what is left alone hatched.
import * as format from '../look/format';
import { clock, hours_of, rows_without_cover, stretches, weekday, type Calendar, type Entry, type Hours } from './days';
import { place_among, type Mark } from './marks';

type Bar = { from: number; to: number; name: string; drives: boolean; says: string };
type Row = { name: string; bars: Bar[]; alone: boolean };
const [kLeft, kWide, kRow, kLetter] = [136, 1040, 24, 11];
export const kWeekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
const day_number = (day: string) => Number(day.slice(8));
const short_day = (day: string) => format.short_date(day).replace(/ \d{4}$/, '');

/** Bars of some entries in days of equal width: one day is 1. */
function bars_of(entries: readonly Entry[], hours: Hours, days: readonly string[], alone: boolean): Bar[] {
  const across = (minute: number) => (minute - hours.opens) / (hours.closes - hours.opens);
  return entries.flatMap((entry) => stretches(entry, hours, days).filter((part) => part.alone === alone).map((part) => ({
    from: days.indexOf(part.day) + across(part.from), to: days.indexOf(part.day) + across(part.to), name: entry.name, drives: entry.drives && !alone,
    says: `${entry.name}, ${short_day(part.day)} ${clock(part.from)} to ${clock(part.to)}${alone ? ', left alone' : ''}`,
  })));
}

/** People first, then machines, then what is left alone. */
export function rows_of(entries: readonly Entry[], hours: Hours, days: readonly string[], with_machines: boolean): Row[] {
  const people = [...new Set(entries.flatMap((one) => one.who))];
  const machines = with_machines ? [...new Set(entries.map((one) => one.machine).filter(Boolean))].sort() : [];
  const row = (name: string, own: readonly Entry[]): Row => ({ name, bars: bars_of(own, hours, days, false), alone: false });
  const nameless = entries.filter((one) => one.who.length === 0);
  const rows = [
    ...people.map((name) => row(name, entries.filter((one) => one.who.includes(name)))),
    ...(nameless.length > 0 ? [row('nobody in yet', nameless)] : []),
    ...machines.map((name) => row(name, entries.filter((one) => one.machine === name))),
  ].filter((one) => one.bars.length > 0);
  const alone = rows_without_cover(bars_of(entries, hours, days, true));
  return [...rows, ...alone.map((bars, at) => ({ name: at === 0 ? 'left alone' : '', bars, alone: true }))];
}

/** As much of a name as has room. */
export function shortened(name: string, wide: number, letter: number): string {
  const room = Math.floor(wide / (letter * 0.53));
  return name.length <= room ? name : room < 5 ? '' : `${name.slice(0, room - 1).trimEnd()}…`;
}

function Rows({ rows, top, day_width, hatch }: { rows: readonly Row[]; top: number; day_width: number; hatch: string }) {
  return (
    <>
      {rows.map((row, at) => {
        const y = top + at * kRow;
        return (
          <g key={at}>
            <path d={`M0 ${y} H${kWide}`} class="faintline" />
            <text x={kLeft - 8} y={y + 16} font-size={kLetter} text-anchor="end">{shortened(row.name, kLeft - 10, kLetter)}</text>
            {row.bars.map((bar, index) => {
              const [x, wide] = [kLeft + bar.from * day_width, Math.max(1, (bar.to - bar.from) * day_width - 0.6)];
              const label = shortened(bar.name, wide - 6, kLetter - 1);
              return (
                <g key={index}>
                  <title>{bar.says}</title>
                  <rect x={x} y={y + 3} width={wide} height={kRow - 6} fill={row.alone ? `url(#${hatch})` : bar.drives ? 'var(--accent)' : 'var(--bar)'} stroke={row.alone ? 'var(--soft)' : 'none'} stroke-width="0.7" />
                  {label && <text x={x + 4} y={y + 16} font-size={kLetter - 1} class={row.alone ? 'clear' : ''} style={{ fill: row.alone ? 'var(--pencil)' : bar.drives ? 'var(--on-accent)' : 'var(--on-bar)' }}>{label}</text>}
                </g>
              );
            })}
          </g>
        );
      })}
      <path d={`M0 ${top + rows.length * kRow} H${kWide}`} class="faintline" />
    </>
  );
}

const Hatch = ({ id }: { id: string }) => (
  <defs><pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0 V5" stroke="var(--soft)" stroke-width="1.4" /></pattern></defs>
);

/** One week: people, machines and what is left alone as rows. */
export function WeekPicture({ entries, days, hours, monday }: { entries: readonly Entry[]; days: readonly string[]; hours: Hours; monday: string }) {
  const rows = rows_of(entries, hours, days, true);
  const day_width = (kWide - kLeft) / days.length;
  const [top, high] = [34, 34 + rows.length * kRow];
  const between = Array.from({ length: (hours.closes - hours.opens) / 60 - 1 }, (_, at) => (at + 1) / ((hours.closes - hours.opens) / 60));
  return (
    <svg class="week-picture" viewBox={`0 0 ${kWide} ${high + 4}`} role="img" aria-label={`Week of ${format.date(monday)}: ${rows.filter((row) => row.name && !row.alone).map((row) => row.name).join(', ')}. The list below says the same in words.`}>
      <Hatch id={`hatch-${monday}`} />
      {days.map((day, at) => {
        const x = kLeft + at * day_width;
        return (
          <g key={day}>
            <path d={`M${x} 6 V${high}`} class="thin" />
            <text x={x + 6} y="15" font-size="12" font-weight="650">{`${kWeekdays[weekday(day)]} ${short_day(day)}`}</text>
            <text x={x + 6} y="29" font-size="10" class="soft-text">{clock(hours.opens)}</text>
            <text x={x + day_width - 5} y="29" font-size="10" text-anchor="end" class="soft-text">{clock(hours.closes)}</text>
            {between.map((share) => <path key={share} d={`M${x + share * day_width} ${top - 4} V${high}`} class="faintline" stroke-width="0.5" />)}
          </g>
        );
      })}
      <path d={`M${kWide} 6 V${high}`} class="thin" />
      <Rows rows={rows} top={top} day_width={day_width} hatch={`hatch-${monday}`} />
    </svg>
  );
}

const kMeans: Record<Mark['kind'], string> = { order: 'order by', freeze: 'freeze', ready: 'ready:', wanted: '' };
const kSigns: Record<Mark['kind'], string> = { order: 'M0 0 L-6 11 H6z', freeze: 'M-5 0 V11 M0 0 V11 M5 0 V11', ready: 'M0 5.5 m-6 0 a6 6 0 1 0 12 0 a6 6 0 1 0 -12 0', wanted: 'M-6 0 H6 V11 H-6z' };
/** The sign of a mark: a triangle to order, three bars to freeze, a ring when ready, a box when wanted. */
export function Sign({ kind, late = false }: { kind: Mark['kind']; late?: boolean }) {
  const filled = late || kind === 'order';
  return <path d={kSigns[kind]} fill={filled ? (late ? 'var(--pencil)' : 'var(--accent)') : 'none'} stroke={late ? 'var(--pencil)' : 'var(--accent)'} stroke-width="2" />;
}

/** All days at once, with the days to order by, to freeze, ready and wanted; those beyond the work stand
 *  behind a break, each with its date. */
export function Overview({ calendar, days, marks }: { calendar: Calendar; days: readonly string[]; marks: readonly Mark[] }) {
  const hours = hours_of(calendar.entries);
  const rows = rows_of(calendar.entries, hours, days, false).filter((row) => row.name);
  const outside = (where: 'before' | 'behind') => marks.filter((mark) => place_among(mark.day, days) === where);
  const [before, behind] = [outside('before'), outside('behind')];
  const slot = 58;
  const left = kLeft + before.length * slot + (before.length > 0 ? 14 : 0);
  const right = kWide - behind.length * slot - (behind.length > 0 ? 14 : 0);
  const day_width = Math.max(6, (right - left) / days.length);
  const [top, high] = [30, 30 + rows.length * kRow];
  const every = Math.max(1, Math.ceil(44 / day_width));
  const x_of = (mark: Mark): number => {
    const at = place_among(mark.day, days);
    if (at === 'before') return kLeft + (before.indexOf(mark) + 0.5) * slot;
    if (at === 'behind') return right + 14 + (behind.indexOf(mark) + 0.5) * slot;
    const twin = marks.filter((one) => place_among(one.day, days) === at).indexOf(mark);
    return left + (at + 0.5) * day_width + twin * 15;
  };
  return (
    <svg class="week-picture" viewBox={`0 0 ${kWide} ${high + 48}`} role="img" aria-label={`From ${format.date(days[0])} to ${format.date(days.at(-1))}; ${marks.map((mark) => `${short_day(mark.day)} ${kMeans[mark.kind]}`).join(', ')}. The lists below say the same in words.`}>
      <Hatch id="hatch-all" />
      {days.map((day, at) => {
        const x = left + at * day_width;
        const named = weekday(day) === 0 || at === 0 || at % 5 === 0 && every > 5;
        return <g key={day}><path d={`M${x} ${weekday(day) === 0 || at === 0 ? 8 : top} V${high}`} class={weekday(day) === 0 || at === 0 ? 'thin' : 'faintline'} />{named && <text x={x + 4} y="18" font-size="11.5" font-weight="600">{day_width * 5 > 44 ? short_day(day) : day_number(day)}</text>}</g>;
      })}
      <path d={`M${left + days.length * day_width} 8 V${high}`} class="thin" />
      <g transform={`translate(${left - kLeft} 0)`}><Rows rows={rows.map((row) => ({ ...row, name: '' }))} top={top} day_width={day_width} hatch="hatch-all" /></g>
      {rows.map((row, at) => <text key={at} x={kLeft - 8} y={top + at * kRow + 16} font-size={kLetter} text-anchor="end">{shortened(row.name, kLeft - 10, kLetter)}</text>)}
      <rect x={right + 1} y="0" width={kWide - right} height={high + 2} fill="var(--sheet)" />
      {behind.length > 0 && <path d={`M${right + 5} 8 l4 8 l-8 8 l8 8 l-8 8 l4 8 V${high + 40}`} class="thin" />}
      <text x={kLeft - 8} y={high + 20} font-size={kLetter} text-anchor="end">days to keep</text>
      {marks.map((mark) => {
        const at = place_among(mark.day, days);
        const x = x_of(mark);
        return (
          <g key={mark.day + mark.kind}>
            <title>{`${format.date(mark.day)}: ${kMeans[mark.kind]} ${mark.says.join(', ')}`}</title>
            {mark.kind === 'ready' && typeof at === 'number' && <path d={`M${x} ${top} V${high + 8}`} class="accent-line" stroke-width="1.5" stroke-dasharray="4 3" />}
            <g transform={`translate(${x} ${high + 10})`}><Sign kind={mark.kind} late={mark.late} /></g>
            <text x={x} y={high + 38} font-size="11" text-anchor="middle">{typeof at === 'number' && day_width < 40 ? '' : short_day(mark.day)}</text>
          </g>
        );
      })}
    </svg>
  );
}
