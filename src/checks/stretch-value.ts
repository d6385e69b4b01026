import { spacingOf } from '../crank/coverage.ts';
import { meanUncertainty } from '../crank/mean-uncertainty.ts';
import { rowAt, type CleanRows } from '../signals/clean-rows.ts';
import type { RowSpan } from '../signals/steady.ts';
import { noValue, partsOf } from './empty-value.ts';
import type { MeasuredFact, ValueMeasurement } from './value-measurement.ts';

/** Correlation is followed over this long: gauges and regulators move slower than cranking speed, for which 0.6 s are used. */
const CORRELATION_MS = 1000;
const LEAST_LAGS = 3;

export interface StretchOfRows {
  readonly rows: CleanRows;
  readonly span: RowSpan;
  /** One step of the signal, kPa. */
  readonly step: number;
  /** Engine speed, to be told beside the value; no rows where it is not known. */
  readonly speed: CleanRows;
  readonly spikes: number;
}

/**
 * The time-weighted mean (trapezoids) of a pressure over rows of its trace, with the standard uncertainty of the mean (spread with its
 * autocorrelation) and of the resolution (step / √12, GUM 4.3.7); beside it spread, lowest, highest and mean engine speed.
 */
export function stretchValue({ rows, span, step, speed, spikes }: StretchOfRows): ValueMeasurement {
  const atMs = rows.atMs.subarray(span.first, span.last + 1);
  const values = rows.value.subarray(span.first, span.last + 1);
  const startMs = atMs[0]!;
  const endMs = atMs.at(-1)!;
  const spread = meanUncertainty(values, lagsOver(atMs)).standardUncertainty;
  const mean = timeMean(atMs, values);
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const known = meanSpeed(speed, startMs, endMs);
  const facts: MeasuredFact[] = [
    { name: 'mean', value: mean, unit: 'kPa' },
    { name: 'standard deviation', value: Math.sqrt(square / Math.max(1, values.length - 1)), unit: 'kPa' },
    { name: 'lowest', value: values.reduce((a, b) => Math.min(a, b)), unit: 'kPa' },
    { name: 'highest', value: values.reduce((a, b) => Math.max(a, b)), unit: 'kPa' },
    { name: 'time', value: (endMs - startMs) / 1000, unit: 's' },
    { name: 'values', value: values.length, unit: '' },
    { name: 'single spikes left out', value: spikes, unit: '' },
    ...(known === null ? [] : [{ name: 'mean engine speed', value: known, unit: 'rpm' }]),
  ];
  return {
    ...noValue('pressure', []),
    value: mean,
    ...partsOf({ spread, resolution: step / Math.sqrt(12) }),
    step,
    stretch: { startMs, endMs },
    facts,
  };
}

/** Lags that reach over CORRELATION_MS at the rate of the data. */
export function lagsOver(atMs: Float64Array): number {
  const { sampleMs } = spacingOf([...atMs]);
  return Math.max(LEAST_LAGS, sampleMs > 0 ? Math.round(CORRELATION_MS / sampleMs) : 0);
}

/** Trapezoids between the rows ÷ time; the first value where they span no time. */
export function timeMean(atMs: Float64Array, values: Float64Array): number {
  let integral = 0;
  for (let row = 1; row < atMs.length; row++)
    integral += ((values[row]! + values[row - 1]!) / 2) * (atMs[row]! - atMs[row - 1]!);
  const spanMs = atMs.at(-1)! - atMs[0]!;
  return spanMs > 0 ? integral / spanMs : values[0]!;
}

function meanSpeed(speed: CleanRows, startMs: number, endMs: number): number | null {
  const first = Math.max(0, rowAt(speed, startMs));
  const last = rowAt(speed, endMs);
  if (last < first) return null;
  return timeMean(speed.atMs.subarray(first, last + 1), speed.value.subarray(first, last + 1));
}
