// The settings of one machine as one scale: a glance at the saw, gloves on.
import { scaleLinear } from 'd3-scale';
import * as format from '../look/format';
import { unit as shown_unit } from '../look/words';
import { open_parts } from './parts';
import { setting_mm, spread_labels, type Step } from './steps';

export function Ladder({ steps, unit }: { steps: readonly Step[]; unit: 'inch' | 'mm' }) {
  const fence = steps.flatMap((step) => {
    const mm = step.setting_kind === 'fence' ? setting_mm(step.setting, unit) : null;
    return mm === null ? [] : [{ step, mm }];
  });
  if (fence.length < 2) return null;
  const gap = 30;
  const high = fence.length * gap + 40;
  const y = scaleLinear([0, Math.max(...fence.map((one) => one.mm))], [high - 20, 20]);
  const places = spread_labels(fence.map((one) => y(one.mm)), gap);
  const shift = Math.max(0, 14 - Math.min(...places));
  return (
    <details class="ladder">
      <summary style={{ minHeight: '44px', display: 'flex', alignItems: 'center', cursor: 'pointer', color: 'var(--accent)' }}>All {fence.length} fence settings on one scale</summary>
      <svg viewBox={`0 0 640 ${high + shift}`} role="img" aria-label={`Fence settings: ${fence.map((one) => one.step.setting).join(', ')}`} style={{ maxWidth: '46rem' }}>
        <path d={`M40 ${y.range()[1]} V${y.range()[0]}`} class="line" stroke-width="3" />
        {y.ticks(10).map((tick) => <path key={tick} d={`M32 ${y(tick)} h8`} class="line" />)}
        {fence.map((one, at) => (
          <g key={one.step.number}>
            <path d={`M40 ${y(one.mm)} h14 L96 ${(places[at] ?? 0) + shift}`} class="thin" />
            <text x="102" y={(places[at] ?? 0) + shift + 8} font-size="24" font-weight="700">{format.bare_length(one.mm, shown_unit.value)}</text>
            <text x="230" y={(places[at] ?? 0) + shift + 6} font-size="15">{`${one.step.pieces} × ${open_parts(one.step.parts)}`}</text>
          </g>
        ))}
      </svg>
    </details>
  );
}
