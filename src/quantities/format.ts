import { fromCanonical } from './convert.ts';
import type { UnitId } from './unit.ts';

/** What stands where there is no number: an en dash. */
export const NO_VALUE = '–';
const THIN_SPACE = '\u202f';
const MINUS = '\u2212';

export interface NumberFormat {
  readonly decimals: number;
  readonly decimalMark?: '.' | ',';
}

const DECIMALS: Readonly<Record<UnitId, number>> = {
  rpm: 0,
  kPa: 0,
  MPa: 1,
  bar: 0,
  psi: 0,
  Pa: 0,
  inHg: 1,
  mmHg: 0,
  V: 1,
  mV: 0,
  degC: 0,
  degF: 0,
  mL: 0,
  L: 2,
  usFlOz: 1,
  impFlOz: 1,
  ms: 0,
  s: 1,
  min: 1,
  percent: 0,
  h: 1,
  state: 0,
};

const SYMBOLS: Readonly<Partial<Record<UnitId, string>>> = {
  degC: '°C',
  degF: '°F',
  usFlOz: 'US fl oz',
  impFlOz: 'imp fl oz',
  percent: '%',
  state: '',
};

/** Decimals shown for a unit where nothing else is asked for. */
export const usualDecimals = (unit: UnitId): number => DECIMALS[unit];

/** The unit as printed beside a number; empty for states. */
export const unitSymbol = (unit: UnitId): string => SYMBOLS[unit] ?? unit;

/**
 * A number with fixed decimals, thin no-break spaces between thousands and a true minus sign; the same in every locale.
 * No value, NaN and infinities give an en dash. What rounds to zero has no sign.
 */
export function formatNumber(value: number | null | undefined, format: NumberFormat): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return NO_VALUE;
  const [whole = '', fraction] = Math.abs(value).toFixed(format.decimals).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
  const digits = fraction === undefined ? grouped : grouped + (format.decimalMark ?? '.') + fraction;
  return value < 0 && /[1-9]/.test(digits) ? MINUS + digits : digits;
}

/** A canonical value as `unit` shows it, without the unit: its usual decimals unless `format` says others. */
export function formatQuantity(
  canonical: number | null | undefined,
  unit: UnitId,
  format: Partial<NumberFormat> = {},
): string {
  const value = canonical === null || canonical === undefined ? null : fromCanonical(canonical, unit);
  return formatNumber(value, { decimals: usualDecimals(unit), ...format });
}
