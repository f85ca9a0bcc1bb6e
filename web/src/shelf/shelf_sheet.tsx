import { signal } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { Refused, server } from '../api/client';
import type { Pattern, Shelf, ShelfEntry } from '../api/server';
import { Titles } from '../frame/frame';
import * as format from '../look/format';
import { Severity } from '../look/words';
import { shelf_changes } from '../state/events';
import { go } from '../state/route';

const shelf = signal<Shelf | null>(null);
const silent = signal(false);

async function fetch_shelf(): Promise<void> {
  try {
    shelf.value = await server.shelf();
    silent.value = false;
  } catch {
    silent.value = true;
  }
}

/** Every job at a glance, and where a new one begins. */
export function ShelfSheet() {
  useEffect(() => {
    document.title = 'Commissions · Plankwright';
  }, []);
  useEffect(() => void fetch_shelf(), [shelf_changes.value]);
  const known = shelf.value;
  return (
    <div class="frame alone">
      <main id="sheet">
        <h1>Commissions</h1>
        {silent.value && (
          <div class="word row" role="status"><p>The server does not answer. Start it again with <code>plankwright serve</code>, then try again.</p><button onClick={() => void fetch_shelf()}>Try again</button></div>
        )}
        {!known && !silent.value && <p class="soft">Reading the commissions …</p>}
        {known && known.commissions.length === 0 && <p class="empty">No commission yet. Begin one from a pattern below, or with an empty text.</p>}
        {known && <ul class="jobs" style={{ marginTop: '1rem' }}>{known.commissions.map((job) => <li key={job.id}><Job job={job} /></li>)}</ul>}
        {known && <Begin patterns={known.patterns} />}
      </main>
      <Titles sheet="Commissions" number="1/1" />
    </div>
  );
}

function Job({ job }: { job: ShelfEntry }) {
  const money = (minor: number | null) => (minor === null ? '–' : format.money(minor, job.currency));
  return (
    <a class="job" href={`/c/${job.id}`}>
      <Picture id={job.id} changed={job.changed} />
      <div class="inside">
        <h3>{job.name}</h3>
        <p class="soft small">{[job.client, job.number && `${job.number}, revision ${job.revision}`].filter(Boolean).join(' · ') || 'No client written yet'}</p>
        {job.errors > 0 && job.price === null ? (
          <p class="strong">{format.count(job.errors, 'mistake')} in the text: open it to mend them.</p>
        ) : (
          <dl>
            <div><dt>Price</dt><dd>{money(job.price)}</dd></div>
            <div><dt>Margin at 80 % hours</dt><dd>{job.margin_80 === null ? '–' : format.percent(job.margin_80 * 100)}</dd></div>
            <div><dt>Wanted</dt><dd>{format.short_date(job.wanted) || '–'}</dd></div>
          </dl>
        )}
        {job.worst_finding ? (
          <p class="worst"><Severity of={job.worst_finding.severity} /><span>{job.worst_finding.title}{job.findings_open > 1 ? `, and ${job.findings_open - 1} more` : ''}</span></p>
        ) : job.price !== null && <p class="worst soft">Nothing found.</p>}
      </div>
    </a>
  );
}

function Picture({ id, changed }: { id: string; changed: string }) {
  const [address, set_address] = useState<string | null>(null);
  const [none, set_none] = useState(false);
  useEffect(() => {
    let made = '';
    server.drawing(id, undefined, 'perspective').then(
      (svg) => { made = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' })); set_address(made); },
      () => set_none(true),
    );
    return () => URL.revokeObjectURL(made);
  }, [id, changed]);
  return <div class="picture">{address ? <img src={address} alt="" /> : <span style={{ color: '#575c61' }}>{none ? 'No picture yet' : 'Drawing …'}</span>}</div>;
}

function Begin({ patterns }: { patterns: readonly Pattern[] }) {
  const [taken, set_taken] = useState<string | null>(null);
  const pattern = patterns.find((one) => one.id === taken);
  return (
    <section aria-label="Begin a commission">
      <h2>Begin a commission</h2>
      <p class="soft">Take the pattern that comes nearest; every size and every part can be changed afterwards.</p>
      <ul class="patterns" style={{ marginTop: '0.6rem' }}>
        {patterns.map((one) => (
          <li key={one.id}>
            <button aria-pressed={taken === one.id} onClick={() => set_taken(one.id)}><span class="strong">{one.name}</span><br /><span class="small soft">{one.says}</span></button>
          </li>
        ))}
        <li><button aria-pressed={taken === ''} onClick={() => set_taken('')}><span class="strong">Empty text</span><br /><span class="small soft">Write it from the first line</span></button></li>
      </ul>
      {taken !== null && <Sizes key={taken} pattern={pattern} />}
    </section>
  );
}

function Sizes({ pattern }: { pattern: Pattern | undefined }) {
  const [name, set_name] = useState('');
  const [sizes, set_sizes] = useState<Record<string, string>>({});
  const [stock, set_stock] = useState(pattern?.stocks[0]?.id ?? '');
  const [refused, set_refused] = useState('');
  const begin = async (event: Event) => {
    event.preventDefault();
    try {
      const all = Object.fromEntries((pattern?.sizes ?? []).map((size) => [size.name, sizes[size.name] ?? size.value]));
      const made = await server.create({ pattern: pattern?.id ?? '', name, sizes: all, stock });
      go(pattern ? `/c/${made.id}` : `/c/${made.id}/text`);
    } catch (error) {
      set_refused(error instanceof Refused ? error.message : 'The server does not answer. Start it again, then try once more.');
    }
  };
  return (
    <form onSubmit={(event) => void begin(event)}>
      <div class="form">
        <label>Name of the piece<input required value={name} onInput={(event) => set_name(event.currentTarget.value)} placeholder={pattern?.name ?? 'Window seat'} /></label>
        {pattern?.sizes.map((size) => (
          <label key={size.name}>{size.label}<input value={sizes[size.name] ?? size.value} onInput={(event) => set_sizes({ ...sizes, [size.name]: event.currentTarget.value })} /></label>
        ))}
        {pattern && pattern.stocks.length > 0 && (
          <label>Stock<select value={stock} onChange={(event) => set_stock(event.currentTarget.value)}>{pattern.stocks.map((one) => <option key={one.id} value={one.id}>{one.says}</option>)}</select></label>
        )}
        <button class="main" type="submit">Begin</button>
      </div>
      {pattern && <p class="caption">Sizes as you say them: 1800 mm, 72 in, 5' 2-1/2". A bare number is in millimetres.</p>}
      {refused && <p class="word" role="alert">{refused}</p>}
    </form>
  );
}
