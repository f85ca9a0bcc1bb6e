import { useState } from 'preact/hooks';
import type { Part, Plan, Size } from '../api/plan';
import type { WrittenValue } from '../api/server';
import * as format from '../look/format';
import { Length, Mass, Money, Sizes, Words } from '../look/words';
import * as open from '../state/open';
import { joints_of, part_cost, stock_name } from './part_cost';
import { picked } from './seen';
import { name_of, named_values, next_size, overall_sizes, values_of } from './written_values';

const three = (size: Size) => [size.length.mm, size.width.mm, size.thickness.mm];

/** Everything known about one part. */
export function PartCard({ plan, part }: { plan: Plan; part: Part }) {
  const like = plan.piece.parts.filter((one) => one.code === part.code);
  const cost = part_cost(plan, part);
  return (
    <div class="card">
      <div class="row" style={{ justifyContent: 'space-between', flexWrap: 'nowrap' }}>
        <h2>{part.code} {part.name}</h2>
        <button onClick={() => { picked.value = null; }}>Close</button>
      </div>
      <p class="soft">{like.length > 1 ? `One of ${like.length}. ` : ''}{part.hand && `${format.sentence(part.hand)}-handed. `}Made by the {part.kit.replaceAll('_', ' ')}.</p>
      <dl class="pairs">
        <dt>Finished</dt><dd><Sizes mm={three(part.finished)} /></dd>
        <dt>Cut</dt><dd><Sizes mm={three(part.cut)} /></dd>
        <dt>Rough</dt><dd><Sizes mm={three(part.rough)} />{part.strips > 1 && `, ${part.strips} strips`}{part.layers > 1 && `, ${part.layers} layers`}</dd>
        <dt>Stock</dt><dd>{stock_name(plan, part.stock)}</dd>
        <dt>Weight</dt><dd><Mass kg={part.mass_kg} /></dd>
        <dt>Costs</dt><dd>{cost === null ? 'bought in' : <><Money minor={cost} /> <span class="soft small">of stock</span></>}</dd>
        <dt>Written</dt><dd><a href={`/c/${open.id.value}/text?line=${part.from.line}`}>line {part.from.line}</a></dd>
      </dl>
      <Faces part={part} />
      <Joints plan={plan} part={part} />
      <h3>Change what is written</h3>
      <Values of={values_of(part, open.values.value)} none="What made this part is not written as a value; change it in the text." />
    </div>
  );
}

const kFaces: Record<string, string> = { '+x': 'right', '-x': 'left', '+y': 'back', '-y': 'front', '+z': 'top', '-z': 'bottom' };

function Faces({ part }: { part: Part }) {
  const features = part.features.filter((one) => one.depth.mm > 0);
  if (features.length + part.bands.length === 0) return null;
  return (
    <>
      <h3>Faces</h3>
      <ul class="small">
        {part.bands.map((band, at) => <li key={`b${at}`}>{format.sentence(kFaces[band.side] ?? band.side)}: edged</li>)}
        {features.map((one, at) => (
          <li key={at}>{format.sentence(kFaces[one.face] ?? one.face)}: {one.count > 1 ? `${one.count} × ` : ''}{one.kind} <Sizes mm={[one.across.mm, one.along.mm]} />, <Length mm={one.depth.mm} /> deep</li>
        ))}
      </ul>
    </>
  );
}

function Joints({ plan, part }: { plan: Plan; part: Part }) {
  const joints = joints_of(plan, part);
  if (joints.length === 0) return null;
  return <><h3 style={{ marginTop: '0.6rem' }}>Joints</h3><ul class="small">{joints.map((one) => <li key={one.says}>{one.count > 1 ? `${one.count} × ` : ''}{one.says}</li>)}</ul></>;
}

/** Nothing picked: the whole piece, and its overall sizes to be changed. */
export function WholeCard({ plan }: { plan: Plan }) {
  return (
    <div class="card">
      <h2>{plan.piece.name || plan.commission.name}</h2>
      <dl class="pairs">
        <dt>Overall</dt><dd><Sizes mm={plan.piece.overall.size} /></dd>
        <dt>Parts</dt><dd>{plan.piece.parts.length} in {format.count(plan.piece.lines.length, 'line')}</dd>
        <dt>Packages</dt><dd>{plan.piece.packages.length}, the heaviest <Mass kg={Math.max(0, ...plan.piece.packages.map((one) => one.mass_kg))} /></dd>
        <dt>For</dt><dd>{plan.commission.client || 'no client written'}</dd>
        <dt>Wanted</dt><dd>{format.date(plan.commission.wanted) || 'no date written'}</dd>
      </dl>
      <h3>Overall sizes</h3>
      <Values of={overall_sizes(open.values.value)} none={open.values.value.length > 0 ? 'They are not written as plain values; change them in the text.' : 'Reading the written values …'} />
      {named_values(open.values.value).length > 0 && <><h3>Named in the text, used in many places</h3><Values of={named_values(open.values.value)} none="" /></>}
      <p class="caption">Pick a part to see and change what made it.</p>
    </div>
  );
}

function Values({ of, none }: { of: readonly WrittenValue[]; none: string }) {
  if (of.length === 0) return <p class="soft small">{none}</p>;
  return <div>{of.map((value) => <Value key={value.path} value={value} />)}</div>;
}

/** One written value with what changes it: steppers for a size, a list for a choice, else a field. */
function Value({ value }: { value: WrittenValue }) {
  const [typed, set_typed] = useState<string | null>(null);
  const unit = open.plan.value?.commission.unit ?? 'mm';
  const name = format.sentence(name_of(value));
  const put = (to: string) => { set_typed(null); if (to !== value.written) void open.set_value(value, to); };
  const step = (way: 1 | -1) => put(next_size(value.written, value.millimetres ?? 0, unit, way));
  const named = { 'aria-label': name, title: value.says };
  return (
    <div class="value">
      <div class="name">{name}{value.kind === 'expression' && value.millimetres !== undefined && <span class="soft small"> = <Length mm={value.millimetres} /></span>}</div>
      {value.options ? (
        <select {...named} value={value.written} onChange={(event) => put(event.currentTarget.value)}>{value.options.map((one) => <option key={one} value={one}>{one.replaceAll('_', ' ')}</option>)}</select>
      ) : (
        <div class="stepper">
          {value.kind === 'length' && <button aria-label={`${name} smaller`} onClick={() => step(-1)}>−</button>}
          <input {...named} class={value.kind === 'length' ? '' : 'word-field'} value={typed ?? value.written} onInput={(event) => set_typed(event.currentTarget.value)}
            onKeyDown={(event) => { if (event.key === 'Enter') put(event.currentTarget.value); if (event.key === 'Escape') set_typed(null); }}
            onBlur={(event) => { if (typed !== null) put(event.currentTarget.value); }} />
          {value.kind === 'length' && <button aria-label={`${name} larger`} onClick={() => step(1)}>+</button>}
        </div>
      )}
    </div>
  );
}
