import { calendarAddress } from '../api/client';
import * as format from '../look/format';
import { Words } from '../look/words';
import { NoPlan } from '../piece/piece_sheet';
import * as open from '../state/open';
import { address_of } from '../state/route';
import { agenda, clock, day_of, days_of, fits, hours_of, idle_minutes, minute_of, promised_in_words, weekday, weeks_of, type AgendaLine, type Calendar, type Hours } from './days';
import { marks_of, wanted_in_words, type Mark } from './marks';
import { Overview, Sign, WeekPicture } from './pictures';

const kDayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** What is done on which day, when to order, and when it will be ready. */
export function CalendarSheet() {
  const plan = open.plan.value;
  if (!plan) return <NoPlan />;
  if (!plan.calendar || plan.calendar.entries.length === 0) return <Missing says={plan.calendar_missing} />;
  const { calendar } = plan;
  const hours = hours_of(calendar.entries);
  const marks = marks_of(calendar, plan.commission.wanted);
  const days = days_of(calendar);
  const drawn = days_of(calendar, calendar.finish.odds.at(-1)?.date);
  return (
    <div class="calendar">
      <div class="row" style={{ justifyContent: 'space-between' }}>
        <h1>Calendar</h1>
        <a class="button" href={calendarAddress(open.id.value)} download={`${open.id.value}.ics`}>Calendar file (.ics)</a>
      </div>
      {open.unsaved.value && <p class="caption">The file is of the text that was kept last.</p>}
      <Ready calendar={calendar} wanted={plan.commission.wanted} />
      {calendar.notes.map((note) => <p key={note} class="caution"><Words of={note} /></p>)}
      <section class="wide-only" aria-label="All days at once">
        <Overview calendar={calendar} days={drawn} marks={marks} />
        <Legend />
      </section>
      <Keep calendar={calendar} wanted={plan.commission.wanted} />
      <Weeks calendar={calendar} days={days} hours={hours} marks={marks} />
    </div>
  );
}

function Missing({ says }: { says: readonly string[] }) {
  return (
    <>
      <h1>Calendar</h1>
      <div class="empty">
        <p class="strong">There is no calendar of this commission yet.</p>
        {says.map((one) => <p key={one}>{format.sentence(one)}</p>)}
        <p><a href={address_of(open.id.value, 'text')}>Go to the text</a></p>
      </div>
    </>
  );
}

function Ready({ calendar, wanted }: { calendar: Calendar; wanted: string | undefined }) {
  const says: Record<string, string> = { '0.5': 'Half of such jobs by', '0.8': 'Four in five by', '0.9': 'Nine in ten by' };
  const idle = idle_minutes(calendar);
  return (
    <>
      <dl class="pairs ready">
        <div><dt>If all goes as the table says</dt><dd>{format.date(calendar.finish.planned)}</dd></div>
        {calendar.finish.odds.map((one) => <div key={one.share}><dt>{says[String(one.share)] ?? format.percent(one.share * 100)}</dt><dd>{format.date(one.date)}</dd></div>)}
      </dl>
      <p>{wanted_in_words(calendar.finish, wanted)} Work begins {format.date(calendar.starts)}; {calendar.proven ? 'no order of the work is ready sooner.' : `no order of the work is ready before ${format.date(calendar.bound)}.`}</p>
      {idle >= 30 && <p class="soft">While things set and dry, {format.minutes(idle)} of working time are left into which nothing of this piece fits: room for another.</p>}
      <Shares title="What drives the date" rows={calendar.critical.map((one) => ({ what: one.what, share: one.share }))} says={`How often it is on the chain that ends last, of ${calendar.draws} jobs drawn.`} />
      <Shares title="What makes the date uncertain" rows={calendar.driven_by} says={`Share of the spread of the finish, of ${calendar.draws} jobs drawn.`} />
    </>
  );
}

const kMostRows = 8;
function Shares({ title, rows, says }: { title: string; rows: ReadonlyArray<{ what: string; share: number }>; says: string }) {
  if (rows.length === 0) return null;
  return (
    <details>
      <summary>{title}</summary>
      <ul class="shares">{rows.slice(0, kMostRows).map((one) => <li key={one.what}><span>{one.what}</span><span class="bar" aria-hidden="true"><span style={{ width: `${Math.round(one.share * 100)}%` }} /></span><span class="figure">{format.percent(one.share * 100)}</span></li>)}</ul>
      <p class="caption">{says}</p>
    </details>
  );
}

const kLegend: ReadonlyArray<readonly [Mark['kind'], string]> = [['order', 'order by'], ['freeze', 'last day to change'], ['ready', 'ready: half, four in five, nine in ten'], ['wanted', 'wanted']];
function Legend() {
  return (
    <p class="caption legend">
      <span><i class="chip" />worked on</span><span><i class="chip drives" />worked on, and drives the date</span><span><i class="chip alone" />left alone: sets, dries or is away</span>
      {kLegend.map(([kind, says]) => <span key={kind}><svg width="16" height="14" viewBox="-8 -1 16 14" aria-hidden="true"><Sign kind={kind} /></svg>{says}</span>)}
    </p>
  );
}

/** The days to order by and to freeze, in one list. */
function Keep({ calendar, wanted }: { calendar: Calendar; wanted: string | undefined }) {
  if (calendar.deliveries.length + calendar.freezes.length === 0) return null;
  const late = calendar.deliveries.filter((one) => one.late).length;
  return (
    <section aria-label="Days to keep">
      <h2>Order by, and last days to change</h2>
      {late > 0 && <p class="caution">{format.count(late, 'thing')} should have been ordered before the work begins: order now, or begin later.</p>}
      <div class="wide" tabIndex={0} role="region" aria-label="Table of days to keep">
        <table class="cards">
          <thead><tr><th>Day</th><th>What</th><th>Why then</th></tr></thead>
          <tbody>
            {kept_days(calendar).map(({ day, orders, freezes }) => (
              <>
                {orders.length > 0 && <tr key={`${day}o`}><td class="figure"><SignInLine kind="order" late={orders.some((one) => one.late)} />{format.date(day)}</td><td class="full">{orders.some((one) => one.late) ? 'Order now, it is late: ' : 'Order '}<span class="strong">{orders.map((one) => one.what).join(', ')}</span></td><td class="soft full">{reason(orders)}</td></tr>}
                {freezes.map((one) => <tr key={one.what}><td class="figure"><SignInLine kind="freeze" />{format.date(day)}</td><td class="full">Last day to change <span class="strong">{one.what}</span></td><td class="soft full">{one.why} from then on</td></tr>)}
              </>
            ))}
          </tbody>
        </table>
      </div>
      {wanted && <p class="caption">Reckoned back from the wanted date: as late as it allows, four times in five. The weeks below are the soonest the work can be done, and want these things sooner.</p>}
    </section>
  );
}

const SignInLine = ({ kind, late = false }: { kind: Mark['kind']; late?: boolean }) => <svg class="in-line" width="16" height="14" viewBox="-8 -1 16 14" aria-hidden="true"><Sign kind={kind} late={late} /></svg>;

type Delivery = Calendar['deliveries'][number];
const kept_days = ({ deliveries, freezes }: Calendar) => [...new Set([...deliveries.map((one) => one.order_by), ...freezes.map((one) => one.date)])].sort()
  .map((day) => ({ day, orders: deliveries.filter((one) => one.order_by === day), freezes: freezes.filter((one) => one.date === day) }));
const reason = (of: readonly Delivery[]) => {
  const [first] = of;
  const alike = of.every((one) => one.needed === first?.needed && one.lead_days === first.lead_days);
  return (alike && first ? [first] : of).map((one) => `needed ${format.short_date(one.needed)}, ${format.count(one.lead_days, 'working day')} to come`).join('; ');
};

function Weeks({ calendar, days, hours, marks }: { calendar: Calendar; days: readonly string[]; hours: Hours; marks: readonly Mark[] }) {
  const lines = agenda(calendar, hours, days);
  const usual = usual_who(calendar);
  return (
    <>
      {usual && <p class="caption" style={{ marginTop: '1.2rem' }}>Where nobody is named it is {usual}. A thick edge: it drives the date. Tap a line for its card on the bench.</p>}
      {weeks_of(days).map(({ monday, days: own }) => {
        const within = calendar.entries.filter((one) => own.some((day) => day >= day_of(one.starts) && day <= day_of(one.free)));
        return (
          <section key={monday} class="week" aria-label={`Week of ${format.date(monday)}`}>
            <h2>Week of {format.date(monday)} <span class="soft small">{promised_in_words(calendar, monday)}</span></h2>
            <div class="wide-only"><WeekPicture entries={within} days={own} hours={hours} monday={monday} /></div>
            <div class="week-days" style={{ '--days': own.length }}>
              {own.map((day) => <Day key={day} day={day} lines={lines.get(day) ?? []} calendar={calendar} marks={marks.filter((mark) => mark.day === day)} />)}
            </div>
          </section>
        );
      })}
    </>
  );
}

const kDoes: Record<Mark['kind'], string> = { order: 'Order', freeze: 'Last day to change', ready: 'Ready:', wanted: 'Wanted' };

function Day({ day, lines, calendar, marks }: { day: string; lines: readonly AgendaLine[]; calendar: Calendar; marks: readonly Mark[] }) {
  const resting = calendar.entries.filter((one) => day_of(one.ends) < day && one.free > `${day}T08:00`);
  return (
    <div class="day">
      <h3>{kDayNames[weekday(day)]} <span class="soft">{format.short_date(day).replace(/ \d{4}$/, '')}</span></h3>
      {marks.map((mark) => <p key={mark.kind} class="small strong"><SignInLine kind={mark.kind} late={mark.late} />{kDoes[mark.kind]} {mark.kind === 'wanted' ? '' : mark.says.join(', ')}</p>)}
      {lines.length === 0 && <p class="small soft">{resting.length > 0 ? `${resting[0]?.name} is left alone` : 'Nothing of this piece'}</p>}
      <ol>{lines.map((line) => <Line key={line.entries[0]} line={line} calendar={calendar} />)}</ol>
    </div>
  );
}

function Line({ line, calendar }: { line: AgendaLine; calendar: Calendar }) {
  const entries = line.entries.map((at) => calendar.entries[at]!);
  const [first] = entries;
  if (!first) return null;
  const who = first.who.join(' and ');
  const hint = calendar.overlaps.find((one) => line.entries.includes(one.entry));
  const inside = hint && fits(hint);
  return (
    <li class={entries.some((one) => one.drives) ? 'drives' : ''}>
      <span class="figure soft">{clock(line.from)}–{clock(line.to)}</span>{' '}
      <a href={`${address_of(open.id.value, 'bench')}?step=${first.operation + 1}`}>{line.name}</a>{line.times > 1 && <span class="soft"> · {line.times} settings</span>}{line.goes_on && <span class="soft"> · goes on</span>}
      <span class="soft small">{[first.machine, who !== usual_who(calendar) && who, first.helper && 'a helper can'].filter(Boolean).map((one) => ` · ${one}`).join('')}</span>
      {first.called_in && <span class="small strong"> · call somebody in</span>}
      {line.alone_until && <p class="small alone-note">then left alone until {until(line.alone_until, first.ends)}{hint && inside && <>: {inside.join(', ')}</>}{hint && inside === null && ': nothing of this piece fits in'}</p>}
    </li>
  );
}

/** Who does most of it is not named on every line. */
function usual_who({ entries }: Calendar): string {
  const counted = new Map<string, number>();
  for (const one of entries) counted.set(one.who.join(' and '), (counted.get(one.who.join(' and ')) ?? 0) + 1);
  return [...counted].sort(([, a], [, b]) => b - a)[0]?.[0] ?? '';
}

const until = (free: string, from: string) => (day_of(free) === day_of(from) ? clock(minute_of(free)) : `${clock(minute_of(free))} on ${format.short_date(day_of(free)).replace(/ \d{4}$/, '')}`);
