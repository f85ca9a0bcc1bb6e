import type { Plan } from '../api/plan';
import * as format from '../look/format';
import { unit } from '../look/words';
import { counted, extent, letter_height, strips, type SheetLayout } from './layout';

const bare = (mm: number) => format.bare_length(mm, unit.value);
type Codes = ReadonlyMap<string, string>;

/** One sheet as it is sawn: numbered cuts, parts by code, offcuts hatched, settings of the first rips. */
export function SheetDrawing({ layout, codes }: { layout: SheetLayout; codes: Codes }) {
  const { long, broad } = extent(layout);
  const [margin, letters] = [long * 0.1, long * 0.022];
  const pattern = `hatch-${Math.round(long)}-${layout.cuts.length}-${layout.pieces.length}`;
  return (
    <svg viewBox={`${-letters} ${-letters * 2} ${long + margin + letters} ${broad + letters * 4.6}`} role="img" aria-label={`Sheet ${bare(long)} by ${bare(broad)} with ${layout.pieces.length} parts and ${layout.cuts.length} cuts`}>
      <defs><pattern id={pattern} width={letters} height={letters} patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d={`M0 0 V${letters}`} stroke="var(--faint)" stroke-width={letters * 0.16} /></pattern></defs>
      <rect x="0" y="0" width={long} height={broad} class="line" stroke-width={letters * 0.14} />
      {layout.offcuts.map((one, at) => (
        <g key={`o${at}`}>
          <rect x={one.x_mm} y={one.y_mm} width={one.length.mm} height={one.width.mm} fill={`url(#${pattern})`} />
          <Name x={one.x_mm} y={one.y_mm} long={one.length.mm} broad={one.width.mm} says={`keep ${bare(one.length.mm)} × ${bare(one.width.mm)}`} largest={letters * 0.95} />
        </g>
      ))}
      {layout.pieces.map((one, at) => (
        <g key={at}>
          <rect x={one.x_mm} y={one.y_mm} width={one.length_mm} height={one.width_mm} class="wash" />
          <rect x={one.x_mm} y={one.y_mm} width={one.length_mm} height={one.width_mm} class="line" stroke-width={letters * 0.09} />
          <Name x={one.x_mm} y={one.y_mm} long={one.length_mm} broad={one.width_mm} says={codes.get(one.part) ?? ''} under={`${bare(one.length_mm)} × ${bare(one.width_mm)}`} largest={letters * 1.15} />
        </g>
      ))}
      {strips(layout).map((strip) => (
        <g key={strip.number}>
          <path d={`M${long} ${strip.at} h${letters * 0.7}`} class="accent-line" stroke-width={letters * 0.14} />
          <text x={long + letters} y={strip.at + letters * 0.35} font-size={letters * 1.05} font-weight="650">{bare(strip.setting)}</text>
        </g>
      ))}
      {layout.cuts.map((cut) => <CutNumber key={cut.number} cut={cut} letters={letters * 0.95} />)}
      <text x={long / 2} y={broad + letters * 1.6} font-size={letters} text-anchor="middle">{bare(long)}</text>
      <text x={long} y={-letters * 0.6} font-size={letters * 0.9} text-anchor="end" class="soft-text">fence for the first rips →</text>
    </svg>
  );
}

function CutNumber({ cut, letters }: { cut: SheetLayout['cuts'][number]; letters: number }) {
  const near = cut.from_mm + letters * (cut.stage === 1 ? 1.2 : 0.9);
  const [x, y] = cut.along ? [near, cut.at_mm] : [cut.at_mm, near];
  return (
    <g>
      <circle cx={x} cy={y} r={letters * 0.78} fill="var(--sheet)" stroke="var(--accent)" stroke-width={letters * 0.12} />
      <text x={x} y={y + letters * 0.36} font-size={letters} text-anchor="middle">{cut.number}</text>
    </g>
  );
}

function Name({ x, y, long, broad, says, under, largest }: { x: number; y: number; long: number; broad: number; says: string; under?: string; largest: number }) {
  const upright = broad > long * 1.6;
  const [room, across] = upright ? [broad, long] : [long, broad];
  const height = letter_height(room, under ? across * 0.6 : across, says.length, largest);
  if (height === 0) return null;
  const small = under ? letter_height(room, across * 0.45, under.length, largest * 0.85) : 0;
  const [cx, cy] = [x + long / 2, y + broad / 2];
  return (
    <g transform={upright ? `rotate(-90 ${cx} ${cy})` : undefined} text-anchor="middle">
      <text x={cx} y={cy + (small ? -height * 0.05 : height * 0.36)} font-size={height} font-weight="650">{says}</text>
      {small > 0 && <text x={cx} y={cy + small * 1.1} font-size={small} class="soft-text">{under}</text>}
    </g>
  );
}

/** One rough board with the parts laid on it. */
export function BoardDrawing({ board, codes, longest }: { board: Plan['stock']['solids'][number]['boards'][number]; codes: Codes; longest: number }) {
  const letters = longest * 0.024;
  const unnamed = board.pieces.filter((one) => letter_height(one.length_mm, one.width_mm, (codes.get(one.part) ?? '').length, letters) === 0).map((one) => codes.get(one.part) ?? '');
  return (
    <svg viewBox={`0 ${-letters * 0.4} ${longest + 2} ${board.width.mm + letters * 2.2}`} role="img" aria-label={`Board ${board.length.text} by ${board.width.text} with ${board.pieces.length} parts`}>
      <rect x="1" y="0" width={board.length.mm} height={board.width.mm} class="line" stroke-width={letters * 0.1} />
      {board.pieces.map((one, at) => (
        <g key={at}>
          <rect x={one.x_mm + 1} y={one.y_mm} width={one.length_mm} height={one.width_mm} class="wash" />
          <rect x={one.x_mm + 1} y={one.y_mm} width={one.length_mm} height={one.width_mm} class="line" stroke-width={letters * 0.07} />
          <Name x={one.x_mm} y={one.y_mm} long={one.length_mm} broad={one.width_mm} says={codes.get(one.part) ?? ''} largest={letters} />
        </g>
      ))}
      <text x="1" y={board.width.mm + letters * 1.3} font-size={letters} class="soft-text">{`${bare(board.length.mm)} × ${bare(board.width.mm)} ${unit.value === 'inch' ? 'in' : 'mm'}${unnamed.length > 0 ? `, too narrow to name: ${counted(unnamed)}` : ''}`}</text>
    </svg>
  );
}
