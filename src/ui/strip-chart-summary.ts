/** Columns for the chart: seconds (ascending), then one column a series, null (or NaN) where there is no number. */
export type StripColumns = readonly (readonly (number | null)[] | Float64Array)[];

/** Which quantity a series is: decides its axis, colour and dash. */
export type StripKind = 'speed' | 'rail' | 'supply';

export interface StripSeries {
  readonly kind: StripKind;
  readonly label: string;
  /** The unit of the numbers in the column, as shown. */
  readonly unit: string;
  /** Digits after the point in readouts. */
  readonly digits: number;
}

/** A crank on the chart, in seconds of the x column. `meanRpm` draws its running average; null draws none. */
export interface StripCrank {
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly label: string;
  readonly counts: boolean;
  readonly meanRpm: number | null;
}

export interface Extent {
  readonly last: number | null;
  readonly min: number | null;
  readonly max: number | null;
}

/** The first index whose second is not before `seconds`; the length where all are before it. */
export function indexAt(seconds: ArrayLike<number | null>, wanted: number): number {
  let low = 0;
  let high = seconds.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((seconds[middle] ?? NaN) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Last, least and greatest number of a column between two indices; all null where there is none. */
export function extentOf(column: ArrayLike<number | null>, from = 0, to = column.length): Extent {
  let min: number | null = null;
  let max: number | null = null;
  let last: number | null = null;
  for (let index = from; index < to; index += 1) {
    const value = column[index] ?? NaN;
    if (Number.isNaN(value)) continue;
    if (min === null || value < min) min = value;
    if (max === null || value > max) max = value;
    last = value;
  }
  return { last, min, max };
}

const shown = (value: number | null, digits: number) => (value === null ? '–' : value.toFixed(digits));

/** A number with its unit for readouts; a dash where there is none. */
export const readout = (value: number | null, { digits, unit }: StripSeries): string =>
  value === null ? '–' : `${value.toFixed(digits)} ${unit}`;

/** The chart in one sentence a series: what a screen reader says in place of the canvas. */
export function summarise(columns: StripColumns, series: readonly StripSeries[]): string {
  const seconds = columns[0] ?? [];
  const first = seconds[0];
  const end = seconds[seconds.length - 1];
  if (typeof first !== 'number' || typeof end !== 'number') return 'No samples yet.';
  const about = `${(end - first).toFixed(1)} s of samples.`;
  const each = series.map((one, index) => {
    const { last, min, max } = extentOf(columns[index + 1] ?? []);
    const at = (value: number | null) => shown(value, one.digits);
    return last === null
      ? `${one.label}: no values.`
      : `${one.label}: last ${at(last)}, least ${at(min)}, most ${at(max)} ${one.unit}.`;
  });
  return [about, ...each].join(' ');
}

export interface SliceRow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly extents: readonly Extent[];
}

/**
 * The chart as a table: the stretch in `rows` equal slices, each with least and most (never a mean: the spike is the
 * finding). An empty stretch gives no rows.
 */
export function sliceTable(
  columns: StripColumns,
  range: { min: number; max: number },
  rows: number,
): readonly SliceRow[] {
  const seconds = columns[0] ?? [];
  const step = (range.max - range.min) / rows;
  if (!(step > 0) || seconds.length === 0) return [];
  return Array.from({ length: rows }, (_, index) => {
    const fromSeconds = range.min + index * step;
    const last = index === rows - 1;
    const toSeconds = last ? range.max : fromSeconds + step;
    const from = indexAt(seconds, fromSeconds);
    const to = indexAt(seconds, last ? toSeconds + 1e-9 : toSeconds);
    return { fromSeconds, toSeconds, extents: columns.slice(1).map((column) => extentOf(column, from, to)) };
  });
}

/** Zooms a range about a place in it by a factor (below 1 comes nearer), kept within the whole and at least 0.2 s wide. */
export function zoomed(
  range: { min: number; max: number },
  whole: { min: number; max: number },
  about: number,
  factor: number,
): { min: number; max: number } {
  const width = Math.min(whole.max - whole.min, Math.max(0.2, (range.max - range.min) * factor));
  const part = range.max > range.min ? (about - range.min) / (range.max - range.min) : 0.5;
  return shifted({ min: about - part * width, max: about + (1 - part) * width }, whole, 0);
}

/** Moves a range by `seconds`, stopping at the ends of the whole. */
export function shifted(
  range: { min: number; max: number },
  whole: { min: number; max: number },
  seconds: number,
): { min: number; max: number } {
  const width = Math.min(range.max - range.min, whole.max - whole.min);
  const min = Math.min(Math.max(range.min + seconds, whole.min), whole.max - width);
  return { min, max: min + width };
}
