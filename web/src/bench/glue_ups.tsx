// A card for each glue-up: what goes together, in what order, clamped how, within what time.
import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { Length, Words, unit } from '../look/words';
import * as open from '../state/open';
import { drawn_apart, frame_of, projected, type Solid } from './apart';
import { done, tick } from './ticks';

export type Stage = Plan['bench']['glue_ups']['stages'][number];
type Triple = [number, number, number];

export function GlueUps({ plan }: { plan: Plan }) {
  const { stages, bound, cannot_assemble } = plan.bench.glue_ups;
  return (
    <>
      {cannot_assemble.map((one) => <p key={one} class="caution"><Words of={format.sentence(one)} /></p>)}
      {stages.length === 0 && cannot_assemble.length === 0 ? <p class="empty">Nothing of this piece is glued up.</p> : (
        <p class="soft">{format.count(stages.length, 'glue-up')}{stages.length > bound ? `; with fewer than ${bound} it cannot be done` : '; it cannot be done with fewer'}. Try each dry with the clamps set before the first drop of glue. The glue maker's own sheet goes before these times.</p>
      )}
      {stages.map((stage, at) => <Card key={at} plan={plan} stage={stage} number={at + 1} of={stages.length} />)}
    </>
  );
}

function Card({ plan, stage, number, of }: { plan: Plan; stage: Stage; number: number; of: number }) {
  const step = stage.operation + 1;
  const is_done = done.value.has(step);
  const code = new Map(plan.piece.parts.map((part) => [part.path, part]));
  const name = (path: string) => code.get(path)?.code ?? path;
  return (
    <article class={`glue-up${is_done ? ' done' : ''}`} aria-label={`Glue-up ${number} of ${of}: ${stage.name}`}>
      <div class="row" style={{ flexWrap: 'nowrap', alignItems: 'start' }}>
        <label class="tick"><input type="checkbox" checked={is_done} aria-label={`Glue-up ${number} done: ${stage.name}`} onChange={(event) => void tick(open.id.value, step, event.currentTarget.checked)} /></label>
        <div><h2 style={{ margin: 0 }}>{number}. {format.sentence(stage.name)}</h2><p class="soft small">Step {step} · {format.count(stage.glued, 'joint')} with glue · {format.count(stage.people, 'person', 'people')}{stage.flat && ' · flat'}</p></div>
      </div>
      {stage.warnings.map((one) => <p key={one} class="caution"><Words of={format.sentence(one)} /></p>)}
      <div class="glue-pictures">
        <figure><Apart plan={plan} stage={stage} clamped={false} /><figcaption class="caption">Pulled apart along the ways its parts go home; parts as plain boxes.</figcaption></figure>
        {stage.clamps.length > 0 && <figure><Apart plan={plan} stage={stage} clamped /><figcaption class="caption">Where the clamps stand.</figcaption></figure>}
      </div>
      <div class="glue-words">
        <div>
          <h3>In this order</h3>
          <p>{stage.parts.map((path) => `${name(path)} ${code.get(path)?.name ?? ''}`).join(', then ')}.</p>
          {stage.finished_before.length > 0 && <><h3>Sanded and finished before</h3><p>Inner faces of {[...new Set(stage.finished_before.map(name))].join(', ')}.</p></>}
          <Clamps stage={stage} name={name} />
        </div>
        <div>
          <h3>Time the glue gives</h3>
          <Times stage={stage} />
          {stage.clamps_off_minutes > 0 && <p>Clamps off after {format.minutes(stage.clamps_off_minutes)}, worked or loaded after {format.minutes(stage.worked_minutes)}.</p>}
          {stage.diagonal && <><h3>Both diagonals</h3><p class="setting"><Words of={format.bare_length(stage.diagonal.mm, unit.value)} /><span class="unit"> {unit.value === 'inch' ? 'in' : 'mm'}</span></p><p class="soft small">Over the outer corners; equal before it sets.</p></>}
        </div>
      </div>
    </article>
  );
}

function Clamps({ stage, name }: { stage: Stage; name: (path: string) => string }) {
  if (stage.clamps.length === 0) return null;
  const along: Record<string, string> = { x: 'left to right', y: 'front to back', z: 'up and down' };
  return (
    <>
      <h3>{format.count(stage.clamps.reduce((sum, one) => sum + one.count, 0), 'clamp')}{stage.cauls > 0 && `, ${format.count(stage.cauls, 'caul')}`}</h3>
      <ul>
        {alike(stage.clamps, name).map((one) => (
          <li key={`${one.part}${one.along}${one.span.mm}`}>{one.count} on {name(one.part)}, {along[one.along]}, {one.reach ? <>reach <Length mm={one.reach.mm} /></> : <span class="strong">longer than any here: <Length mm={one.span.mm} /></span>} <span class="soft small">{pressure(one.force_newtons)} each</span></li>
        ))}
      </ul>
    </>
  );
}

type Clamp = Stage['clamps'][number];
/** Clamps of one kind on parts of one code are one line. */
export function alike(clamps: readonly Clamp[], name: (path: string) => string): Clamp[] {
  const lines = new Map<string, Clamp>();
  for (const one of clamps) {
    const key = [name(one.part), one.along, one.span.mm, one.reach?.mm, Math.round(one.force_newtons)].join();
    const line = lines.get(key);
    lines.set(key, line ? { ...line, count: line.count + one.count } : one);
  }
  return [...lines.values()];
}

/** The force of a clamp in the units a maker reads: kilonewtons, or pounds. */
export const pressure = (newtons: number) => (unit.value === 'inch' ? `${Math.round(newtons / 4.4482216 / 10) * 10} lb` : `${(newtons / 1000).toFixed(1)} kN`);

/** Spread, assemble, square, one behind the other, and the end of what the glue gives. */
export function Times({ stage }: { stage: Stage }) {
  const parts = [['spread', stage.spread_minutes, 'var(--bar)'], ['assemble', stage.assemble_minutes, 'var(--faint)'], ['square', stage.square_minutes, 'var(--accent)']] as const;
  const most = Math.max(stage.takes_minutes, stage.has_minutes, 1) * 1.08;
  const x = (minutes: number) => 4 + (minutes / most) * 392;
  let at = 0;
  const says = `${parts.map(([name, minutes]) => `${name} ${format.minutes(minutes)}`).join(', ')}: ${format.minutes(stage.takes_minutes)}`;
  const has = stage.has_minutes > 0 ? ` of the ${format.minutes(stage.has_minutes)} the glue gives` : '; how long the glue gives is not known';
  return (
    <>
      <p class={stage.has_minutes > 0 && stage.takes_minutes > stage.has_minutes ? 'strong' : ''}>{format.sentence(says)}{has}{stage.has_minutes > 0 && stage.takes_minutes > stage.has_minutes && ': too long'}.</p>
      <svg viewBox="0 0 400 34" role="img" aria-label={says + has} style={{ width: '100%', maxWidth: '30rem' }}>
        {parts.map(([name, minutes, fill]) => { const from = at; at += minutes; return <rect key={name} x={x(from)} y="8" width={Math.max(0, x(at) - x(from) - 1)} height="16" fill={fill} />; })}
        {stage.has_minutes > 0 && <><path d={`M${x(stage.has_minutes)} 2 V30`} class="line" stroke-width="3" /></>}
      </svg>
    </>
  );
}

const three = (from: readonly number[] | undefined): Triple => [from?.[0] ?? 0, from?.[1] ?? 0, from?.[2] ?? 0];

/** The parts of a stage as boxes: pulled apart, or together in their clamps. */
function Apart({ plan, stage, clamped }: { plan: Plan; stage: Stage; clamped: boolean }) {
  const parts = new Map(plan.piece.parts.map((part) => [part.path, part]));
  const solids = stage.parts.flatMap((path, at): Solid[] => {
    const part = parts.get(path);
    return part ? [{ at: three(part.body.at), size: three(part.body.size), code: part.code, move: clamped ? [0, 0, 0] : three(stage.pulled_out[at]) }] : [];
  });
  const drawn = drawn_apart(solids);
  const clamps = clamped ? stage.clamps.flatMap((one) => one.at.map((at) => ({ axis: 'xyz'.indexOf(one.along), half: one.span.mm / 2, at: three(at) }))) : [];
  const bars = clamps.map(({ axis, half, at }) => [-1, 1].map((sign) => projected(at.map((value, index) => (index === axis ? value + sign * half * 1.08 : value)) as Triple)) as [[number, number], [number, number]]);
  const points = [...drawn.flatMap((one) => one.faces.flatMap((face) => face.points)), ...bars.flat()];
  if (points.length === 0) return null;
  const rough = frame_of(points, 0);
  const letter = Math.max(rough.wide, rough.high * 1.4) * 0.035;
  const frame = frame_of(points, letter * 1.2);
  const fill = { top: 'var(--sheet)', front: 'var(--shade)', left: 'var(--faint)' } as const;
  const line = (to: Array<[number, number]>) => `M${to.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`;
  return (
    <svg viewBox={`${frame.x} ${frame.y} ${frame.wide} ${frame.high}`} role="img" aria-label={clamped ? `${bars.length} clamps on ${stage.name}` : `${stage.name} pulled apart: ${drawn.map((one) => one.code).join(', ')}`}>
      {!clamped && drawn.filter((one) => one.moved).map((one, at) => <path key={at} d={line([one.home, one.centre])} class="accent-line" stroke-width={letter * 0.1} stroke-dasharray={`${letter * 0.5} ${letter * 0.3}`} />)}
      {drawn.map((one, at) => (
        <g key={at}>
          {one.faces.map((face) => <path key={face.side} d={`${line(face.points)}Z`} fill={fill[face.side]} fill-opacity={clamped ? 0.75 : 0.92} stroke="var(--pencil)" stroke-width={letter * 0.08} stroke-linejoin="round" />)}
        </g>
      ))}
      {bars.map(([a, b], at) => {
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const long = Math.hypot(dx, dy) || 1;
        const [nx, ny] = [(-dy / long) * letter * 0.7, (dx / long) * letter * 0.7];
        return <path key={at} d={`${line([a, b])}${[a, b].map(([x, y]) => line([[x - nx, y - ny], [x + nx, y + ny]])).join('')}`} class="accent-line" stroke-width={letter * 0.22} stroke-linecap="round" />;
      })}
      {!clamped && drawn.map((one, at) => <text key={at} class="clear" x={one.centre[0]} y={one.centre[1] + letter * 0.35} font-size={letter} font-weight="650" text-anchor="middle">{one.code}</text>)}
    </svg>
  );
}
