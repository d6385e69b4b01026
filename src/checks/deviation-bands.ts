import type { DeviationRows } from './deviation-rows.ts';

/** The deviation within one band of speed or load. */
export interface Band {
  /** Lower and upper end; null is open. The upper end belongs to the band above. */
  readonly from: number | null;
  readonly to: number | null;
  readonly seconds: number;
  readonly values: number;
  /** Time-weighted mean of actual less commanded, kPa; NaN in a band in which nothing was measured. */
  readonly meanKPa: number;
  /** Standard deviation of the values, divisor n − 1; NaN below two. */
  readonly standardDeviationKPa: number;
  /** The lowest deviation, kPa. */
  readonly worstKPa: number;
}

interface Sums {
  seconds: number;
  weighted: number;
  values: number;
  mean: number;
  square: number;
  worst: number;
}

/** Statistics of the deviation by band of another signal; `ends` are the upper ends, and above the last is one more band. */
export function bandTable(rows: DeviationRows, by: Float64Array, ends: readonly number[]): readonly Band[] {
  const bounds = [...new Set(ends)].sort((a, b) => a - b);
  const sums = [...bounds, Infinity].map((): Sums => ({
    seconds: 0,
    weighted: 0,
    values: 0,
    mean: 0,
    square: 0,
    worst: Infinity,
  }));
  for (let row = 0; row < rows.atMs.length; row++) {
    const here = by[row]!;
    if (Number.isNaN(here)) continue;
    const place = bounds.findIndex((end) => here < end);
    addRow(sums[place < 0 ? bounds.length : place]!, rows, row);
  }
  return sums.map((sum, place) => bandOf(sum, bounds[place - 1] ?? null, bounds[place] ?? null));
}

/** A row stands for the time since the row before it, where nothing is missing between. Mean and square by Welford's step. */
function addRow(sum: Sums, { atMs, deviationKPa, joined }: DeviationRows, row: number): void {
  const value = deviationKPa[row]!;
  const seconds = joined[row] ? (atMs[row]! - atMs[row - 1]!) / 1000 : 0;
  sum.seconds += seconds;
  sum.weighted += seconds * value;
  sum.values++;
  const off = value - sum.mean;
  sum.mean += off / sum.values;
  sum.square += off * (value - sum.mean);
  sum.worst = Math.min(sum.worst, value);
}

const bandOf = (sum: Sums, from: number | null, to: number | null): Band => ({
  from,
  to,
  seconds: sum.seconds,
  values: sum.values,
  meanKPa: sum.values === 0 ? NaN : sum.seconds > 0 ? sum.weighted / sum.seconds : sum.mean,
  standardDeviationKPa: sum.values < 2 ? NaN : Math.sqrt(sum.square / (sum.values - 1)),
  worstKPa: sum.values === 0 ? NaN : sum.worst,
});
