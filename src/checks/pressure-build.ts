import { DEFAULT_CRANK_SETTINGS, type Crank } from '../crank/crank.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { cleanRows, rowAt, rowsWithin, valueAt, type CleanRows } from '../signals/clean-rows.ts';
import { fallThrough, riseThrough, type Crossing } from '../signals/crossing.ts';
import { stepOf } from '../signals/resolution.ts';
import type { PressureBuildSettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import type { CrankEntry } from './crank-entry.ts';
import { noValue, partsOf } from './empty-value.ts';
import { fitBuild } from './fit-build.ts';
import { holeWarnings } from './hole-warnings.ts';
import { rounded } from './rounded.ts';
import { typedMeasurement } from './typed-measurement.ts';
import type { ChosenStretch, MeasuredFact, TypedValue, ValueMeasurement } from './value-measurement.ts';

export interface PressureBuildInput {
  readonly settings: PressureBuildSettings;
  readonly signals: ChosenSignals;
  readonly cranks: readonly Pick<CrankEntry, 'crank' | 'setEdges' | 'leftOut'>[];
  /** The crank going on; null between cranks. */
  readonly underWay: Crank | null;
  /** A time read off by hand, ms. */
  readonly typed: TypedValue | null;
  /** Only the data of this stretch are looked at. */
  readonly chosen: ChosenStretch | null;
}

/** From where the time counts, and until when the rise is looked for. */
interface Attempt {
  readonly startMs: number;
  readonly startUncertaintyMs: number;
  /** The starter may have turned this much earlier (rectangular from 0). */
  readonly lateMs: number;
  /** The starter turned, and the pressure is known, at least until here. */
  readonly turnedUntilMs: number;
  /** The next attempt begins here. */
  readonly untilMs: number;
  /** Of the crank, from 1; null where the pressure itself begins it. */
  readonly number: number | null;
}

/**
 * The time from the start of the crank (from starter on, with its doubt) or of the rise through `fromKPa` to the rise through `toKPa`, ms; edges between
 * two rows with interval / √12. The first counting crank that began below `toKPa` and reached it. Where none did, the value is only known to be at least
 * as long as the longest try (`atLeast`), and `check.build-not-reached` says how far it came.
 */
export function measurePressureBuild(input: PressureBuildInput): ValueMeasurement {
  const { settings, signals, typed, chosen } = input;
  if (typed) return typedMeasurement('time', typed);
  const spike = { floor: 0.1 * Math.abs(settings.toKPa - settings.fromKPa), share: 0.5 };
  const all = cleanRows(signals[settings.signal]?.trace ?? null, spike);
  const rows = chosen ? rowsWithin(all, chosen.startMs, chosen.endMs) : all;
  if (rows.count === 0) {
    const signal = SIGNALS[settings.signal].label.toLowerCase();
    return noValue('time', [problem('check.no-signal', { signal })]);
  }
  const stepKPa = stepOf(settings.signal, signals[settings.signal]!.origin, all);
  const attempts =
    settings.from === 'pressure' ? pressureAttempts(settings, rows, stepKPa) : crankAttempts(input, rows);
  const warnings = chosen ? [problem('check.stretch-chosen', { why: chosen.reason })] : [];
  const found = bestAttempt(settings, rows, attempts);
  const holes = found.stretch ? holeWarnings(rows, settings.signal, found.stretch) : [];
  return { ...found, warnings: [...warnings, ...found.warnings, ...holes] };
}

type BuildCrank = PressureBuildInput['cranks'][number];

/** The cranks that count and whose start is known, the one going on last. */
function crankAttempts({ cranks, underWay }: PressureBuildInput, rows: CleanRows): readonly Attempt[] {
  const lastMs = rows.atMs[rows.count - 1]!;
  const each: readonly BuildCrank[] = [...cranks, ...(underWay ? [{ crank: underWay }] : [])];
  return each.flatMap((entry, place): readonly Attempt[] => {
    const { crank, setEdges, leftOut } = entry;
    if (leftOut || (crank.cutAtStart && !setEdges)) return [];
    const goesOn = crank.endedBy === 'engine started' || crank === underWay;
    const start = startOf(entry);
    const turnedUntilMs = goesOn ? lastMs : (setEdges?.endMs ?? crank.end.atMs);
    return [
      {
        ...start,
        turnedUntilMs: Math.max(start.startMs, knownUntilMs(rows, turnedUntilMs)),
        untilMs: each[place + 1]?.crank.start.atMs ?? Infinity,
        number: place + 1,
      },
    ];
  });
}

/** Where the pressure is not known any more, nobody can say that it was not reached. */
const knownUntilMs = (rows: CleanRows, untilMs: number): number =>
  Number.isNaN(valueAt(rows, untilMs)) ? (rows.atMs[rowAt(rows, untilMs)] ?? -Infinity) : untilMs;

function startOf({
  crank,
  setEdges,
}: BuildCrank): Pick<Attempt, 'startMs' | 'startUncertaintyMs' | 'lateMs'> {
  if (setEdges) return { startMs: setEdges.startMs, startUncertaintyMs: 0, lateMs: 0 };
  const { atMs, standardUncertaintyMs } = crank.starterOn;
  const lateMs = crank.startSign === 'speed' ? DEFAULT_CRANK_SETTINGS.lateReportMs : 0;
  return { startMs: atMs, startUncertaintyMs: standardUncertaintyMs, lateMs };
}

/** Each rise through `fromKPa`. From 0: where the pressure leaves it by one step. */
function pressureAttempts(
  { fromKPa }: PressureBuildSettings,
  rows: CleanRows,
  stepKPa: number,
): readonly Attempt[] {
  const level = fromKPa > 0 ? fromKPa : Math.max(stepKPa, Number.MIN_VALUE);
  const rises: Crossing[] = [];
  for (let rise = riseThrough(rows, level); rise;) {
    rises.push(rise);
    const fall = fallThrough(rows, level, { fromMs: rise.atMs });
    rise = fall && riseThrough(rows, level, { fromMs: fall.atMs });
  }
  return rises.map(({ atMs, standardUncertaintyMs }, place) => ({
    startMs: atMs,
    startUncertaintyMs: standardUncertaintyMs,
    lateMs: 0,
    turnedUntilMs: rises[place + 1]?.atMs ?? rows.atMs[rows.count - 1]!,
    untilMs: rises[place + 1]?.atMs ?? Infinity,
    number: null,
  }));
}

function bestAttempt(
  settings: PressureBuildSettings,
  rows: CleanRows,
  attempts: readonly Attempt[],
): ValueMeasurement {
  const low = attempts.filter((each) => !(startPressure(rows, each) >= settings.toKPa));
  for (const attempt of low) {
    const where = { fromMs: earliestMs(attempt), untilMs: attempt.untilMs };
    const end = riseThrough(rows, settings.toKPa, where);
    if (end) {
      const found = reached(settings, rows, attempt, end);
      return attempt === low[0] ? found : { ...found, warnings: [laterCrank(attempt)] };
    }
  }
  const longest = low.reduce<Attempt | null>(
    (best, each) => (best === null || turnedMs(each) > turnedMs(best) ? each : best),
    null,
  );
  if (longest) return notReached(settings, rows, longest);
  return noValue('time', [nothingBegan(settings, attempts.length > 0)]);
}

/** The pump may have turned, and the pressure risen, before speed was first reported. */
const earliestMs = ({ startMs, lateMs }: Attempt): number => startMs - lateMs;
const turnedMs = ({ startMs, turnedUntilMs }: Attempt): number => turnedUntilMs - startMs;
const laterCrank = ({ number }: Attempt): Problem =>
  problem('check.build-later-try', { which: number === null ? 'a later rise' : `crank ${number}` });

function nothingBegan({ from, fromKPa, toKPa }: PressureBuildSettings, began: boolean): Problem {
  if (began) return problem('check.build-starts-above', { to: toKPa });
  return from === 'crank start'
    ? problem('check.no-cranks')
    : problem('check.build-not-begun', { from: fromKPa });
}

/** Before the starter can have turned; where the data begin later, at the first report. NaN where neither is known. */
function startPressure(rows: CleanRows, attempt: Attempt): number {
  const before = valueAt(rows, earliestMs(attempt));
  return Number.isNaN(before) ? valueAt(rows, attempt.startMs) : before;
}

function reached(
  { fromKPa }: PressureBuildSettings,
  rows: CleanRows,
  attempt: Attempt,
  end: Crossing,
): ValueMeasurement {
  const rise = rowsWithin(rows, earliestMs(attempt), rows.atMs[end.row]!);
  // The pump turns some time before the pressure moves: only the rise itself is fitted.
  const left = riseThrough(rise, Math.max(fromKPa, rise.value[0] ?? 0) + 1e-9);
  const fitted = left ? rowsWithin(rise, rise.atMs[Math.max(0, left.row - 1)]!, Infinity) : rise;
  return {
    ...noValue('time', []),
    // A pressure that was there before the first report of speed took no time that can be told from none.
    value: Math.max(0, end.atMs - attempt.startMs),
    ...timeParts(attempt, end.standardUncertaintyMs),
    stretch: { startMs: attempt.startMs, endMs: Math.max(attempt.startMs, end.atMs) },
    facts: [...startFacts(rows, attempt), ...fitFacts(fitted)],
    warnings: [],
  };
}

const timeParts = ({ startUncertaintyMs, lateMs }: Attempt, endEdge: number) =>
  // Only ever longer, not corrected: a / √3 about the shown value, as crank/crank-time.ts works out.
  partsOf({ startEdge: startUncertaintyMs, lateReport: lateMs / Math.sqrt(3), endEdge });

function notReached(settings: PressureBuildSettings, rows: CleanRows, attempt: Attempt): ValueMeasurement {
  const { startMs, turnedUntilMs } = attempt;
  const tried = rowsWithin(rows, startMs, turnedUntilMs);
  const highest = tried.value.reduce((most, value) => Math.max(most, value), 0);
  const seconds = rounded(Math.max(0, turnedMs(attempt)) / 1000, 1);
  const { toKPa } = settings;
  return {
    ...noValue('time', [
      problem('check.build-not-reached', { seconds, highest: rounded(highest), to: toKPa }),
    ]),
    value: Math.max(0, turnedMs(attempt)),
    atLeast: true,
    ...timeParts(attempt, 0),
    stretch: { startMs, endMs: turnedUntilMs },
    facts: [
      ...startFacts(rows, attempt),
      { name: 'highest pressure', value: highest, unit: 'kPa' },
      ...fitFacts(tried),
    ],
  };
}

function startFacts(rows: CleanRows, attempt: Attempt): readonly MeasuredFact[] {
  const { number } = attempt;
  const start = startPressure(rows, attempt);
  return [
    ...(number === null ? [] : [{ name: 'crank', value: number, unit: '' }]),
    ...(Number.isNaN(start) ? [] : [{ name: 'pressure at the start', value: start, unit: 'kPa' }]),
  ];
}

function fitFacts(rise: CleanRows): readonly MeasuredFact[] {
  const fit = fitBuild(rise);
  if (!fit) return [];
  return [
    { name: 'mean rate of the rise', value: fit.rateKPaS, unit: 'kPa/s' },
    { name: 'its standard uncertainty', value: fit.rateUncertainty, unit: 'kPa/s' },
    ...(fit.tauSeconds === null
      ? []
      : [{ name: 'time constant of the rise', value: fit.tauSeconds, unit: 's' }]),
    ...(fit.endKPa === null ? [] : [{ name: 'would level off at', value: fit.endKPa, unit: 'kPa' }]),
    { name: 'residual of the fit', value: fit.residualKPa, unit: 'kPa' },
  ];
}
