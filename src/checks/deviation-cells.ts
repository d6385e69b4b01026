import { bandTable, type Band } from './deviation-bands.ts';
import type { DeviationRows } from './deviation-rows.ts';
import type { WorstStretch } from './worst-stretches.ts';

/**
 * The deviation by speed and load: a row of cells for each band of speed, a cell for each band of load (`ends` as in bandTable). What the data
 * do not know makes one band of its axis: without load there is one cell a row, without speed one row.
 */
export function cellTable(
  rows: DeviationRows,
  speedEnds: readonly number[],
  loadEnds: readonly number[],
): readonly (readonly Band[])[] {
  const speed = known(rows.speedRpm, speedEnds);
  const load = known(rows.loadPercent, loadEnds);
  return bandTable(rows, speed.by, speed.ends).map(({ from, to }) => {
    const here = load.by.map((value, row) => (isIn(speed.by[row]!, from, to) ? value : NaN));
    return bandTable(rows, here, load.ends);
  });
}

/** An axis, or one band of everything where no row knows it. */
function known(by: Float64Array, ends: readonly number[]): { by: Float64Array; ends: readonly number[] } {
  return by.every(Number.isNaN) ? { by: new Float64Array(by.length), ends: [] } : { by, ends };
}

const isIn = (value: number, from: number | null, to: number | null): boolean =>
  value >= (from ?? -Infinity) && value < (to ?? Infinity);

/** A stretch with what was going on in it. */
export interface ToldStretch extends WorstStretch {
  /** The largest shortfall of any of its rows, kPa. */
  readonly mostShortfallKPa: number;
  /** Means of its rows; null where not known. */
  readonly speedRpm: number | null;
  readonly loadPercent: number | null;
}

/** What was going on in a stretch: its largest shortfall, and mean speed and load. */
export function toldStretch(rows: DeviationRows, stretch: WorstStretch): ToldStretch {
  const of = (column: Float64Array) => column.subarray(stretch.firstRow, stretch.lastRow + 1);
  const least = of(rows.deviationKPa).reduce((low, value) => Math.min(low, value), Infinity);
  return {
    ...stretch,
    mostShortfallKPa: 0 - least,
    speedRpm: meanOf(of(rows.speedRpm)),
    loadPercent: meanOf(of(rows.loadPercent)),
  };
}

function meanOf(column: Float64Array): number | null {
  const values = column.filter((value) => !Number.isNaN(value));
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}
