import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import { meanUncertainty } from '../crank/mean-uncertainty.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { cleanRows } from '../signals/clean-rows.ts';
import { stepOf } from '../signals/resolution.ts';
import type { PressureDeviationSettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import { bandTable, type Band } from './deviation-bands.ts';
import { cellTable, toldStretch, type ToldStretch } from './deviation-cells.ts';
import { RAIL_SPIKE, deviationRows, type DeviationRows } from './deviation-rows.ts';
import { noValue, partsOf } from './empty-value.ts';
import { rounded } from './rounded.ts';
import { lagsOver } from './stretch-value.ts';
import { typedMeasurement } from './typed-measurement.ts';
import type { ChosenStretch, Stretch, TypedValue, ValueMeasurement } from './value-measurement.ts';
import { worstStretches, type WorstStretch } from './worst-stretches.ts';

export interface PressureDeviationInput {
  readonly settings: PressureDeviationSettings;
  readonly signals: ChosenSignals;
  /** A shortfall read off by hand, kPa. */
  readonly typed: TypedValue | null;
  /** Only the data of this stretch are looked at. */
  readonly chosen: ChosenStretch | null;
}

/** The deviation over a drive: graded is the worst mean shortfall; beside it tables and the worst stretches. */
export interface PressureDeviation extends ValueMeasurement {
  readonly speedBands: readonly Band[];
  readonly loadBands: readonly Band[];
  /** Rows of speed, each with a cell for each band of load. */
  readonly cells: readonly (readonly Band[])[];
  /** Worst first, none overlapping another. */
  readonly worst: readonly ToldStretch[];
}

const NO_TABLES = { speedBands: [], loadBands: [], cells: [], worst: [] } as const;

/** The drive itself: the engine runs. Before, commanded pressure stands while the rail still fills. */
const RUNNING_RPM = DEFAULT_CRANK_SETTINGS.runningRpm;

/**
 * Actual less commanded pressure at the instants of the actual one (the commanded between its rows on a straight line, never across a hole), while the
 * engine runs. The value is the largest mean shortfall over `stretchSeconds` without a break, kPa; 0 where it never fell short. Not valid where
 * the commanded pressure never reached `leastCommandedKPa`, or the drive is shorter than `leastSeconds`.
 */
export function measurePressureDeviation(input: PressureDeviationInput): PressureDeviation {
  const { settings, signals, typed, chosen } = input;
  if (typed) return { ...typedMeasurement('pressure', typed), ...NO_TABLES };
  for (const signal of [settings.actual, settings.commanded])
    if (!signals[signal]?.trace.length) {
      const label = SIGNALS[signal].label.toLowerCase();
      return { ...noValue('pressure', [problem('check.no-signal', { signal: label })]), ...NO_TABLES };
    }
  const rows = deviationRows(settings, signals, { runningRpm: RUNNING_RPM, chosen });
  return ofRows(input, rows);
}

function ofRows({ settings, signals, chosen }: PressureDeviationInput, rows: DeviationRows) {
  const worst = worstStretches(rows, settings.stretchSeconds * 1000);
  const tables = {
    speedBands: bandTable(rows, rows.speedRpm, settings.speedBandsRpm),
    loadBands: bandTable(rows, rows.loadPercent, settings.loadBandsPercent),
    cells: cellTable(rows, settings.speedBandsRpm, settings.loadBandsPercent),
    worst: worst.map((stretch) => toldStretch(rows, stretch)),
  };
  const warnings = driveWarnings(rows, chosen);
  const reasons = driveReasons(settings, rows, worst);
  const first = worst[0];
  if (!first) return { ...noValue('pressure', reasons), ...tables, warnings, facts: factsOf(rows) };
  return {
    ...noValue('pressure', reasons),
    ...tables,
    value: Math.max(0, first.meanShortfallKPa),
    ...partsFor(settings, signals, rows, first),
    stretch: { startMs: first.startMs, endMs: first.endMs } satisfies Stretch,
    facts: factsOf(rows),
    warnings,
  };
}

function driveReasons(
  settings: PressureDeviationSettings,
  rows: DeviationRows,
  worst: readonly WorstStretch[],
): readonly Problem[] {
  const highest = rows.commandedKPa.reduce((most, value) => Math.max(most, value), 0);
  const seconds = rows.knownMs / 1000;
  const found: Problem[] = [];
  if (seconds < settings.leastSeconds || worst.length === 0)
    found.push(
      problem('check.drive-too-short', { seconds: rounded(seconds, 1), least: settings.leastSeconds }),
    );
  if (highest < settings.leastCommandedKPa)
    found.push(
      problem('check.commanded-too-low', { highest: rounded(highest), least: settings.leastCommandedKPa }),
    );
  return found;
}

function driveWarnings(rows: DeviationRows, chosen: ChosenStretch | null): readonly Problem[] {
  const isUnknown = (values: Float64Array) => values.length > 0 && values.every(Number.isNaN);
  return [
    ...(chosen ? [problem('check.stretch-chosen', { why: chosen.reason })] : []),
    ...(isUnknown(rows.speedRpm) ? [problem('check.drive-without-speed')] : []),
    ...(isUnknown(rows.loadPercent) ? [problem('check.drive-without-load')] : []),
  ];
}

/** Mean of the stretch: spread with autocorrelation, and one step of each of the two signals. */
function partsFor(
  settings: PressureDeviationSettings,
  signals: ChosenSignals,
  rows: DeviationRows,
  { firstRow, lastRow }: WorstStretch,
): Pick<ValueMeasurement, 'parts' | 'standardUncertainty' | 'step'> {
  const deviation = rows.deviationKPa.subarray(firstRow, lastRow + 1);
  const atMs = rows.atMs.subarray(firstRow, lastRow + 1);
  const { standardUncertainty } = meanUncertainty(deviation, lagsOver(atMs));
  const spread = Number.isFinite(standardUncertainty) ? standardUncertainty : 0;
  const steps = [settings.actual, settings.commanded].map((signal) =>
    stepOf(signal, signals[signal]!.origin, cleanRows(signals[signal]!.trace, RAIL_SPIKE)),
  );
  return {
    ...partsOf({ spread, resolution: Math.hypot(...steps) / Math.sqrt(12) }),
    step: Math.max(...steps),
  };
}

function factsOf({ knownMs, deviationKPa, commandedKPa }: DeviationRows): ValueMeasurement['facts'] {
  const count = deviationKPa.length;
  if (count === 0) return [];
  const mean = deviationKPa.reduce((sum, value) => sum + value, 0) / count;
  const square = deviationKPa.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return [
    { name: 'time', value: knownMs / 1000, unit: 's' },
    { name: 'mean deviation', value: mean, unit: 'kPa' },
    { name: 'standard deviation', value: Math.sqrt(square / Math.max(1, count - 1)), unit: 'kPa' },
    {
      name: 'lowest deviation',
      value: deviationKPa.reduce((least, v) => Math.min(least, v), Infinity),
      unit: 'kPa',
    },
    {
      name: 'highest commanded pressure',
      value: commandedKPa.reduce((most, v) => Math.max(most, v), 0),
      unit: 'kPa',
    },
  ];
}
