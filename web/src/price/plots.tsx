import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { Plan } from '../api/plan';
import type { Way } from '../api/server';
import * as format from '../look/format';
import { currency } from '../look/words';
import { curve } from './hours_curve';
import { across_of, buildable, type Axis } from './undominated';
import { waterfall } from './waterfall';

const money = (minor: number) => format.round_money(minor, currency.value);

/** From material to price. Lies on its side so that names stand beside their bars. */
export function Waterfall({ price }: { price: Plan['price'] }) {
  const steps = waterfall(price);
  const [left, right, row] = [96, 84, 25];
  const x = scaleLinear([0, Math.max(price.total, price.price)], [left, 520 - right]);
  const high = steps.length * row + 6;
  return (
    <svg viewBox={`0 0 520 ${high}`} role="img" aria-label={`From material to price: ${steps.map((step) => `${step.name} ${money(step.to - step.from)}`).join(', ')}`}>
      {steps.map((step, at) => {
        const [a, b] = [x(Math.min(step.from, step.to)), x(Math.max(step.from, step.to))];
        const y = 3 + at * row;
        return (
          <g key={step.name}>
            <text x={left - 8} y={y + 16} font-size="13" text-anchor="end" font-weight={step.total ? 700 : 400}>{step.name}</text>
            <rect x={a} y={y + 3} width={Math.max(1, b - a)} height={row - 8} fill={step.total ? 'var(--pencil)' : step.name === 'Margin' ? 'var(--accent)' : 'var(--faint)'} />
            {at + 1 < steps.length && <path d={`M${x(step.to)} ${y + row - 5} v11`} class="thin" />}
            <text x={Math.max(b, x(step.to)) + 6} y={y + 16} font-size="13" font-weight={step.total ? 700 : 400}>{money(step.to - step.from)}</text>
          </g>
        );
      })}
    </svg>
  );
}

/** How the hours may turn out, and what is left of the price at each. */
export function HoursPlot({ plan }: { plan: Plan }) {
  const spread = plan.bench.hours.total;
  const points = curve(spread, plan.price.hours_to_lose);
  const [low, high] = [points[0]?.[0] ?? 0, points.at(-1)?.[0] ?? 1];
  const x = scaleLinear([low, high], [16, 504]);
  const y = scaleLinear([0, Math.max(...points.map(([, d]) => d))], [190, 66]);
  const shape = (of: Array<[number, number]>) => area<[number, number]>().x(([h]) => x(h)).y0(190).y1(([, d]) => y(d))(of) ?? '';
  const lose = plan.price.hours_to_lose;
  const marks = plan.price.outcomes.map((one) => ({ at: one.hours, name: one.name === 'P50' ? 'half' : one.name === 'P80' ? '4 in 5' : '9 in 10', margin: one.margin_percent }));
  return (
    <svg viewBox="0 0 520 232" role="img" aria-label={`Hours: ${marks.map((one) => `${one.name} of such jobs take at most ${format.half(one.at)} hours, margin ${format.percent(one.margin)}`).join('; ')}`}>
      <path d={shape(points)} class="wash" />
      {lose < high && <path d={shape(points.filter(([h]) => h >= lose))} fill="var(--pencil)" />}
      <path d={line<[number, number]>().x(([h]) => x(h)).y(([, d]) => y(d))(points) ?? ''} class="accent-line" stroke-width="2" />
      <path d="M16 190 H504" class="line" />
      {x.ticks(8).map((tick) => <g key={tick}><path d={`M${x(tick)} 190 v5`} class="line" /><text x={x(tick)} y="208" font-size="12" text-anchor="middle">{tick}</text></g>)}
      <text x="504" y="226" font-size="12" text-anchor="end" class="soft-text">hours in all</text>
      {marks.map((one, at) => (
        <g key={one.name}>
          <path d={`M${x(one.at)} 190 V${20 + at * 17}`} class="thin" stroke-dasharray="3 3" />
          <text x={x(one.at) + 5} y={24 + at * 17} font-size="12.5">{`${one.name}: ${format.half(one.at)} h, margin ${format.percent(one.margin)}`}</text>
        </g>
      ))}
      {lose < high && (
        <g><path d={`M${x(lose)} 190 V138`} class="line" stroke-width="2" />
          <text class="clear" x={x(lose) > 380 ? x(lose) - 5 : x(lose) + 5} y="150" font-size="12.5" font-weight="650" text-anchor={x(lose) > 380 ? 'end' : 'start'}>{`loss beyond ${format.half(lose)} h`}</text></g>
      )}
    </svg>
  );
}

/** Every way to take the choices: price up, hours or risk across. */
export function Scatter({ ways, axis, picked, on_pick }: { ways: readonly Way[]; axis: Axis; picked: Way | null; on_pick(way: Way): void }) {
  const shown = ways.filter(buildable);
  const span = (of: (way: Way) => number): [number, number] => [Math.min(...shown.map(of)), Math.max(...shown.map(of))];
  const x = scaleLinear(span((way) => across_of(way, axis)), [70, 500]).nice(5);
  const y = scaleLinear(span((way) => way.price ?? 0), [268, 16]).nice(5);
  return (
    <svg viewBox="0 0 520 320" role="group" aria-label="All combinations: price against hours or risk">
      {y.ticks(5).map((tick) => <g key={tick}><path d={`M70 ${y(tick)} H504`} class="faintline" /><text x="62" y={y(tick) + 4} font-size="12" text-anchor="end">{money(tick)}</text></g>)}
      {x.ticks(6).map((tick) => <g key={tick}><path d={`M${x(tick)} 272 v5`} class="line" /><text x={x(tick)} y="292" font-size="12" text-anchor="middle">{tick}</text></g>)}
      <path d="M70 272 H504" class="line" />
      <text x="504" y="312" font-size="12" text-anchor="end" class="soft-text">{axis === 'hours' ? 'hours, mean' : 'chance of a loss, %'}</text>
      {shown.map((way) => {
        const at = { cx: x(across_of(way, axis)), cy: y(way.price ?? 0) };
        return (
          <g key={way.name} onClick={() => on_pick(way)} style={{ cursor: 'pointer' }}>
            <circle {...at} r="11" fill="transparent" />
            {way.undominated ? <circle {...at} r="5.5" class="accent-fill" /> : <circle {...at} r="3.5" class="thin" />}
            {way.chosen && <path d={`M${at.cx - 10} ${at.cy - 10} h20 v20 h-20z`} class="line" stroke-width="2" />}
            {picked === way && <circle {...at} r="10" class="accent-line" stroke-width="2.5" />}
          </g>
        );
      })}
    </svg>
  );
}
