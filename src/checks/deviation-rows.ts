import type { SignalId } from '../quantities/reading.ts';
import {
  SPEED_SPIKE,
  cleanRows,
  rowAt,
  valueAt,
  type CleanRows,
  type SpikeRule,
} from '../signals/clean-rows.ts';
import type { PressureDeviationSettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import type { Stretch } from './value-measurement.ts';

/** Actual against commanded on common time: one row for each row of the actual pressure at which both are known. */
export interface DeviationRows {
  readonly atMs: Float64Array;
  /** Actual less commanded, kPa: below zero is a shortfall. */
  readonly deviationKPa: Float64Array;
  readonly commandedKPa: Float64Array;
  /** NaN where not known. */
  readonly speedRpm: Float64Array;
  readonly loadPercent: Float64Array;
  /** Whether nothing is missing between this row and the one before. */
  readonly joined: Uint8Array;
  /** Time between joined rows, ms. */
  readonly knownMs: number;
}

/** No rail pressure doubles, or falls to nothing, for a single row. */
export const RAIL_SPIKE: SpikeRule = { floor: 1000, share: 0.5 };
const LOAD_SPIKE: SpikeRule = { floor: 200, share: 0 };

/** What counts as the drive. */
export interface DriveRule {
  /** Slower than this the engine does not run, and the row does not count. */
  readonly runningRpm: number;
  readonly chosen: Stretch | null;
}

/** Puts both pressures on common time; a row where one is not known, or the engine does not run, breaks the drive. */
export function deviationRows(
  settings: PressureDeviationSettings,
  signals: ChosenSignals,
  rule: DriveRule,
): DeviationRows {
  const clean = (signal: SignalId, spike: SpikeRule) => cleanRows(signals[signal]?.trace ?? null, spike);
  const actual = clean(settings.actual, RAIL_SPIKE);
  const commanded = clean(settings.commanded, RAIL_SPIKE);
  const speed = clean('engineSpeed', SPEED_SPIKE);
  const load = clean('actualTorque', LOAD_SPIKE);
  const into = columnsFor(actual.count);
  let isBroken = true;
  for (let row = 0; row < actual.count; row++) {
    const atMs = actual.atMs[row]!;
    const commandedKPa = valueAt(commanded, atMs);
    const speedRpm = lastValue(speed, atMs);
    if (row > 0 && atMs - actual.atMs[row - 1]! > actual.holeMs) isBroken = true;
    if (Number.isNaN(commandedKPa) || !countsIn(rule, atMs, speed.count > 0 ? speedRpm : Infinity)) {
      isBroken = true;
      continue;
    }
    const deviationKPa = actual.value[row]! - commandedKPa;
    putRow(
      into,
      { atMs, deviationKPa, commandedKPa, speedRpm, loadPercent: lastValue(load, atMs) },
      isBroken,
    );
    isBroken = false;
  }
  return cut(into);
}

const countsIn = ({ runningRpm, chosen }: DriveRule, atMs: number, speedRpm: number): boolean =>
  speedRpm >= runningRpm && (chosen === null || (atMs >= chosen.startMs && atMs <= chosen.endMs));

interface Row {
  readonly atMs: number;
  readonly deviationKPa: number;
  readonly commandedKPa: number;
  readonly speedRpm: number;
  readonly loadPercent: number;
}

function putRow(into: Columns, row: Row, isBroken: boolean): void {
  const at = into.count++;
  into.atMs[at] = row.atMs;
  into.deviationKPa[at] = row.deviationKPa;
  into.commandedKPa[at] = row.commandedKPa;
  into.speedRpm[at] = row.speedRpm;
  into.loadPercent[at] = row.loadPercent;
  into.joined[at] = isBroken ? 0 : 1;
  if (!isBroken) into.knownMs += row.atMs - into.atMs[at - 1]!;
}

type Columns = Omit<DeviationRows, 'knownMs'> & { count: number; knownMs: number };

const columnsFor = (room: number): Columns => ({
  count: 0,
  knownMs: 0,
  atMs: new Float64Array(room),
  deviationKPa: new Float64Array(room),
  commandedKPa: new Float64Array(room),
  speedRpm: new Float64Array(room),
  loadPercent: new Float64Array(room),
  joined: new Uint8Array(room),
});

const cut = ({ count, knownMs, ...columns }: Columns): DeviationRows => ({
  atMs: columns.atMs.subarray(0, count),
  deviationKPa: columns.deviationKPa.subarray(0, count),
  commandedKPa: columns.commandedKPa.subarray(0, count),
  speedRpm: columns.speedRpm.subarray(0, count),
  loadPercent: columns.loadPercent.subarray(0, count),
  joined: columns.joined.subarray(0, count),
  knownMs,
});

/** The last value at or before an instant; NaN where there is none or it is stale. */
function lastValue(rows: CleanRows, atMs: number): number {
  const row = rowAt(rows, atMs);
  return row < 0 || atMs - rows.atMs[row]! > rows.holeMs ? NaN : rows.value[row]!;
}
