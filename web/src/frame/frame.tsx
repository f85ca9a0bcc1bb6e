// What stays the same on every sheet: head with the figures, index, title block, words of trouble.
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { address_of, kSheets, type SheetId } from '../state/route';
import * as open from '../state/open';
import { light, unit_taken } from '../state/habits';
import { server } from '../api/client';
import { no_progress, progress } from '../state/events';
import * as format from '../look/format';
import { Mass, Severity, currency, unit } from '../look/words';
import { ready_day } from '../calendar/marks';
import { differing_lines } from '../text/differing';

export function Frame({ sheet, children }: { sheet: SheetId; children: ComponentChildren }) {
  const main = useRef<HTMLElement>(null);
  const plan = open.plan.value;
  const at = kSheets.findIndex((one) => one.id === sheet);
  const name = kSheets[at]?.name ?? '';
  useEffect(() => {
    document.title = `${name} · ${plan?.commission.name ?? open.id.value} · Plankwright`;
  }, [name, plan?.commission.name]);
  return (
    <div class={`frame${open.stale.value ? ' stale' : ''}`}>
      <a class="hidden-words" href="#sheet" onClick={(event) => { event.preventDefault(); main.current?.focus(); }}>To the sheet</a>
      <Head />
      <nav class="index" aria-label="Sheets">
        <ol>
          {kSheets.map((one, number) => (
            <li key={one.id}>
              <a href={address_of(open.id.value, one.id)} aria-current={one.id === sheet ? 'page' : undefined}>
                <span aria-hidden="true">{number + 1}</span>
                <span>{one.name}</span>
                {one.id === 'findings' && plan && <span class="number">{plan.findings.open.length}</span>}
              </a>
            </li>
          ))}
        </ol>
      </nav>
      <main id="sheet" tabIndex={-1} ref={main} aria-busy={open.planning.value}>
        <Trouble />
        {open.missing.value ? <p class="empty">There is no commission “{open.id.value}”. It may have been renamed or put away; <a href="/">go back to the shelf</a>.</p> : children}
      </main>
      <Titles sheet={name} number={`${at + 1}/${kSheets.length}`} />
    </div>
  );
}

function Head() {
  const plan = open.plan.value;
  return (
    <header class="head">
      <div class="who">
        <a href="/" class="small">Commissions</a>
        <h1>{plan?.commission.name ?? open.id.value}</h1>
      </div>
      {plan && <Figures />}
      <div class="row">
        <button onClick={open.undo} disabled={open.steps.value.past.length === 0} title="Take back (Ctrl+Z)" aria-label="Undo"><span aria-hidden="true">↶</span><span class="long">Undo</span></button>
        <button onClick={open.redo} disabled={open.steps.value.future.length === 0} title="Do again (Ctrl+Shift+Z)" aria-label="Redo"><span aria-hidden="true">↷</span><span class="long">Redo</span></button>
        <button class={open.unsaved.value ? 'main' : ''} onClick={() => void open.save()} disabled={!open.unsaved.value} title="Keep the text (Ctrl+S)">
          {open.unsaved.value ? 'Keep' : 'Kept'}
        </button>
      </div>
    </header>
  );
}

function Figures() {
  const plan = open.plan.value;
  if (!plan) return null;
  const worst = plan.findings.open[0];
  const moved = new Map(open.changes.value?.figures.map((one) => [one.what, one.after - one.before]) ?? []);
  const price = moved.get('price');
  const hours = moved.get('hours');
  const parts = moved.get('parts');
  const days = moved.get('ready');
  const ready = ready_day(plan);
  return (
    <div class="figures-frame" role="group" aria-label={open.stale.value ? 'Figures of the last text that could be planned' : 'Figures'} tabIndex={0}><dl class="figures">
      <div>
        <dt>Price{open.stale.value ? ', old' : ''}</dt>
        <dd>{format.money(plan.price.price, currency.value)}<span class="moved">{price ? format.money_change(price, currency.value) : ''}</span></dd>
      </div>
      <div>
        <dt>Margin · markup</dt>
        <dd>{format.percent(plan.price.margin_percent)} · {format.percent(plan.price.markup_percent)}<span class="moved" /></dd>
      </div>
      <div>
        <dt>Hours, half · four in five</dt>
        <dd>{format.half(plan.bench.hours.total.median)} · {format.half(plan.bench.hours.total.p80)}<span class="moved">{hours && Math.abs(hours) >= 0.25 ? format.hours_change(hours) : ''}</span></dd>
      </div>
      {ready && <div><dt>Ready, four in five</dt><dd>{format.short_date(ready)}<span class="moved">{days ? `${days > 0 ? '+' : '−'}${format.count(Math.abs(days), 'day')}` : ''}</span></dd></div>}
      <div>
        <dt>Parts</dt>
        <dd>{plan.piece.parts.length}<span class="moved">{parts ? `${parts > 0 ? '+' : '−'}${Math.abs(parts)}` : ''}</span></dd>
      </div>
      <div>
        <dt>Weight</dt>
        <dd><Mass kg={plan.piece.mass_kg} /><span class="moved" /></dd>
      </div>
      {worst && <div><dt>Worst finding</dt><dd><Severity of={worst.severity} /></dd></div>}
    </dl></div>
  );
}

/** The fields of ISO 7200. */
export function Titles({ sheet, number }: { sheet: string; number: string }) {
  const commission = open.plan.value?.commission;
  return (
    <footer>
      <dl class="titles" style={{ marginBottom: '0.6rem' }}>
        <div><dt>Legal owner</dt><dd class="of">{commission?.shop ?? 'Plankwright'}</dd></div>
        <div><dt>Title</dt><dd>{commission ? `${commission.name}: ${sheet.toLowerCase()}` : sheet}</dd></div>
        <div><dt>Identification number</dt><dd>{commission?.number || '–'}</dd></div>
        <div><dt>Revision</dt><dd>{commission?.revision || '–'}</dd></div>
        <div><dt>Date of issue</dt><dd>{commission?.quoted ?? '–'}</dd></div>
        <div><dt>Sheet</dt><dd>{number}</dd></div>
      </dl>
      <Habits />
    </footer>
  );
}

function Habits() {
  const next = { system: 'dark', dark: 'light', light: 'system' } as const;
  return (
    <div class="row" style={{ margin: '0 1.2rem 1rem', justifyContent: 'flex-end' }}>
      <button onClick={() => { unit_taken.value = unit.value === 'inch' ? 'mm' : 'inch'; }}>Sizes in {unit.value === 'inch' ? 'inches' : 'millimetres'}</button>
      <button onClick={() => { light.value = next[light.value]; }}>Light: {light.value === 'system' ? 'as the device' : light.value}</button>
    </div>
  );
}

function Trouble() {
  const draft = open.offered.value;
  const running = progress.value;
  return (
    <div aria-live="polite">
      {!open.reachable.value && (
        <div class="word row">
          <p>The server does not answer. {open.unsaved.value ? 'What you wrote is kept in this browser.' : 'You are reading what was last known.'} Start it again with <code>plankwright serve</code>, then try again.</p>
          <button onClick={() => void open.try_again()}>Try again</button>
        </div>
      )}
      {open.trouble.value && <div class="word row"><p>{open.trouble.value}</p><button onClick={() => { open.trouble.value = null; }}>Understood</button></div>}
      {draft && (
        <div class="word row">
          <p>A text of {new Date(draft.at).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })} was never kept. It is still in this browser.</p>
          <button class="main" onClick={open.take_offered}>Take it up again</button>
          <button onClick={open.drop_offered}>Throw it away</button>
        </div>
      )}
      {open.conflict.value && <Conflict theirs={open.conflict.value.text} mine={open.text.value} />}
      {open.errors.value.length > 0 && open.plan.value && (
        <div class="word row">
          <p>{format.count(open.errors.value.length, 'mistake')} in the text: the figures are those of the last text that could be planned.</p>
          <a class="button" href={address_of(open.id.value, 'text')}>To the text</a>
        </div>
      )}
      {running && running.id === open.id.value && (
        <div class="word row long-work"><p>{format.sentence(running.says || running.job)}: {Math.round(running.share * 100)} %</p><button onClick={() => { no_progress(); void server.cancel(open.id.value).catch(() => undefined); }}>Stop</button></div>
      )}
    </div>
  );
}

function Conflict({ theirs, mine }: { theirs: string; mine: string }) {
  const [left, right] = differing_lines(mine, theirs);
  const show = (lines: Array<{ text: string; other: boolean }>) => lines.map((line, at) => <div key={at} class={line.other ? 'other' : ''}>{line.text || ' '}</div>);
  return (
    <section class="word" aria-label="Two texts">
      <p class="strong">The text was changed elsewhere while you were writing. Nothing was overwritten; choose which goes on.</p>
      <div class="two-texts">
        <div><h3>Yours</h3><pre tabIndex={0}>{show(left)}</pre><button class="main" onClick={() => open.settle(true)}>Keep mine over theirs</button></div>
        <div><h3>Theirs</h3><pre tabIndex={0}>{show(right)}</pre><button onClick={() => open.settle(false)}>Take theirs</button></div>
      </div>
      <p class="soft small">What you do not choose can still be taken back with Undo until you close the page.</p>
    </section>
  );
}
