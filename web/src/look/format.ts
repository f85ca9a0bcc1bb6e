// Figures as a maker reads them.
export type Unit = 'inch' | 'mm';
const kNear = 32; // inches are read to 1/32

function greatest(a: number, b: number): number {
  return b === 0 ? a : greatest(b, a % b);
}

/** A size without its unit: inches to the nearest 1/32, with + or - behind what is a little more or
 *  less; millimetres to a tenth. */
export function bare_length(mm: number, unit: Unit): string {
  if (unit === 'mm') return String(Math.round(mm * 10) / 10 + 0).replace(/^-0$/, '0');
  const inches = Math.abs(mm) / 25.4;
  const parts = Math.round(inches * kNear);
  const off = inches * kNear - parts;
  const [whole, rest] = [Math.floor(parts / kNear), parts % kNear];
  const divisor = greatest(rest, kNear);
  const fraction = rest === 0 ? '' : `${rest / divisor}/${kNear / divisor}`;
  const size = [whole > 0 || rest === 0 ? String(whole) : '', fraction].filter(Boolean).join(' ');
  const mark = off > 1e-4 ? '+' : off < -1e-4 ? '-' : '';
  return (mm < 0 && parts > 0 ? '-' : '') + size + mark;
}

export const length = (mm: number, unit: Unit) => `${bare_length(mm, unit)} ${unit === 'inch' ? 'in' : 'mm'}`;

/** Three sizes with the unit once. */
export function sizes(mm: readonly number[], unit: Unit): string {
  return `${mm.map((one) => bare_length(one, unit)).join(' × ')} ${unit === 'inch' ? 'in' : 'mm'}`;
}

export function mass(kg: number, unit: Unit): string {
  const value = unit === 'inch' ? kg / 0.45359237 : kg;
  return `${value < 10 ? value.toFixed(1) : Math.round(value)} ${unit === 'inch' ? 'lb' : 'kg'}`;
}

const kSigns: Record<string, string> = { USD: '$', EUR: '€', GBP: '£' };

/** Minor units to money; without pence when there are none and the sum is large. */
export function money(minor: number, currency: string): string {
  const whole = Math.abs(minor) % 100 === 0 || Math.abs(minor) >= 1_000_00;
  const amount = (Math.abs(minor) / 100).toLocaleString('en', { minimumFractionDigits: whole ? 0 : 2, maximumFractionDigits: whole ? 0 : 2 });
  return `${minor < 0 ? '−' : ''}${kSigns[currency] ?? `${currency} `}${amount}`;
}

export const money_change = (minor: number, currency: string) => (minor === 0 ? 'no change' : (minor > 0 ? '+' : '') + money(minor, currency));

/** Hours to the half hour: no estimate is truer than that. */
export const hours = (value: number) => `${half(value)} h`;
export const half = (value: number) => (Math.round(value * 2) / 2).toFixed(1).replace(/\.0$/, '');
export const hours_change = (value: number) => (Math.abs(value) < 0.25 ? 'no change' : `${value > 0 ? '+' : '−'}${half(Math.abs(value))} h`);

/** Minutes to five beyond half an hour. */
export function minutes(value: number): string {
  if (value >= 57.5) return hours(value / 60);
  return `${value > 30 ? Math.round(value / 5) * 5 : Math.max(1, Math.round(value))} min`;
}

export const percent = (value: number, places = 0) => `${value.toFixed(places)} %`;

const kMonths = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];
/** 2026-06-26 as 26 June 2026; anything else as it is. */
export function date(iso: string | undefined): string {
  const match = iso?.match(/^(\d{4})-(\d{2})-(\d{2})/);
  return match ? `${Number(match[3])} ${kMonths[Number(match[2]) - 1]} ${match[1]}` : (iso ?? '');
}

export const short_date = (iso: string | undefined) => date(iso).replace(/([A-Z][a-z]{2})[a-z]+/, '$1');
/** Money without pence, for pictures and what is only likely. */
export const round_money = (minor: number, currency: string) => money(Math.round(minor / 100) * 100, currency);

export const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
export const sentence = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
