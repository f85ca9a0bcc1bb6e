// A picture where one helps. Each is drawn from the finding's own figures, to scale where it says so.
import type { Finding, Plan } from '../api/plan';
import type { WrittenValue } from '../api/server';
import * as format from '../look/format';
import { unit } from '../look/words';
import { tightest } from './corner';

type Props = { finding: Finding; plan: Plan; values: readonly WrittenValue[] };

export function Picture({ finding, plan, values }: Props) {
  if (finding.kind === 'sag') return <Sag finding={finding} plan={plan} />;
  if (finding.kind === 'tip_over') return <Tip finding={finding} plan={plan} />;
  if (finding.kind === 'movement' && finding.unit === 'mm') return <Play finding={finding} />;
  if (finding.kind === 'passage') return <Corner plan={plan} values={values} />;
  return null;
}

const size = (mm: number) => format.length(mm, unit.value);

/** How much the sag is drawn out so that the deeper of sag and limit fills the picture. */
export const sag_scale = (value: number, limit: number) => 52 / Math.max(value, limit, 0.001);

function Sag({ finding, plan }: { finding: Finding; plan: Plan }) {
  const part = plan.piece.parts.find((one) => one.path === finding.parts[0]);
  const span = part?.body.size[Math.max(0, 'xyz'.indexOf(part.length_axis.slice(1)))] ?? 0;
  const scale = sag_scale(finding.value, finding.limit_value);
  const [deep, limit] = [finding.value * scale, finding.limit_value * scale];
  const times = span > 0 ? Math.round((scale * span) / 300) : 0;
  const curve = (depth: number) => `M20 40 C 110 ${40 + depth * 1.32} 230 ${40 + depth * 1.32} 320 40`;
  return (
    <svg viewBox="0 0 340 130" role="img" aria-label={`Sags ${size(finding.value)} where ${size(finding.limit_value)} is the limit`}>
      <path d="M20 40 v-22 M320 40 v-22" class="thin" />
      <path d="M20 40 H320" class="faintline" />
      <path d={curve(limit)} class="thin" stroke-dasharray="6 4" />
      <path d={curve(deep)} class="accent-line" stroke-width="3" />
      <path d="M12 40 l8 0 l-4 10z M312 40 l16 0 l-8 10z" fill="var(--pencil)" />
      {[90, 130, 170, 210, 250].map((x) => <path key={x} d={`M${x} 14 v18 m-3 -6 l3 6 l3 -6`} class="thin" />)}
      <text x="20" y="124" font-size="12">{`${size(finding.value)} drawn line, limit ${size(finding.limit_value)} dashed`}</text>
      {times > 1 && <text x="320" y="110" font-size="11" text-anchor="end" class="soft-text">{`depth drawn × ${times}`}</text>}
    </svg>
  );
}

function Tip({ finding, plan }: { finding: Finding; plan: Plan }) {
  const [, depth, height] = plan.piece.overall.size as [number, number, number];
  const scale = 132 / Math.max(depth, height);
  const [wide, high] = [depth * scale, height * scale];
  const [left, floor] = [150, 172];
  const middle = left + ((plan.piece.centre[1] ?? 0) - (plan.piece.overall.at[1] ?? 0)) * scale;
  const up = floor - (plan.piece.centre[2] ?? 0) * scale;
  return (
    <svg viewBox="0 0 340 200" role="img" aria-label={`Seen from the side: ${finding.figure}`}>
      <path d={`M20 ${floor} H320`} class="line" stroke-width="1.5" />
      <g transform={`rotate(-6 ${left} ${floor})`}><rect x={left} y={floor - high} width={wide} height={high} class="faintline" stroke-dasharray="5 4" /></g>
      <rect x={left} y={floor - high} width={wide} height={high} class="line" stroke-width="1.5" fill="none" />
      <path d={`M${left} ${floor - high * 0.72} h-70 m0 0 v34 m-5 -8 l5 8 l5 -8`} class="accent-line" stroke-width="2.5" />
      <circle cx={middle} cy={up} r="5" fill="var(--pencil)" />
      <path d={`M${middle} ${up} V${floor - 6} m-5 -8 l5 8 l5 -8`} class="line" stroke-width="2" />
      <path d={`M${left} ${floor + 4} l-7 12 h14z`} class="accent-fill" />
      <text x={left + 14} y="196" font-size="11">turns about the front feet</text>
      <text x={left - 76} y={floor - high * 0.72 - 6} font-size="12">pull</text>
      <text class="clear" x={middle + 8} y={up + 4} font-size="12">weight</text>
      <text x="20" y="16" font-size="12">{`Holds ${finding.value.toFixed(2)} of what tips it; ${finding.limit_value.toFixed(1)} is the least`}</text>
    </svg>
  );
}

/** Movement beside the play there is, both to one scale. */
function Play({ finding }: { finding: Finding }) {
  const scale = 170 / Math.max(finding.value, finding.limit_value, 0.001);
  const [moves, play] = [finding.value * scale, finding.limit_value * scale];
  const times = (scale * 25.4) / 96;
  return (
    <svg viewBox="0 0 340 118" role="img" aria-label={`Moves ${size(finding.value)}, there is room for ${size(finding.limit_value)}`}>
      <path d={`M130 20 V80 M${130 + play} 14 V86`} class="line" stroke-width="2" />
      <rect x="20" y="26" width="110" height="48" class="shade" />
      <path d="M20 38 C60 34 90 42 130 38 M20 50 C60 46 90 54 130 50 M20 62 C60 58 90 66 130 62" class="faintline" />
      <rect x="130" y="26" width={moves} height="48" class="wash" />
      <rect x="130" y="26" width={moves} height="48" class="accent-line" stroke-width="2" stroke-dasharray="6 4" />
      <text x="24" y="18" font-size="12">dry</text>
      <text x={130 + moves - 4} y="55" font-size="12" text-anchor="end">wet</text>
      <text x="20" y="104" font-size="12">{`Moves ${size(finding.value)}; room for ${size(finding.limit_value)}`}</text>
      <text x="320" y="104" font-size="11" text-anchor="end" class="soft-text">{times >= 1.5 ? `about × ${Math.round(times)}` : ''}</text>
    </svg>
  );
}

function Corner({ plan, values }: { plan: Plan; values: readonly WrittenValue[] }) {
  const beyond = values.find((one) => /^way_in\/\d+\/beyond$/.test(one.path));
  const width = values.find((one) => one.path === beyond?.path.replace('beyond', 'width'));
  const worst = [...plan.piece.packages].sort((a, b) => Math.max(...b.box.size) - Math.max(...a.box.size))[0];
  if (!beyond?.millimetres || !width?.millimetres || !worst) return null;
  const [broad = 0, , long = 0] = [...worst.box.size].sort((a, b) => a - b);
  const { angle, room } = tightest(long, broad, width.millimetres, beyond.millimetres);
  const far = Math.max(long, width.millimetres, beyond.millimetres) * 1.25;
  const scale = 180 / far;
  const [a, b] = [width.millimetres * scale, beyond.millimetres * scale];
  const turn = (angle * 180) / Math.PI;
  return (
    <svg viewBox="0 0 340 220" role="img" aria-label={`${worst.name} in the corner, room ${size(room)}`}>
      <path d={`M20 10 V200 H330 M${20 + b} 10 V${200 - a} H330`} class="line" stroke-width="2" />
      <g transform={`translate(20 ${200 - Math.sin(angle) * long * scale}) rotate(${turn})`}>
        <rect x="0" y={-broad * scale} width={long * scale} height={broad * scale} class="wash" />
        <rect x="0" y={-broad * scale} width={long * scale} height={broad * scale} class="accent-line" stroke-width="2" />
      </g>
      <circle cx={20 + b} cy={200 - a} r="4" fill="var(--pencil)" />
      <text x={28 + b} y={192 - a} font-size="12">{room >= 0 ? `passes by ${size(room)}` : `jams by ${size(-room)}`}</text>
      <text x="330" y="216" font-size="11" text-anchor="end" class="soft-text">{`${worst.name}, flat, at its tightest`}</text>
    </svg>
  );
}
