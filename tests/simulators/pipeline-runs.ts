import { judgeRun, type JudgedRun } from '../../src/jobs/judge-run.ts';
import { startingValues } from '../../src/jobs/run-entries.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { conditionValues } from '../../src/pipeline/condition-values.ts';
import { crankTable, joinedAverage, type CrankTable } from '../../src/pipeline/crank-table.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineState,
} from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { benchView, createBench, stepBench } from '../../simulators/bench.ts';
import type { Scenario } from '../../simulators/scenarios.ts';
import { bytesOf, HANDSHAKE, TWO_CRANKS, type Act } from './bench-runs.ts';

/** Bytes as they came, with the bench's clock at their arrival. */
export interface Arrival {
  readonly atMs: number;
  readonly bytes: Uint8Array;
}

export interface PlayedRun {
  readonly arrivals: readonly Arrival[];
  /** What an honest eye reads off the vessel at the end, to half a division. */
  readonly readingMl: number | null;
  /** What the engine's controller reported, at each instant at which a speed frame left: before it was put into a frame. */
  readonly reported: readonly { readonly timeMs: number; readonly rpm: number }[];
}

/** Plays the acts and keeps the bytes as the page would get them, every `everyMs`; one tick (2 ms) shows each reported speed. */
export function playBytes(
  scenario: Scenario,
  options: { seed?: number; acts?: readonly Act[]; everyMs?: number; handshake?: string } = {},
): PlayedRun {
  const { seed = 1, acts = TWO_CRANKS, everyMs = 2, handshake = HANDSHAKE } = options;
  let state = createBench(scenario, seed);
  let fromHost: Uint8Array | null = bytesOf(handshake);
  const arrivals: Arrival[] = [];
  const reported: { timeMs: number; rpm: number }[] = [];
  for (const { untilMs, keyOn, starterOn } of acts) {
    while (state.timeMs < untilMs) {
      const step = stepBench(state, { keyOn, starterOn, fromHost }, everyMs);
      state = step.state;
      fromHost = null;
      if (step.toHost.length > 0) arrivals.push({ atMs: state.timeMs, bytes: step.toHost });
      if (state.timeMs % scenario.speedEveryMs === 0)
        reported.push({ timeMs: state.timeMs, rpm: state.controller.speedRpm });
    }
  }
  return { arrivals, readingMl: benchView(state).vessel.readingMl, reported };
}

/** The same bytes cut in other places. A piece arrives when the last piece of its bytes did. */
export function cutAgain(arrivals: readonly Arrival[], lengths: readonly number[]): Arrival[] {
  const length = arrivals.reduce((sum, { bytes }) => sum + bytes.length, 0);
  const all = new Uint8Array(length);
  const atMs = new Float64Array(length);
  let filled = 0;
  for (const arrival of arrivals) {
    all.set(arrival.bytes, filled);
    atMs.fill(arrival.atMs, filled, filled + arrival.bytes.length);
    filled += arrival.bytes.length;
  }
  const pieces: Arrival[] = [];
  let turn = 0;
  for (let from = 0; from < length;) {
    const to = Math.min(length, from + lengths[turn++ % lengths.length]!);
    pieces.push({ atMs: atMs[to - 1]!, bytes: all.slice(from, to) });
    from = to;
  }
  return pieces;
}

/** The product's pipeline over the bytes, from the opening of the source to its end. */
export function throughPipeline(arrivals: readonly Arrival[]): PipelineState {
  const start = startPipeline({
    wire: 'slcan',
    crankSettings: DEFAULT_CRANK_SETTINGS,
    givenIntervalMs: null,
  });
  const opened = stepPipeline(start, { kind: 'open', atMs: millis(0), device: 'bench', write: null });
  const heard = arrivals.reduce(
    (state, { atMs, bytes }) => stepPipeline(state, { kind: 'bytes', atMs: millis(atMs), bytes }),
    opened,
  );
  return finishPipeline(heard);
}

export interface Judgement {
  readonly table: CrankTable;
  readonly judged: JudgedRun;
}

/** The run judged as the page judges it, on the demonstration sheet, the volume typed as read from a 500 mL cylinder. */
export function judgeBytes(state: PipelineState, readingMl: number | null): Judgement {
  const table = crankTable(state, { over: true });
  const vessel = vesselById('cylinder-500');
  const typed = readingMl === null ? null : { readingsMl: [readingMl], typed: `${readingMl} mL` };
  const values = {
    ...startingValues(vessel),
    volume: typed && { kind: 'volume' as const, atIso: '2025-01-01T00:00:00Z', reason: '', ...typed },
  };
  const facts = {
    cranks: table.cranks,
    average: joinedAverage(table.cranks, values.leftOut),
    conditions: conditionValues(state, table.cranks),
  };
  const judged = judgeRun(DEMONSTRATION_SHEET, 'crank-delivery', facts, values);
  if (!judged.ok) throw new Error(judged.problem.code);
  return { table, judged: judged.value };
}
