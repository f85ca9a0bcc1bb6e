// Which written values made a part, and the next value a stepper gives.
import type { Part } from '../api/plan';
import type { WrittenValue } from '../api/server';
import { bare_length, type Unit } from '../look/format';

export type At = { line: number; column: number };
const after = (value: WrittenValue, line: number, column: number) => value.line > line || (value.line === line && value.column >= column);
export const parent_of = (path: string) => path.slice(0, path.lastIndexOf('/'));

/** The first value that is written at a place or after it. */
export const first_value_at = (at: At, values: readonly WrittenValue[]) => values.find((value) => after(value, at.line, at.column));

/** The values of the kit that made the part: those beside the first one written at its place. */
export function values_of(part: Pick<Part, 'from'>, values: readonly WrittenValue[]): WrittenValue[] {
  const first = first_value_at(part.from, values);
  if (!first) return [];
  const parent = parent_of(first.path);
  return values.filter((value) => parent_of(value.path) === parent);
}

/** What is turned first when a client says "a little wider". */
export const overall_sizes = (values: readonly WrittenValue[]) => values.filter((value) => /^piece\/(width|depth|height)$/.test(value.path));
/** The sizes and stocks that the text gives a name of their own. */
export const named_values = (values: readonly WrittenValue[]) => values.filter((value) => /^names\//.test(value.path));

const kInchStep = 25.4 / 32;
const kMetricStep = 0.5;

const says_mm = (written: string) => /mm\s*$/.test(written);
const says_inch = (written: string) => /(in|")\s*$/.test(written);
const is_metric = (written: string, unit: Unit) => says_mm(written) || (!says_inch(written) && unit === 'mm');

/** A size in the unit another is written in, and with that unit where the other says it. */
export function size_like(written: string, millimetres: number, unit: Unit): string {
  const size = bare_length(millimetres, is_metric(written, unit) ? 'mm' : 'inch').replace(/[+-]$/, '');
  return `${size}${says_mm(written) ? ' mm' : says_inch(written) ? ' in' : ''}`;
}

/** One step up or down from a written size: 1/32 in or 0.5 mm, in the unit it is written in. */
export function next_size(written: string, millimetres: number, unit: Unit, direction: 1 | -1): string {
  const metric = is_metric(written, unit);
  const step = metric ? kMetricStep : kInchStep;
  const steps = millimetres / step;
  // A size between two marks goes to the next mark in that direction.
  const on_mark = Math.abs(steps - Math.round(steps)) < 1e-6;
  const next = on_mark ? Math.round(steps) + direction : direction > 0 ? Math.ceil(steps) : Math.floor(steps);
  return size_like(written, Math.max(0, next * step), unit);
}

/** "stack/1/carcase/joint_depth" as a maker reads it: "joint depth". */
export const name_of = (value: WrittenValue) => value.path.slice(value.path.lastIndexOf('/') + 1).replaceAll('_', ' ');
