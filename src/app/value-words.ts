import type { ValueSummary } from '../jobs/run.ts';
import { formatNumber } from '../quantities/format.ts';

const UNITS = { volume: 'mL', pressure: 'kPa', rate: 'mL/min', time: 's' } as const;

/** Times are kept in ms and shown in s; everything else as it is kept. */
const factor = (quantity: ValueSummary['quantity']): number => (quantity === 'time' ? 1 / 1000 : 1);

/** Unit in which a graded value is shown. */
export const shownUnit = (quantity: ValueSummary['quantity']): string => UNITS[quantity];

/** A graded value in the unit in which it is shown. */
export const shownValue = (value: number, quantity: ValueSummary['quantity']): number =>
  value * factor(quantity);

const decimals = (value: number): number => {
  const size = Math.abs(value);
  return size >= 100 ? 0 : size >= 10 ? 1 : 2;
};

/** In which unit a value is shown, and how it is brought there from the one it is kept in. */
export interface ValueScale {
  readonly unit: string;
  readonly of: (kept: number) => number;
}

const usualScale = (quantity: ValueSummary['quantity']): ValueScale => ({
  unit: shownUnit(quantity),
  of: (kept) => shownValue(kept, quantity),
});

/** "310 ± 5 mL": the value with two standard uncertainties; empty where there is none. */
export function valueWords(summary: ValueSummary | null, scale?: ValueScale): string {
  if (!summary || summary.value === null || !Number.isFinite(summary.value)) return '';
  const { of, unit: symbol } = scale ?? usualScale(summary.quantity);
  const value = of(summary.value);
  const doubt = 2 * of(summary.standardUncertainty);
  const places = decimals(value);
  const shown = formatNumber(value, { decimals: places });
  const unit = `\u00a0${symbol}`;
  return doubt > 0 && Number.isFinite(doubt)
    ? `${shown} ± ${formatNumber(doubt, { decimals: Math.max(places, doubt < 1 ? 1 : 0) })}${unit}`
    : `${shown}${unit}`;
}
