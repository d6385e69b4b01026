import { averageSpeed, joinAverages } from '../crank/average-speed.ts';
import { crankTime } from '../crank/crank-time.ts';
import type { Crank, CrankPhase, Edge, SpeedAverage } from '../crank/crank.ts';
import { crankUnderWay, currentPhase, finishFinder, foundCranks } from '../crank/find-cranks.ts';
import { withStarterOn } from '../crank/starter-on.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { PipelineState } from './pipeline.ts';

/** Edges that a person set instead of those found, ms; null leaves the found one. */
export interface MovedEdges {
  readonly startMs: number | null;
  readonly endMs: number | null;
}

/** One crank of the chosen origin, its average over the edges that hold, and its time with its doubt. */
export interface TableCrank {
  readonly crank: Crank;
  readonly startMs: number;
  readonly endMs: number;
  readonly average: SpeedAverage;
  readonly time: { readonly spanMs: number; readonly standardUncertaintyMs: number };
}

export interface CrankTable {
  /** The origin whose speed is used; null where no speed came. */
  readonly origin: number | null;
  readonly phase: CrankPhase;
  readonly cranks: readonly TableCrank[];
  /** The crank going on, with its running average; null between cranks, and when the data are over. */
  readonly underWay: { readonly start: Edge; readonly average: SpeedAverage } | null;
}

export interface TableOptions {
  /** The person's choice of origin for engine speed. */
  readonly origin?: number | undefined;
  readonly edges?: ReadonlyMap<number, MovedEdges>;
  /** The source is over: a crank that was going on ends with the data, as `cut`. */
  readonly over: boolean;
}

/** J1939 engine speed: 0.125 rpm a bit (SPN 190). */
const RESOLUTION_RPM = 0.125;

/** The cranks found so far in the chosen origin's speed, each with its average. Never mixes origins. */
export function crankTable(state: PipelineState, options: TableOptions): CrankTable {
  const origin = chosenOrigin(state.traces, 'engineSpeed', options.origin);
  const finder = origin === null ? undefined : state.finders.get(origin);
  if (origin === null || !finder) return { origin, phase: 'noData', cranks: [], underWay: null };
  const cranks = options.over ? finishFinder(finder) : foundCranks(finder);
  const going = options.over ? null : crankUnderWay(finder);
  return {
    origin,
    phase: currentPhase(finder),
    cranks: cranks.map((crank, place) => tableCrank(state, origin, crank, options.edges?.get(place))),
    underWay: going && {
      start: going.start,
      average: average(state, origin, going.start.atMs, lastSpeedMs(state, origin)),
    },
  };
}

function tableCrank(
  state: PipelineState,
  origin: number,
  found: Crank,
  moved: MovedEdges | undefined,
): TableCrank {
  const crank = withStarterOn(found, {
    battery: chosenTrace(state, 'batteryVoltage'),
    starterMode: chosenTrace(state, 'starterMode'),
  });
  const startMs = moved?.startMs ?? crank.start.atMs;
  const endMs = moved?.endMs ?? crank.end.atMs;
  const { seconds, standardUncertaintySeconds } = crankTime(crank, state.options.crankSettings);
  const set = moved !== undefined && (moved.startMs !== null || moved.endMs !== null);
  return {
    crank,
    startMs,
    endMs,
    average: average(state, origin, startMs, endMs),
    time: {
      // The starter turned before the first speed was seen: an end that was moved does not undo that.
      spanMs: set ? endMs - (moved.startMs ?? crank.starterOn.atMs) : seconds * 1000,
      standardUncertaintyMs: standardUncertaintySeconds * 1000,
    },
  };
}

/** Averages joined over the cranks that count; null where none does. */
export function joinedAverage(
  cranks: readonly TableCrank[],
  leftOut: ReadonlyMap<number, string>,
): SpeedAverage | null {
  const counting = cranks.filter((_, place) => !leftOut.has(place)).map((each) => each.average);
  return counting.length > 0 ? joinAverages(counting) : null;
}

function average(state: PipelineState, origin: number, startMs: number, endMs: number): SpeedAverage {
  return averageSpeed(traceOf(state.traces, 'engineSpeed', origin), startMs, endMs, {
    resolutionRpm: RESOLUTION_RPM,
  });
}

function lastSpeedMs(state: PipelineState, origin: number): number {
  const { atMs, length } = traceOf(state.traces, 'engineSpeed', origin);
  return length > 0 ? atMs[length - 1]! : 0;
}

function chosenTrace(state: PipelineState, signal: 'batteryVoltage' | 'starterMode') {
  const origin = chosenOrigin(state.traces, signal);
  return origin === null ? null : traceOf(state.traces, signal, origin);
}
