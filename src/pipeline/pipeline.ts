import { breakFinder, initialFinder, stepFinder, type FinderState } from '../crank/find-cranks.ts';
import type { CrankSettings } from '../crank/crank.ts';
import { stepFinders } from '../crank/step-finders.ts';
import { decodeFrames } from '../j1939/decode-frames.ts';
import type { LinkEvent } from '../link/link-event.ts';
import type { Problem } from '../problems/problem.ts';
import type { Reading } from '../quantities/reading.ts';
import { millis, type Millis } from '../quantities/time.ts';
import type { ReadingBatch } from '../signals/reading-batch.ts';
import { toReadings } from '../signals/to-readings.ts';
import { appendReading, appendReadings, createTraceSet, type TraceSet } from '../signals/trace-set.ts';
import type { FrameBatch } from '../wire/frame-batch.ts';
import type { WireNote, WireProtocol } from '../wire/wire-decoder.ts';
import { batchReadings } from './batch-readings.ts';
import { START_BUS, stepBus, type BusState } from './bus-state.ts';
import { GIVEN_TIME_START, giveTime, type GivenTime } from './give-time.ts';
import { startWire, type RunningStep, type RunningWire } from './running-wire.ts';

export interface PipelineOptions {
  /** The line protocol of the bytes, `auto` for one to be recognised, or `readings` for a source that delivers numbers. */
  readonly wire: WireProtocol | 'auto' | 'readings';
  readonly crankSettings: CrankSettings;
  /** Interval between two speed readings that the person gave for a log without time stamps, ms. */
  readonly givenIntervalMs: number | null;
  /** Leaves out what the bus tells beside the readings: for who looks at cranks only. */
  readonly readingsOnly?: boolean;
}

export interface Gap {
  readonly atMs: Millis;
  readonly problem: Problem;
}

/**
 * All that is known from the events so far. A value to be looked at, never changed from outside. The traces only grow, so an
 * older state still reads right up to its own lengths.
 */
export interface PipelineState {
  readonly options: PipelineOptions;
  readonly device: string | null;
  readonly atMs: Millis;
  /** Time of the first frame or reading: what "seconds into the log" counts from. Null before it, or without time. */
  readonly firstMs: number | null;
  /**
   * Time of the last frame or reading, on the same clock: how old a value is counts from here. A bridge stamps by its own clock,
   * which may go a little slower than arrival; then arrival would make every value look old.
   */
  readonly lastMs: number | null;
  readonly wire: RunningWire | null;
  readonly notes: readonly WireNote[];
  readonly traces: TraceSet;
  /** One crank finder for each origin that sends engine speed: they are never mixed. */
  readonly finders: ReadonlyMap<number, FinderState>;
  readonly gaps: readonly Gap[];
  readonly given: GivenTime;
  /** Frames, or readings of lines with values, left out because they carry no time and no interval was given. */
  readonly untimedFrames: number;
  /** What the bus tells beside the readings: identity, codes, link health, the last frames. */
  readonly bus: BusState;
}

const NOTES_KEPT = 20;

type Timed = Pick<FrameBatch, 'count' | 'atMs'>;

/** Hops 2 to 5, from link events to cranks, at their beginning. */
export function startPipeline(options: PipelineOptions): PipelineState {
  return {
    options,
    device: null,
    atMs: millis(0),
    firstMs: null,
    lastMs: null,
    wire: options.wire === 'readings' ? null : startWire(options.wire),
    notes: [],
    traces: createTraceSet(),
    finders: new Map(),
    gaps: [],
    given: GIVEN_TIME_START,
    untimedFrames: 0,
    bus: START_BUS,
  };
}

/** One link event later. The same events give the same state, live, replayed at any speed, or read from a file. */
export function stepPipeline(state: PipelineState, event: LinkEvent): PipelineState {
  const atMs = millis(Math.max(state.atMs, event.atMs));
  switch (event.kind) {
    case 'open':
      return { ...breakAll(state), device: event.device, atMs, wire: state.wire?.restart() ?? null };
    case 'bytes':
      return state.wire
        ? takeFrames({ ...state, atMs }, state.wire.step(event.bytes, event.atMs))
        : { ...state, atMs };
    case 'reading':
      return { ...takeReading(state, event.reading), atMs };
    case 'gap':
      return { ...breakAll(state), atMs, gaps: [...state.gaps, { atMs, problem: event.problem }] };
  }
}

/** The source has ended: what waits in an unfinished last line is taken. */
export function finishPipeline(state: PipelineState): PipelineState {
  return state.wire ? takeFrames(state, state.wire.finish()) : state;
}

function takeFrames(
  state: PipelineState,
  { next, batches, readings, readingBreaks, notes }: RunningStep,
): PipelineState {
  const withNotes = notes.length > 0 ? [...state.notes, ...notes].slice(-NOTES_KEPT) : state.notes;
  const afterFrames = batches.reduce(takeBatch, { ...state, wire: next, notes: withNotes });
  return takeLines(afterFrames, readings, readingBreaks);
}

/** Readings from a line protocol, a batch for each continuous stretch of their time. */
function takeLines(
  state: PipelineState,
  readings: readonly Reading[],
  breaks: readonly number[],
): PipelineState {
  return [0, ...breaks].reduce((before, from, part) => {
    const next = part > 0 ? breakAll(before) : before;
    const to = breaks[part] ?? readings.length;
    return to > from ? takeStretch(next, batchReadings(readings.slice(from, to))) : next;
  }, state);
}

function takeBatch(state: PipelineState, frames: FrameBatch): PipelineState {
  const bus = state.options.readingsOnly === true ? state.bus : stepBus(state.bus, frames);
  const before = { ...(frames.breakBefore ? breakAll(state) : state), bus };
  if (frames.count === 0) return before;
  return takeStretch(before, toReadings(decodeFrames(frames)), frames);
}

/** Readings of one stretch of time. `timed`: the frames they came in, or they themselves; what is counted if it has no time. */
function takeStretch(before: PipelineState, readings: ReadingBatch, timed: Timed = readings): PipelineState {
  const state = { ...before, lastMs: lastTime(timed) ?? before.lastMs };
  const untimed = rowsWithoutTime(timed);
  if (untimed === 0) return takeReadings({ ...state, firstMs: state.firstMs ?? timed.atMs[0]! }, readings);
  const intervalMs = state.options.givenIntervalMs;
  if (intervalMs !== null) {
    const { given, batch } = giveTime(state.given, readings, intervalMs);
    const firstMs = Number.isNaN(timed.atMs[0]) ? 0 : timed.atMs[0]!;
    return takeReadings({ ...state, given, firstMs: state.firstMs ?? firstMs }, batch);
  }
  // Row by row, not by the first of them: one line that lost its stamp must not take those beside it along.
  const firstMs = state.firstMs ?? timed.atMs.find((atMs) => !Number.isNaN(atMs)) ?? null;
  return takeReadings({ ...state, firstMs, untimedFrames: state.untimedFrames + untimed }, readings);
}

/** Time of the last row that has one; rows without may stand anywhere among the others. */
function lastTime({ count, atMs }: Timed): number | null {
  for (let row = count - 1; row >= 0; row--) if (!Number.isNaN(atMs[row])) return atMs[row]!;
  return null;
}

function rowsWithoutTime({ count, atMs }: Timed): number {
  let rows = 0;
  for (let row = 0; row < count; row++) if (Number.isNaN(atMs[row])) rows++;
  return rows;
}

function takeReadings(state: PipelineState, batch: ReadingBatch): PipelineState {
  const traces = appendReadings(state.traces, batch);
  const finders = stepFinders(state.finders, batch, state.options.crankSettings);
  return { ...state, traces, finders };
}

function takeReading(state: PipelineState, reading: Reading): PipelineState {
  const traces = appendReading(state.traces, reading);
  const firstMs = state.firstMs ?? reading.atMs;
  const lastMs = reading.atMs;
  if (reading.signal !== 'engineSpeed') return { ...state, traces, firstMs, lastMs };
  const finder = stepFinder(finderOf(state, reading.origin), reading.atMs, reading.value ?? NaN);
  return {
    ...state,
    traces,
    firstMs,
    lastMs,
    finders: new Map([...state.finders, [reading.origin, finder]]),
  };
}

const finderOf = (state: PipelineState, origin: number): FinderState =>
  state.finders.get(origin) ?? initialFinder(state.options.crankSettings);

function breakAll(state: PipelineState): PipelineState {
  const finders = new Map(
    [...state.finders].map(([origin, finder]) => [origin, breakFinder(finder, state.atMs)]),
  );
  return { ...state, finders };
}
