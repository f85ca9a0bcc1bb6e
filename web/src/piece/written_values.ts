// Which written values made a part, and the next value a stepper gives.
import type { Part } from '../api/plan';
import type { WrittenValue } from '../api/server';
import { bare_length, type Unit } from '../look/format';

const after = (value: WrittenValue, line: number, column: number) => value.line > line || (value.line === line && value.column >= column);
const parent_of = (path: string) => path.slice(0, path.lastIndexOf('/'));

/** The values of the kit that made the part: those beside the first one written at its place. */
export function values_of(part: Pick<Part, 'from'>, values: readonly WrittenValue[]): WrittenValue[] {
  const first = values.find((value) => after(value, part.from.line, part.from.column));
  if (!first) return [];
  const parent = parent_of(first.path);
  return values.filter((value) => parent_of(value.path) === parent);
}

/** The overall sizes and the names: what is turned first when a client says "a little wider". */
export function overall_values(values: readonly WrittenValue[]): WrittenValue[] {
  const sizes = values.filter((value) => /^piece\/(width|depth|height)$/.test(value.path));
  return [...sizes, ...values.filter((value) => /^names\//.test(value.path))];
}

const kInchStep = 25.4 / 32;
const kMetricStep = 0.5;

/** One step up or down from a written size: 1/32 in or 0.5 mm, in the unit it is written in. */
export function next_size(written: string, millimetres: number, unit: Unit, direction: 1 | -1): string {
  const says_mm = /mm\s*$/.test(written);
  const says_inch = /(in|")\s*$/.test(written);
  const metric = says_mm || (!says_inch && unit === 'mm');
  const step = metric ? kMetricStep : kInchStep;
  const steps = millimetres / step;
  // A size between two marks goes to the next mark in that direction.
  const on_mark = Math.abs(steps - Math.round(steps)) < 1e-6;
  const next = on_mark ? Math.round(steps) + direction : direction > 0 ? Math.ceil(steps) : Math.floor(steps);
  const size = bare_length(Math.max(0, next * step), metric ? 'mm' : 'inch');
  return `${size}${says_mm ? ' mm' : says_inch ? ' in' : ''}`;
}

/** "stack/1/carcase/joint_depth" as a maker reads it: "joint depth". */
export const name_of = (value: WrittenValue) => value.path.slice(value.path.lastIndexOf('/') + 1).replaceAll('_', ' ');
