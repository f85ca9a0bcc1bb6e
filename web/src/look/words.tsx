import { computed } from '@preact/signals';
import { plan } from '../state/open';
import { unit_taken, type Unit } from '../state/habits';
import * as format from './format';
import { pieces_of } from './fractions';

/** The unit sizes are shown in. */
export const unit = computed<Unit>(() => unit_taken.value ?? plan.value?.commission.unit ?? 'mm');
export const currency = computed(() => plan.value?.commission.currency ?? '');

/** A line with its fractions set as fractions. */
export function Words({ of }: { of: string }) {
  return <>{pieces_of(of).map((piece) => (piece.fraction ? <span class="fraction">{piece.text}</span> : piece.text))}</>;
}

export const Length = ({ mm }: { mm: number }) => <span class="figure"><Words of={format.length(mm, unit.value)} /></span>;
export const Sizes = ({ mm }: { mm: readonly number[] }) => <span class="figure"><Words of={format.sizes(mm, unit.value)} /></span>;
export const Mass = ({ kg }: { kg: number }) => <span class="figure">{format.mass(kg, unit.value)}</span>;
export const Money = ({ minor }: { minor: number }) => <span class="figure">{format.money(minor, currency.value)}</span>;

const kSeverities: Record<string, string> = { danger: 'Danger', fails: 'Fails', poor: 'Poor', note: 'Note' };
/** How bad a finding is: a word in a box, never colour alone. */
export const Severity = ({ of }: { of: string }) => <span class={`severity ${of}`}>{kSeverities[of] ?? of}</span>;
