import { useState } from 'preact/hooks';
import type { Finding, Plan } from '../api/plan';
import * as format from '../look/format';
import { Severity, Words, currency } from '../look/words';
import { NoPlan } from '../piece/piece_sheet';
import { hidden, picked } from '../piece/seen';
import * as open from '../state/open';
import { address_of, go } from '../state/route';
import { Picture } from './pictures';
import { remedies, type Remedy } from './remedies';

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
        {remedies(finding, plan, open.values.value).map((remedy) => <OneTap key={remedy.value.path} remedy={remedy} />)}
        <div class="row" style={{ marginTop: '0.4rem' }}>
          {part && <button onClick={() => { hidden.value = new Set(); go(address_of(open.id.value, 'piece')); setTimeout(() => { picked.value = part.path; }); }}>Show {part.code} {part.name}</button>}
          {written && <a class="button" href={`${address_of(open.id.value, 'text')}?line=${finding.from.line}`}>Line {finding.from.line}</a>}
        </div>
        <p class="caption">Reckoned from: {finding.source}</p>
      </div>
      <div><Picture finding={finding} plan={plan} values={open.values.value} /></div>
    </article>
  );
}

function OneTap({ remedy }: { remedy: Remedy }) {
  const [taken, set_taken] = useState(false);
  return (
    <button disabled={taken} style={{ height: 'auto', textAlign: 'left', padding: '0.5rem 0.8rem', marginTop: '0.4rem' }} onClick={() => { set_taken(true); void open.set_value(remedy.value, remedy.to); }}>
      <span><span class="strong">Take instead: {remedy.says}</span><br />
        <span class="small">{format.money_change(remedy.price_change, currency.value)} · {format.hours_change(remedy.hours_change)}{remedy.brings > 0 && ` · brings ${format.count(remedy.brings, 'new finding')}`}</span></span>
    </button>
  );
}
