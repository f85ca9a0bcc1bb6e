import { useEffect, useState } from 'preact/hooks';
import type { Finding, Plan } from '../api/plan';
import * as format from '../look/format';
import { Severity, Words, currency } from '../look/words';
import { NoPlan } from '../piece/piece_sheet';
import { hidden, picked } from '../piece/seen';
import * as open from '../state/open';
import { address_of, go } from '../state/route';
import { usual_reason, with_acceptance } from './accepting';
import { edits_for, helps, type Edit, type Outcome } from './mends';
import { Picture } from './pictures';
import { remedies } from './remedies';
import { tried } from './trials';

/** What will go wrong, worst first, and what helps. */
export function FindingsSheet() {
  const plan = open.plan.value;
  if (!plan) return <NoPlan />;
  const { open: found, dismissed } = plan.findings;
  return (
    <>
      <h1>Findings</h1>
      {found.length === 0 ? <p class="empty">Nothing was found that moves too far, sags, tips, jams or cannot be machined.</p> : <p class="soft">{format.count(found.length, 'finding')}, the worst first. Structure, fixing to buildings and fire remain with the local code and licensed trades.</p>}
      {found.map((one) => <Card key={one.id} finding={one} plan={plan} />)}
      {found.length > 0 && <p class="caption">Letters with a number in brackets, such as WH3, name the document a figure comes from; data/sources.csv lists them all. “Verified” was compared with that document.</p>}
      {dismissed.length > 0 && (
        <>
          <h2>Accepted, with the reason</h2>
          <ul>{dismissed.map((one) => <li key={one.id} style={{ padding: '0.4rem 0', borderTop: '1px solid var(--faint)' }}><Severity of={one.severity} /> {one.title}. <span class="soft">{one.dismissed}</span></li>)}</ul>
        </>
      )}
    </>
  );
}

function Card({ finding, plan }: { finding: Finding; plan: Plan }) {
  const written = finding.from.file !== '';
  const part = plan.piece.parts.find((one) => one.path === finding.parts[0]);
  return (
    <article class="finding">
      <div><Severity of={finding.severity} /></div>
      <div>
        <h3>{finding.title}</h3>
        <p><Words of={format.sentence(finding.figure)} />{finding.limit && <span class="soft">. Limit: <Words of={finding.limit} /></span>}</p>
        {finding.remedy && <p class="remedy"><Words of={format.sentence(finding.remedy)} /></p>}
        {remedies(finding, plan, open.values.value).map((one) => (
          <OneTap key={one.value.path} says={`Take instead: ${one.says}`} price={one.price_change} hours={one.hours_change} more={one.brings > 0 ? [`brings ${format.count(one.brings, 'new finding')}`] : []} on_take={() => void open.set_value(one.value, one.to)} />
        ))}
        <Mends finding={finding} plan={plan} />
        <div class="row" style={{ marginTop: '0.4rem' }}>
          {part && <button onClick={() => { hidden.value = new Set(); go(address_of(open.id.value, 'piece')); setTimeout(() => { picked.value = part.path; }); }}>Show {part.code} {part.name}</button>}
          {written && <a class="button" href={`${address_of(open.id.value, 'text')}?line=${finding.from.line}`}>Line {finding.from.line}</a>}
        </div>
        <Accept finding={finding} />
        <p class="caption">Reckoned from: {finding.source}</p>
      </div>
      <div><Picture finding={finding} plan={plan} values={open.values.value} /></div>
    </article>
  );
}

/** The written values that end it, each tried before it is offered. */
function Mends({ finding, plan }: { finding: Finding; plan: Plan }) {
  const [found, set_found] = useState<ReadonlyArray<{ edit: Edit; what: Outcome }>>([]);
  const edits = edits_for(finding, open.values.value, plan.commission.unit);
  const asked = edits.map((one) => `${one.value.path}=${one.to}`).join();
  useEffect(() => {
    let gone = false;
    set_found([]);
    for (const edit of edits) void tried(open.id.value, open.text.value, finding, plan, edit).then((what) => { if (!gone && what && (helps(what) || what.errors.length > 0)) set_found((known) => [...known, { edit, what }]); });
    return () => { gone = true; };
  }, [asked, plan]);
  return (
    <>
      {found.map(({ edit, what }) => (what.errors.length > 0 ? (
        <p key={edit.value.path} class="small soft"><Words of={`${format.sentence(edit.says)} cannot be built as the rest is written: ${what.errors[0]}`} /></p>
      ) : (
        <OneTap key={edit.value.path} says={`Write instead: ${edit.says}`} price={what.price_change} hours={what.hours_change}
          more={[what.ends ? 'ends this' : 'eases this', ...what.brings.map((title) => `brings: ${title}`)]} on_take={() => void open.set_value(edit.value, edit.to)} />
      )))}
    </>
  );
}

function OneTap({ says, price, hours, more, on_take }: { says: string; price: number; hours: number; more: readonly string[]; on_take(): void }) {
  const [taken, set_taken] = useState(false);
  return (
    <button disabled={taken} style={{ height: 'auto', textAlign: 'left', padding: '0.5rem 0.8rem', marginTop: '0.4rem', display: 'flex' }} onClick={() => { set_taken(true); on_take(); }}>
      <span><span class="strong"><Words of={says} /></span><br />
        <span class="small">{[format.money_change(price, currency.value), hours_word(hours), ...more].join(' · ')}</span></span>
    </button>
  );
}

const hours_word = (hours: number) => (Math.abs(hours) < 0.25 ? 'the same hours' : format.hours_change(hours));

/** Sets the finding aside in the text, with the reason. */
function Accept({ finding }: { finding: Finding }) {
  const [reason, set_reason] = useState(usual_reason(finding.kind));
  const accepted = with_acceptance(open.text.value, finding.id, reason);
  if (accepted === null || !open.kept.value) return null;
  return (
    <details class="accept">
      <summary>Accept it, with the reason</summary>
      <form class="row" onSubmit={(event) => { event.preventDefault(); if (reason.trim()) open.change(accepted, false); }}>
        <label style={{ flex: '1 1 14rem' }}>Reason<input required value={reason} onInput={(event) => set_reason(event.currentTarget.value)} style={{ width: '100%' }} /></label>
        <button type="submit">Write it down</button>
      </form>
    </details>
  );
}
