import { useEffect, useState } from 'preact/hooks';
import { server } from '../api/client';
import type { Plan } from '../api/plan';
import type { Way } from '../api/server';
import * as format from '../look/format';
import { Money, Words, currency } from '../look/words';
import { NoPlan } from '../piece/piece_sheet';
import * as open from '../state/open';
import { Choices } from './choices';
import { chance } from './odds';
import { HoursPlot, Scatter, Waterfall } from './plots';
import { buildable, type Axis } from './undominated';

/** What it costs, what it may cost, and what else it could be. */
export function PriceSheet() {
  const plan = open.plan.value;
  if (!plan) return <NoPlan />;
  const { price } = plan;
  return (
    <>
      <h1>Price</h1>
      <p>Net <span class="strong"><Money minor={price.price} /></span>, with tax <Money minor={price.total} />. Margin {format.percent(price.margin_percent, 1)} of the price, which is a markup of {format.percent(price.markup_percent, 1)} on the cost.</p>
      <div class="plots">
        <section class="plot"><h2>From material to price</h2><Waterfall price={price} /></section>
        <section class="plot"><h2>How the hours may turn out</h2><HoursPlot plan={plan} />
          <p>Chance of a loss: <span class="strong">{chance(price.chance_of_loss)}</span>. Curve drawn through the reckoned half and nine in ten.</p></section>
      </div>
      <Outcomes plan={plan} />
      <Choices plan={plan} />
      <AllWays />
      <MakeOrBuy plan={plan} />
      <Lines plan={plan} />
    </>
  );
}

function Outcomes({ plan }: { plan: Plan }) {
  const says: Record<string, string> = { P50: 'Half of such jobs take at most', P80: 'Four in five take at most', P90: 'Nine in ten take at most' };
  return (
    <>
      <h2>Margin if it takes longer</h2>
      <div class="wide" tabIndex={0} role="region" aria-label="Margin if it takes longer">
        <table class="cards">
          <thead><tr><th>How it turns out</th><th class="right">Hours</th><th class="right">Cost</th><th class="right">Left over</th><th class="right">Margin</th><th class="right">Markup</th></tr></thead>
          <tbody>
            {plan.price.outcomes.map((one) => (
              <tr key={one.name}><td>{says[one.name] ?? one.name}</td><td class="right" data-says="Hours">{format.half(one.hours)}</td><td class="right" data-says="Cost">{format.round_money(one.cost, currency.value)}</td><td class="right" data-says="Left over">{format.round_money(one.profit, currency.value)}</td><td class="right" data-says="Margin">{format.percent(one.margin_percent, 1)}</td><td class="right" data-says="Markup">{format.percent((one.profit / one.cost) * 100, 1)}</td></tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function AllWays() {
  const [ways, set_ways] = useState<readonly Way[] | null>(null);
  const [state, set_state] = useState<'idle' | 'asked' | 'failed'>('idle');
  const [axis, set_axis] = useState<Axis>('hours');
  const [picked, set_picked] = useState<Way | null>(null);
  const version = open.kept.value?.version;
  useEffect(() => { set_ways(null); set_picked(null); set_state('idle'); }, [version]);
  const ask = () => {
    set_state('asked');
    server.compare(open.id.value, true).then((found) => { set_ways(found.choices); set_state('idle'); }, () => set_state('failed'));
  };
  const best = ways?.filter((way) => way.undominated && buildable(way)) ?? [];
  return (
    <section aria-label="All combinations">
      <h2>All combinations</h2>
      {!ways && state !== 'asked' && <div class="row"><button onClick={ask}>Price every combination</button>{state === 'failed' && <p role="alert">That did not come through; try again.</p>}<p class="soft">Each way to take the choices is planned as a commission of its own{open.unsaved.value ? ', from the text as it was kept' : ''}.</p></div>}
      {state === 'asked' && <div class="row"><p role="status">Planning the combinations …</p><button onClick={() => void server.cancel(open.id.value)}>Stop</button></div>}
      {ways && (
        <div class="plots">
          <div class="plot">
            <div class="row" role="group" aria-label="Across"><button aria-pressed={axis === 'hours'} onClick={() => set_axis('hours')}>Against hours</button><button aria-pressed={axis === 'risk'} onClick={() => set_axis('risk')}>Against risk</button></div>
            <Scatter ways={ways} axis={axis} picked={picked} on_pick={set_picked} />
            <p class="caption">Filled: no other way is better in price, hours and risk at once. Square: as written. {ways.length} ways, {ways.filter((way) => !buildable(way)).length} cannot be built.</p>
          </div>
          <div>
            {picked && <><h3>{picked.name}</h3><p>{format.money(picked.price ?? 0, currency.value)}, {format.half(picked.hours_mean ?? 0)} h, margin at four in five {format.percent((picked.margin_80 ?? 0) * 100)}, {format.count(picked.findings ?? 0, 'finding')}.</p></>}
            <h3>Worth a look</h3>
            <ul>
              {best.slice(0, 12).map((way) => (
                <li key={way.name}><button class="plain" style={{ textAlign: 'left', height: 'auto' }} onClick={() => set_picked(way)}>{way.name}: {format.money(way.price ?? 0, currency.value)}, {format.half(way.hours_mean ?? 0)} h</button></li>
              ))}
            </ul>
          </div>
        </div>
      )}
    </section>
  );
}

function MakeOrBuy({ plan }: { plan: Plan }) {
  if (plan.make_or_buy.length === 0) return null;
  return (
    <section aria-label="Make or buy">
      <h2>Make or buy</h2>
      {plan.make_or_buy.map((one) => {
        const most = Math.max(one.make_minutes, one.break_even_minutes) * 1.15;
        return (
          <div key={one.what}>
            <h3>{one.what}</h3>
            <svg viewBox="0 0 520 74" role="img" aria-label={`Making takes ${Math.round(one.make_minutes)} minutes; it pays below ${Math.round(one.break_even_minutes)}`} style={{ maxWidth: '40rem', width: '100%' }}>
              <rect x="0" y="24" width={(one.make_minutes / most) * 500} height="16" fill="var(--faint)" />
              <path d={`M${(one.break_even_minutes / most) * 500} 18 V48`} class="accent-line" stroke-width="3" />
              <text x="4" y="16" font-size="13">{`making takes ${format.minutes(one.make_minutes)}`}</text>
              <text x={(one.break_even_minutes / most) * 500} y="66" font-size="13" text-anchor="middle">{`pays below ${format.minutes(one.break_even_minutes)}`}</text>
            </svg>
            <p>The whole job costs {format.round_money(one.make_cost, currency.value)} with these made, {format.round_money(one.buy_cost, currency.value)} with them bought. <Words of={with_money(format.sentence(one.advice), currency.value)} />. Bought takes {one.lead_days} working days.</p>
          </div>
        );
      })}
    </section>
  );
}

/** "saves 147" with its currency. */
const with_money = (advice: string, money: string) => advice.replace(/saves (\d+)/, (_, amount: string) => `saves ${format.round_money(Number(amount) * 100, money)}`);

function Lines({ plan }: { plan: Plan }) {
  return (
    <>
      <h2>Every line</h2>
      <div class="wide" tabIndex={0} role="region" aria-label="Every line of the cost">
        <table class="cards">
          <thead><tr><th>What</th><th class="right">Cost</th><th style={{ paddingLeft: '1rem' }}>Where it comes from</th></tr></thead>
          <tbody>{plan.price.lines.map((one, at) => <tr key={at}><td>{format.sentence(one.what)}</td><td class="right"><Money minor={one.cost} /></td><td class="soft" style={{ paddingLeft: '1rem' }}>{one.from}</td></tr>)}</tbody>
        </table>
      </div>
      <h2>Payments</h2>
      <table>
        <tbody>{plan.price.payments.map((one) => <tr key={one.event}><td>{format.percent(one.share_percent)} {one.event}</td><td class="right"><Money minor={one.amount} /></td><td class="right soft">with tax <Money minor={one.with_tax} /></td></tr>)}</tbody>
      </table>
      <p class="soft small">{plan.price.deposit_covers_purchases ? 'The first payment covers what has to be bought.' : 'The first payment does not cover what has to be bought.'}</p>
    </>
  );
}
