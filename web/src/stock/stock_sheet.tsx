import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { raised } from '../look/fractions';
import { currency, Length, Money, Sizes, unit, Words } from '../look/words';
import { stock_name } from '../piece/part_cost';
import { NoPlan } from '../piece/piece_sheet';
import * as open from '../state/open';
import { BoardDrawing, SheetDrawing } from './drawings';
import { enough_in_words } from './enough';
import { bound_in_words } from './layout';

/** What is bought, and what each part is cut from. */
export function StockSheet() {
  const plan = open.plan.value;
  if (!plan) return <NoPlan />;
  const codes = new Map(plan.piece.parts.map((part) => [part.path, part.code]));
  return (
    <>
      <h1>Stock</h1>
      <Shopping plan={plan} />
      {plan.stock.solids.length > 0 && <Asks plan={plan} />}
      <Rack plan={plan} />
      <Nudges plan={plan} />
      {plan.stock.sheets.map((sheet) => (
        <section key={sheet.stock} aria-label={stock_name(plan, sheet.stock)}>
          <h2>{format.sentence(stock_name(plan, sheet.stock))}</h2>
          <p>{sheet.rack_pieces > 0 ? `${format.count(sheet.sheets - sheet.rack_pieces, 'new sheet')} and ${format.count(sheet.rack_pieces, 'piece')} out of the rack.` : bound_in_words(sheet.sheets, sheet.bound, sheet.proven)} <span class="soft">{format.percent(sheet.used_share * 100)} of them become parts. Offcuts worth keeping: <Money minor={sheet.offcut_value} />.</span></p>
          {sheet.notes.map((note) => <p key={note}><Words of={note} /></p>)}
          {sheet.unplaced.length > 0 && <p class="caution">On no sheet: {sheet.unplaced.map((path) => codes.get(path)).join(', ')}. They are larger than the sheet.</p>}
          <div class="layouts">
            {sheet.layouts.map((layout, at) => (
              <figure key={at} class="layout" style={{ margin: 0 }}>
                <figcaption class="small strong">{layout.rack ? `${layout.rack}, out of the rack` : `Sheet ${at + 1}`}{layout.copies > 1 && `, ${layout.copies} alike`}</figcaption>
                <SheetDrawing layout={layout} codes={codes} />
              </figure>
            ))}
          </div>
          <p class="caption">Saw in the order of the numbers in circles. The figures at the right are the fence for each first rip. Hatched: offcut to keep.</p>
        </section>
      ))}
      {plan.stock.solids.filter((one) => one.boards.length > 0).map((solid) => <Boards key={solid.stock} plan={plan} solid={solid} codes={codes} />)}
    </>
  );
}

/** "case.middle drawer 1" as one says it. */
export const in_words = (what_for: string) => raised(what_for.replace(/([a-z\d])\.([a-z])/g, '$1 $2').replaceAll('_', ' '));

function Shopping({ plan }: { plan: Plan }) {
  return (
    <>
      <h2 style={{ marginTop: '0.8rem' }}>To buy</h2>
      <div class="wide" tabIndex={0} role="region" aria-label="Shopping list">
        <table class="cards">
          <thead><tr><th>What</th><th>How much</th><th>For</th><th class="right">Price</th><th style={{ paddingLeft: '1rem' }}>From</th><th>Order by</th></tr></thead>
          <tbody>
            {plan.stock.purchases.map((one, at) => (
              <tr key={at}><td class="strong">{format.sentence(one.what)}</td><td class="figure" data-says="How much"><Words of={one.quantity} /></td><td class="soft small full">{in_words(one.what_for)}</td><td class="right" data-says="Price"><Money minor={one.price} /></td><td style={{ paddingLeft: '1rem' }} data-says="From">{one.supplier || 'the shop'}</td><td class="figure" data-says="Order by">{format.date(one.order_by) || (one.lead_days > 0 ? `${one.lead_days} working days` : 'in stock')}</td></tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

/** What comes out of the rack for this piece, and what goes back into it. */
function Rack({ plan }: { plan: Plan }) {
  const { from_rack: out, to_rack: back } = plan.stock;
  if (out.length === 0 && back.length === 0) return null;
  return (
    <>
      <h2>The rack</h2>
      {out.length > 0 && (
        <ul>{out.map((one) => (
          <li key={one.label}>Take {one.count > 1 && `${one.count} of `}<strong>{one.label}</strong>: {stock_name(plan, one.stock)}, <Sizes mm={[one.length.mm, one.width.mm]} />, worth <Money minor={one.value} /></li>
        ))}</ul>
      )}
      {back.length > 0 && (
        <ul class="soft">{back.map((one, at) => (
          <li key={at}>Put back {one.count > 1 && `${one.count} of `}{stock_name(plan, one.stock)}, <Sizes mm={[one.length.mm, one.width.mm]} />, worth <Money minor={one.value} />{one.from && `: what is left of ${one.from}`}</li>
        ))}</ul>
      )}
    </>
  );
}

/** Sizes that miss a saving by a hair; nothing when there is none. */
function Nudges({ plan }: { plan: Plan }) {
  if (plan.nudges.length === 0) return null;
  return (
    <>
      <h2>What a small change would save</h2>
      <ul>{plan.nudges.map((one, at) => (
        <li key={at}>{format.sentence(one.what)}: <Length mm={one.to.mm} /> instead of <Length mm={one.from.mm} /> saves {one.saves.join(', ')}, <Money minor={one.money} />.</li>
      ))}</ul>
    </>
  );
}

function Asks({ plan }: { plan: Plan }) {
  return (
    <>
      <h2>To ask the yard for</h2>
      <p class="soft">Boards, not a volume: each must be at least this long and this wide.</p>
      <div class="wide" tabIndex={0} role="region" aria-label="Boards to ask for">
        <table class="cards">
          <thead><tr><th>Stock</th><th class="right">Boards</th><th class="right">Length</th><th class="right">Width</th><th style={{ paddingLeft: '1rem' }}>Quality</th><th>For</th></tr></thead>
          <tbody>
            {plan.stock.solids.flatMap((solid) => solid.asks.map((ask, at) => (
              <tr key={`${solid.stock}${at}`}><td>{at === 0 ? stock_name(plan, solid.stock) : ''}</td><td class="right strong" data-says="Boards">{ask.count}</td><td class="right" data-says="Length"><Length mm={ask.length.mm} /></td><td class="right" data-says="Width"><Length mm={ask.width.mm} /></td><td style={{ paddingLeft: '1rem' }} data-says="Quality">{ask.quality}</td><td class="soft small full">{ask.why}</td></tr>
            )))}
          </tbody>
        </table>
      </div>
      <ul class="small soft">{plan.stock.solids.map((one) => <li key={one.stock}>{format.sentence(stock_name(plan, one.stock))}: {one.from}. {enough_in_words(one, unit.value, currency.value)}</li>)}</ul>
    </>
  );
}

function Boards({ plan, solid, codes }: { plan: Plan; solid: Plan['stock']['solids'][number]; codes: ReadonlyMap<string, string> }) {
  const longest = Math.max(...solid.boards.map((one) => one.length.mm));
  return (
    <section aria-label={stock_name(plan, solid.stock)}>
      <h2>{format.sentence(stock_name(plan, solid.stock))}</h2>
      <p class="soft">{format.count(solid.boards.length, 'board')} of the size one gets there, with the rough parts laid on them. In the yard the real boards decide.</p>
      <div class="layouts">{solid.boards.map((board, at) => <figure key={at} class="layout" style={{ margin: 0 }}><BoardDrawing board={board} codes={codes} longest={longest} /></figure>)}</div>
    </section>
  );
}
