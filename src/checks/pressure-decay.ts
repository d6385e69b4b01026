import { problem, type Problem } from '../problems/problem.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { SPEED_SPIKE, cleanRows, rowAt, rowsWithin, type CleanRows } from '../signals/clean-rows.ts';
import { fallThrough, riseThrough, type Crossing } from '../signals/crossing.ts';
import type { PressureDecaySettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import { noValue, partsOf } from './empty-value.ts';
import { fitDecay } from './fit-decay.ts';
import { holeWarnings } from './hole-warnings.ts';
import { rounded } from './rounded.ts';
import { typedMeasurement } from './typed-measurement.ts';
import type {
  ChosenStretch,
  MeasuredFact,
  Stretch,
  TypedValue,
  ValueMeasurement,
} from './value-measurement.ts';

export interface PressureDecayInput {
  readonly settings: PressureDecaySettings;
  readonly signals: ChosenSignals;
  /** A time read off by hand, ms. */
  readonly typed: TypedValue | null;
  /** Only the data of this stretch are looked at. */
  readonly chosen: ChosenStretch | null;
}

/**
 * The time from the fall through `fromKPa` to the fall through `toKPa`, ms; edges between two rows with interval / √12, and the exponential fitted between
 * them. The last fall that went all the way without a rise in between; else the last one that began, whose time is only known to be at least what
 * was seen (`atLeast`, `check.decay-not-ended`). Warns where the engine still turned, and where the fall is no exponential.
 */
export function measurePressureDecay(input: PressureDecayInput): ValueMeasurement {
  const { settings, signals, typed, chosen } = input;
  if (typed) return typedMeasurement('time', typed);
  const spike = { floor: 0.1 * Math.abs(settings.fromKPa - settings.toKPa), share: 0.5 };
  const all = cleanRows(signals[settings.signal]?.trace ?? null, spike);
  const rows = chosen ? rowsWithin(all, chosen.startMs, chosen.endMs) : all;
  if (rows.count === 0) {
    const signal = SIGNALS[settings.signal].label.toLowerCase();
    return noValue('time', [problem('check.no-signal', { signal })]);
  }
  const falls = fallsOf(settings, rows);
  const fall = falls.findLast(({ end }) => end !== null) ?? falls.at(-1);
  if (!fall) return noValue('time', [problem('check.decay-not-begun', { from: settings.fromKPa })]);
  const found = fall.end
    ? wholeFall(settings, rows, fall.start, fall.end)
    : openFall(settings, rows, fall.start);
  const warnings = [
    ...(chosen ? [problem('check.stretch-chosen', { why: chosen.reason })] : []),
    ...found.warnings,
    ...holeWarnings(rows, settings.signal, found.stretch!),
    ...engineWarnings(signals, found.stretch!),
  ];
  return { ...found, warnings };
}

interface Fall {
  readonly start: Crossing;
  /** Null where the pressure rose again, or the data ended, before it. */
  readonly end: Crossing | null;
}

function fallsOf({ fromKPa, toKPa }: PressureDecaySettings, rows: CleanRows): readonly Fall[] {
  const falls: Fall[] = [];
  for (let start = fallThrough(rows, fromKPa); start;) {
    const fromMs = start.atMs;
    const rise = riseThrough(rows, fromKPa, { fromMs });
    falls.push({ start, end: fallThrough(rows, toKPa, { fromMs, untilMs: rise?.atMs ?? Infinity }) });
    start = rise && fallThrough(rows, fromKPa, { fromMs: rise.atMs });
  }
  return falls;
}

function wholeFall(
  settings: PressureDecaySettings,
  rows: CleanRows,
  start: Crossing,
  end: Crossing,
): ValueMeasurement {
  const value = end.atMs - start.atMs;
  const fitted = rowsWithin(rows, rows.atMs[start.row - 1]!, rows.atMs[end.row]!);
  const rate = ((settings.fromKPa - settings.toKPa) / value) * 1000;
  const fit = fitDecay(fitted);
  return {
    ...noValue('time', []),
    value,
    ...partsOf({ startEdge: start.standardUncertaintyMs, endEdge: end.standardUncertaintyMs }),
    stretch: { startMs: start.atMs, endMs: end.atMs },
    facts: [{ name: 'mean rate of the fall', value: rate, unit: 'kPa/s' }, ...fitFacts(fitted)],
    warnings: fit && !fit.exponential ? [problem('check.decay-not-exponential')] : [],
  };
}

function openFall(settings: PressureDecaySettings, rows: CleanRows, start: Crossing): ValueMeasurement {
  const rise = riseThrough(rows, settings.fromKPa, { fromMs: start.atMs });
  const endMs = rise?.atMs ?? rows.atMs[rows.count - 1]!;
  const fallen = rowsWithin(rows, rows.atMs[start.row - 1]!, endMs);
  const lowest = fallen.value.reduce((least, value) => Math.min(least, value), Infinity);
  const context = { seconds: rounded((endMs - start.atMs) / 1000, 1), lowest: rounded(lowest) };
  return {
    ...noValue('time', [problem('check.decay-not-ended', { ...context, to: settings.toKPa })]),
    value: endMs - start.atMs,
    atLeast: true,
    ...partsOf({ startEdge: start.standardUncertaintyMs }),
    stretch: { startMs: start.atMs, endMs },
    facts: [{ name: 'lowest pressure', value: lowest, unit: 'kPa' }, ...fitFacts(fallen)],
  };
}

function fitFacts(fallen: CleanRows): readonly MeasuredFact[] {
  const fit = fitDecay(fallen);
  if (!fit) return [];
  return [
    { name: 'time constant', value: fit.tauSeconds, unit: 's' },
    { name: 'its standard uncertainty', value: fit.tauUncertainty, unit: 's' },
    { name: 'residual of the fit', value: 100 * fit.residualShare, unit: '%' },
  ];
}

/**
 * The rail must only leak: while the engine turns, the pump delivers and the injectors draw. The last speed before the fall counts too: a
 * controller that went to sleep after shut-off sends nothing, and its last word was that the engine stands.
 */
function engineWarnings(signals: ChosenSignals, { startMs, endMs }: Stretch): readonly Problem[] {
  const speed = cleanRows(signals.engineSpeed?.trace ?? null, SPEED_SPIKE);
  const known = speed.value.subarray(Math.max(0, rowAt(speed, startMs)), rowAt(speed, endMs) + 1);
  if (known.length === 0) return [problem('check.engine-stop-unknown')];
  const fastest = known.reduce((most, value) => Math.max(most, value), 0);
  return fastest > 0 ? [problem('check.engine-still-turns', { speed: rounded(fastest) })] : [];
}
