import type { Crank, CrankPhase, CrankSettings, Edge } from './crank.ts';
import {
  endStretch,
  FRESH_MACHINE,
  stepMachine,
  type Classified,
  type CrankMachine,
} from './crank-machine.ts';
import {
  intervalWriter,
  NO_INTERVALS,
  putInterval,
  usualIntervalMs,
  type IntervalWriter,
  type RecentIntervals,
} from './usual-interval.ts';

/** What the crank finder knows after a sample. Never changed; a later sample gives a new one. */
export interface FinderState {
  readonly settings: CrankSettings;
  readonly machine: CrankMachine;
  /** The last sample that was classified, in this stretch. */
  readonly before: Classified | null;
  /** The newest valid sample. It waits for the next one, to be the middle of three. */
  readonly waitingMs: number;
  readonly waitingRpm: number; // NaN: none waits
  readonly intervals: RecentIntervals;
}

/** Missing readings that the run-down outlasts at slow rates: one lost reading makes a hole of two intervals. */
const MISSING_INTERVALS = 2.5;

/** The finder before any data. */
export const initialFinder = (settings: CrankSettings): FinderState => ({
  settings,
  machine: FRESH_MACHINE,
  before: null,
  waitingMs: 0,
  waitingRpm: NaN,
  intervals: NO_INTERVALS,
});

/** A finder while samples are put into it. No object a sample: `before` and `spare` change places. */
export interface FinderWriter {
  readonly settings: CrankSettings;
  machine: CrankMachine;
  before: Mutable<Classified> | null;
  spare: Mutable<Classified>;
  waitingMs: number;
  waitingRpm: number;
  intervals: IntervalWriter;
}

type Mutable<Type> = { -readonly [Key in keyof Type]: Type[Key] };

const newSample = (): Mutable<Classified> => ({ atMs: 0, rawRpm: 0, rpm: 0 });

/** Begins putting samples into a finder. The state itself stays as it is. */
export const finderWriter = (state: FinderState): FinderWriter => ({
  settings: state.settings,
  machine: state.machine,
  before: state.before && { ...state.before },
  spare: newSample(),
  waitingMs: state.waitingMs,
  waitingRpm: state.waitingRpm,
  intervals: intervalWriter(state.intervals),
});

/** What a finder knows after the samples put into it. The writer is used up. */
export const finderFrom = (writer: FinderWriter): FinderState => ({
  settings: writer.settings,
  machine: writer.machine,
  before: writer.before,
  waitingMs: writer.waitingMs,
  waitingRpm: writer.waitingRpm,
  intervals: writer.intervals,
});

/**
 * One speed sample later. `atMs` source time in ms, `rpm` NaN where the reading is missing (not available, error). A time that is
 * not a number is skipped; one that runs backwards counts as no time passed. Source: measurement.md section 2.
 */
export function stepFinder(state: FinderState, atMs: number, rpm: number): FinderState {
  const writer = finderWriter(state);
  putSample(writer, atMs, rpm);
  return finderFrom(writer);
}

/** Puts one speed sample in, as `stepFinder` does. */
export function putSample(writer: FinderWriter, atMs: number, rpm: number): void {
  if (!Number.isFinite(atMs)) return;
  const value = Number.isFinite(rpm) ? rpm : NaN;
  if (Number.isNaN(writer.waitingRpm)) return wait(writer, atMs, value);
  const nowMs = Math.max(atMs, writer.waitingMs);
  const goneMs = nowMs - writer.waitingMs;
  if (goneMs > writer.settings.staleFloorMs && goneMs > staleMs(writer)) {
    restart(writer, endFinderStretch(writer, 'data lost'));
    return wait(writer, nowMs, value);
  }
  if (Number.isNaN(value)) return;
  const isRestart = isRestartAfterMissing(writer, goneMs, value);
  const now = writer.spare;
  classify(writer, value, now);
  writer.machine = stepMachine(writer.machine, writer.before, now, writer.settings);
  writer.spare = writer.before ?? newSample();
  writer.before = now;
  wait(writer, nowMs, value);
  putInterval(writer.intervals, goneMs);
  if (!isRestart) return;
  restart(writer, endFinderStretch(writer, 'data lost'));
  wait(writer, nowMs, value);
}

function wait(writer: FinderWriter, atMs: number, rpm: number): void {
  if (Number.isNaN(rpm)) return;
  writer.waitingMs = atMs;
  writer.waitingRpm = rpm;
}

const restart = (writer: FinderWriter, state: FinderState): void =>
  void Object.assign(writer, finderWriter(state));

/** Time is not continuous here, or the link had a gap: a crank under way ends as `data lost`, the next data start anew. */
export function breakFinder(state: FinderState, atMs: number): FinderState {
  void atMs; // the crank ends at its last sample, not at the gap
  return endFinderStretch(state, 'data lost');
}

/** The cranks as if the data ended here: one still under way is `cut`, and its time a lower bound. */
export const finishFinder = (state: FinderState): readonly Crank[] =>
  endFinderStretch(state, 'cut').machine.cranks;

/** The cranks that have ended so far, in order. */
export const foundCranks = (state: FinderState): readonly Crank[] => state.machine.cranks;

/** What the engine is doing, as far as the data tell. */
export const currentPhase = (state: FinderState): CrankPhase => state.machine.phase;

/** The crank going on, or null. It appears once the crossing has held. */
export function crankUnderWay({ machine }: FinderState): { start: Edge; cutAtStart: boolean } | null {
  if (machine.phase !== 'cranking' || !machine.begun) return null;
  return { start: machine.begun.crossing.edge, cutAtStart: machine.begun.cutAtStart };
}

const staleMs = ({ settings, intervals }: Pick<FinderState, 'settings' | 'intervals'>): number =>
  Math.max(settings.staleFloorMs, settings.staleIntervals * usualIntervalMs(intervals));

/**
 * Missing for restMs after running is a standstill, so what comes then may be a crank. But one lost reading of a slow log is not, and
 * a speed below the last one may be the same run-down seen again.
 */
function isRestartAfterMissing(state: FinderState, goneMs: number, rpm: number): boolean {
  const { phase } = state.machine;
  if (goneMs < state.settings.restMs || (phase !== 'running' && phase !== 'runningDown')) return false;
  return rpm > state.waitingRpm && goneMs >= MISSING_INTERVALS * usualIntervalMs(state.intervals);
}

function endFinderStretch(state: FinderState, why: 'data lost' | 'cut'): FinderState {
  const { settings, before, waitingMs, waitingRpm } = state;
  if (Number.isNaN(waitingRpm))
    return { ...initialFinder(settings), machine: endStretch(state.machine, 0, why) };
  const last = { atMs: waitingMs, rawRpm: waitingRpm, rpm: waitingRpm };
  const machine = endStretch(stepMachine(state.machine, before, last, settings), waitingMs, why);
  return { ...initialFinder(settings), machine };
}

/** The waiting sample as the middle of three. Monotone edges stay exactly; a single spike or drop-out vanishes. */
function classify(
  { before, waitingMs, waitingRpm, settings }: FinderWriter,
  next: number,
  into: Mutable<Classified>,
): void {
  // The first of a stretch has no left neighbour: far above running, and the next one not, is a spike.
  const isSpike = waitingRpm >= settings.runningRpm && next < 0.75 * settings.runningRpm;
  into.atMs = waitingMs;
  into.rawRpm = waitingRpm;
  into.rpm = before ? median(before.rawRpm, waitingRpm, next) : isSpike ? next : waitingRpm;
}

const median = (a: number, b: number, c: number): number =>
  a < b ? (b < c ? b : a < c ? c : a) : a < c ? a : b < c ? c : b;
