import { problem, type Problem } from '../problems/problem.ts';
import type { Dimension } from '../quantities/unit.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { cleanRows, type CleanRows } from '../signals/clean-rows.ts';
import { fallThrough, riseThrough } from '../signals/crossing.ts';
import type { CollectedVolumeSettings } from './check-settings.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import type { CrankEntry } from './crank-entry.ts';
import { crankTimeProblems } from './crank-problems.ts';
import { SINGLE_SPIKE, boundsText, heldOver, type Bounds } from './held-signal.ts';
import { holeWarnings } from './hole-warnings.ts';
import { joinedUncertaintyMs } from './joined-crank-time.ts';
import type { TimedSpan } from './measurement.ts';
import { rounded } from './rounded.ts';
import type { ChosenStretch, Stretch } from './value-measurement.ts';

/** The collection clock as it was started and stopped (jobs/run-entry.ts). */
export interface Stopwatch {
  readonly clock: 'source' | 'wall';
  readonly startMs: number;
  readonly endMs: number | null;
  readonly by: 'hand' | 'signal' | 'cranks';
}

export interface CollectionInput {
  readonly settings: CollectedVolumeSettings;
  readonly signals: ChosenSignals;
  readonly cranks: readonly CrankEntry[];
  /** Typed by hand, ms. */
  readonly typedMs: number | null;
  readonly stopwatch: Stopwatch | null;
  /** The last instant of the data, ms; null without. */
  readonly lastMs: number | null;
  /** Signals are only looked at here. */
  readonly chosen: ChosenStretch | null;
}

/** How long was collected, from where that is known, and what held meanwhile. */
export interface Collection {
  readonly from: 'typed' | 'hand' | 'signal' | 'cranks' | null;
  /** Null while it is not known. */
  readonly time: TimedSpan | null;
  /** The collection goes on: since when, on the source's clock. */
  readonly runningSinceMs: number | null;
  /** Where in the data it was; none for typed times and the wall clock. */
  readonly stretches: readonly Stretch[];
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** Nobody collects for longer; a clock that ran on was forgotten. */
const LONGEST_MS = 30 * 60_000;
/**
 * A hand on a button is up to 0.3 s off at either end, rectangular (common practice, no source): 0.3 / √3 · √2 = 0.245 s. Of a typed time the same is
 * assumed, as it comes from a stopwatch.
 */
const HAND_UNCERTAINTY_MS = (300 / Math.sqrt(3)) * Math.sqrt(2);
/** Speed rises and falls at the ends of a crank: only beyond this share is it told. */
const RAMPS_SHARE = 0.1;
/** A signal that is known for less of the collection than this did not prove that it held. As for the coverage of a crank. */
const LEAST_KNOWN = 0.9;

type Timed = Omit<Collection, 'warnings'>;

/**
 * The time of a collection: typed, else the clock started by hand, else found in the data as the settings say (a signal above its trigger: its longest
 * stretch; or the cranks that count). A clock that still runs, was stopped before it was started, or ran longer than 30 minutes is a reason. Warns where
 * `holds` or the speed window was not kept meanwhile, with the share of the time and the worst value, and where that is not known.
 */
export function collectionOf(input: CollectionInput): Collection {
  const timed = timeOf(input);
  return { ...timed, warnings: [...sourceWarnings(input, timed), ...heldWarnings(input, timed)] };
}

function timeOf(input: CollectionInput): Timed {
  const { typedMs, stopwatch, settings } = input;
  if (typedMs !== null) return typedTime(typedMs);
  if (stopwatch && stopwatch.by === 'hand') return stopwatchTime(stopwatch, input.lastMs);
  const found = settings.startedBy === 'cranks' ? crankedTime(input) : signalTime(input);
  if (found.from === null && stopwatch) return stopwatchTime(stopwatch, input.lastMs);
  return found;
}

const UNKNOWN: Timed = { from: null, time: null, runningSinceMs: null, stretches: [], reasons: [] };

function typedTime(spanMs: number): Timed {
  const time = { spanMs, standardUncertaintyMs: HAND_UNCERTAINTY_MS };
  const reasons = spanMs > LONGEST_MS ? [tooLong(spanMs)] : [];
  return { ...UNKNOWN, from: 'typed', time, reasons };
}

const tooLong = (spanMs: number): Problem =>
  problem('check.clock-too-long', { minutes: rounded(spanMs / 60_000, 1) });

function stopwatchTime({ clock, startMs, endMs, by }: Stopwatch, lastMs: number | null): Timed {
  const inData = clock === 'source';
  if (endMs === null) {
    const forgotten = inData && lastMs !== null && lastMs - startMs > LONGEST_MS;
    const reasons = [forgotten ? tooLong(lastMs - startMs) : problem('check.clock-running')];
    return { ...UNKNOWN, from: by, runningSinceMs: inData ? startMs : null, reasons };
  }
  const spanMs = endMs - startMs;
  if (!(spanMs > 0)) return { ...UNKNOWN, from: by, reasons: [problem('check.clock-reversed')] };
  return {
    from: by,
    time: { spanMs, standardUncertaintyMs: HAND_UNCERTAINTY_MS },
    runningSinceMs: null,
    stretches: inData ? [{ startMs, endMs }] : [],
    reasons: spanMs > LONGEST_MS ? [tooLong(spanMs)] : [],
  };
}

function crankedTime({ cranks }: CollectionInput): Timed {
  const counting = cranks.filter(({ leftOut }) => !leftOut);
  if (counting.length === 0) return UNKNOWN;
  return {
    ...UNKNOWN,
    from: 'cranks',
    time: {
      spanMs: counting.reduce((sum, { time }) => sum + time.spanMs, 0),
      standardUncertaintyMs: joinedUncertaintyMs(counting),
    },
    stretches: counting.map(({ crank, setEdges }) => ({
      startMs: setEdges?.startMs ?? crank.starterOn.atMs,
      endMs: setEdges?.endMs ?? crank.end.atMs,
    })),
    reasons: cranks.flatMap((entry, place) => crankTimeProblems(entry, place + 1).reasons),
  };
}

/** The longest stretch above the trigger; while there is none that ended, the one that goes on. */
function signalTime({ settings: { trigger }, signals, chosen }: CollectionInput): Timed {
  if (!trigger) return UNKNOWN;
  const rows = cleanRows(signals[trigger.signal]?.trace ?? null, SINGLE_SPIKE);
  const { ended, openSinceMs } = stretchesAbove(rows, trigger.above, chosen);
  const [first, ...others] = ended;
  if (first === undefined) {
    if (openSinceMs === null) return UNKNOWN;
    const reasons = [problem('check.clock-running')];
    return { ...UNKNOWN, from: 'signal', runningSinceMs: openSinceMs, reasons };
  }
  const longest = others.reduce((best, each) => (each.time.spanMs > best.time.spanMs ? each : best), first);
  const { time, startMs, endMs } = longest;
  const reasons = time.spanMs > LONGEST_MS ? [tooLong(time.spanMs)] : [];
  return { from: 'signal', time, runningSinceMs: openSinceMs, stretches: [{ startMs, endMs }], reasons };
}

interface StretchesAbove {
  readonly ended: readonly (Stretch & { readonly time: TimedSpan })[];
  /** Since when the signal is above and has not come down. */
  readonly openSinceMs: number | null;
}

function stretchesAbove(rows: CleanRows, level: number, chosen: ChosenStretch | null): StretchesAbove {
  const untilMs = chosen?.endMs ?? Infinity;
  const ended: StretchesAbove['ended'][number][] = [];
  let rise = riseThrough(rows, level, { fromMs: chosen?.startMs ?? -Infinity, untilMs });
  while (rise) {
    const fall = fallThrough(rows, level, { fromMs: rise.atMs, untilMs });
    if (!fall) return { ended, openSinceMs: rise.atMs };
    const standardUncertaintyMs = Math.hypot(rise.standardUncertaintyMs, fall.standardUncertaintyMs);
    const time = { spanMs: fall.atMs - rise.atMs, standardUncertaintyMs };
    ended.push({ startMs: rise.atMs, endMs: fall.atMs, time });
    rise = riseThrough(rows, level, { fromMs: fall.atMs, untilMs });
  }
  return { ended, openSinceMs: null };
}

/** What is odd about that by which the time was found: cranks left out or moved, a trigger that was not heard all the time. */
function sourceWarnings(
  { settings: { trigger }, signals, cranks }: CollectionInput,
  { from, time, stretches }: Timed,
): readonly Problem[] {
  if (time === null) return [];
  if (from === 'cranks')
    return cranks.flatMap((entry, place) => crankTimeProblems(entry, place + 1).warnings);
  if (from !== 'signal' || !trigger) return [];
  const rows = cleanRows(signals[trigger.signal]?.trace ?? null, SINGLE_SPIKE);
  return stretches.flatMap((stretch) => holeWarnings(rows, trigger.signal, stretch));
}

function heldWarnings(input: CollectionInput, { from, time, stretches }: Timed): readonly Problem[] {
  if (from === null || time === null) return [];
  const { holds, speed } = input.settings;
  const rule: Bounds | null = speed && { signal: 'engineSpeed', min: speed.minRpm, max: speed.maxRpm };
  return [
    ...(holds ? heldWarning(input.signals, holds, stretches, 0) : []),
    ...(rule ? heldWarning(input.signals, rule, stretches, RAMPS_SHARE) : []),
  ];
}

function heldWarning(
  signals: ChosenSignals,
  bounds: Bounds,
  stretches: readonly Stretch[],
  allowedShare: number,
): readonly Problem[] {
  const { shareOutside, worst, knownMs } = heldOver(signals, bounds, stretches);
  const unit = UNIT_OF[SIGNALS[bounds.signal].dimension] ?? '';
  const context = {
    signal: SIGNALS[bounds.signal].label.toLowerCase(),
    allowed: boundsText(bounds, unit),
  };
  if (shareOutside === null) return [problem('check.hold-unknown', context)];
  const share = knownMs / stretches.reduce((sum, { startMs, endMs }) => sum + endMs - startMs, 0);
  const partly =
    share < LEAST_KNOWN
      ? [problem('check.hold-partly-known', { ...context, percent: rounded(100 * share) })]
      : [];
  if (shareOutside <= allowedShare || worst === null) return partly;
  const percent = Math.max(1, rounded(100 * shareOutside));
  const text = `${rounded(worst, 1)} ${unit}`.trim();
  return [problem('check.not-held', { ...context, percent, worst: text }), ...partly];
}

/** The canonical unit as it is written, by dimension. */
const UNIT_OF: Partial<Record<Dimension, string>> = {
  pressure: 'kPa',
  speed: 'rpm',
  voltage: 'V',
  temperature: '°C',
  ratio: '%',
};
