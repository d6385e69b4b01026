import { millis } from '../quantities/time.ts';
import type { Crank, CrankEnd, CrankPhase, CrankSettings, Edge } from './crank.ts';

/** A speed sample: as it came, and as classified (median of three, so that a single spike does not count). */
export interface Classified {
  readonly atMs: number;
  readonly rawRpm: number;
  readonly rpm: number;
}

/** A crossing that has not yet held long enough. `sinceMs`: the first sample beyond the level. */
interface Crossing {
  readonly edge: Edge;
  readonly sinceMs: number;
  readonly samples: number;
  /** The last sample on the near side: what is known for certain if the data end here. */
  readonly lastBeforeMs: number;
}

/** The crank that is, or may be, under way. */
interface Begun {
  readonly crossing: Crossing;
  readonly cutAtStart: boolean;
  /** A sample lay between the start and the running level. Without one there is nothing to average. */
  readonly sawCranking: boolean;
}

export interface CrankMachine {
  readonly phase: CrankPhase;
  readonly cranks: readonly Crank[];
  readonly begun: Begun | null;
  readonly fall: Crossing | null;
  readonly high: Crossing | null;
  /** First of the samples at standstill after running. */
  readonly stillSinceMs: number | null;
}

export const FRESH_MACHINE: CrankMachine = {
  phase: 'noData',
  cranks: [],
  begun: null,
  fall: null,
  high: null,
  stillSinceMs: null,
};

/**
 * One classified sample later. `before` is the sample before it in the same stretch, or null at its beginning.
 * Returns the same object when nothing changed. Source: measurement.md section 2.
 */
export function stepMachine(
  machine: CrankMachine,
  before: Classified | null,
  now: Classified,
  settings: CrankSettings,
): CrankMachine {
  switch (machine.phase) {
    case 'noData':
      return beginStretch(machine, now, settings);
    case 'rest':
      return stepRest(machine, before, now, settings);
    case 'cranking':
      return stepCranking(machine, before, now, settings);
    case 'running':
    case 'runningDown':
      return stepRunning(machine, now, settings);
  }
}

/**
 * The stretch of data is over at `lastMs`, its last sample. A crank under way ends as `why`, at the last sample that is known to
 * be cranking; one whose fall was seen for two samples was released. A crossing that had not held is forgotten.
 */
export function endStretch(machine: CrankMachine, lastMs: number, why: 'data lost' | 'cut'): CrankMachine {
  const { phase, begun, fall } = machine;
  if (phase !== 'cranking' || !begun) return { ...FRESH_MACHINE, cranks: machine.cranks };
  const ended =
    fall && fall.samples >= 2
      ? crankOf(begun, fall.edge, 'released')
      : crankOf(begun, { atMs: millis(fall?.lastBeforeMs ?? lastMs), standardUncertaintyMs: 0 }, why);
  return { ...FRESH_MACHINE, cranks: [...machine.cranks, ended] };
}

function beginStretch(machine: CrankMachine, now: Classified, settings: CrankSettings): CrankMachine {
  if (now.rpm >= settings.runningRpm) return { ...machine, phase: 'running' };
  if (now.rpm < settings.startRpm) return { ...machine, phase: 'rest' };
  const edge = { atMs: millis(now.atMs), standardUncertaintyMs: 0 };
  const crossing = { edge, sinceMs: now.atMs, samples: 1, lastBeforeMs: now.atMs };
  return { ...machine, phase: 'rest', begun: { crossing, cutAtStart: true, sawCranking: true } };
}

function stepRest(
  machine: CrankMachine,
  before: Classified | null,
  now: Classified,
  settings: CrankSettings,
): CrankMachine {
  if (now.rpm < settings.startRpm)
    return machine.begun === null ? machine : { ...machine, begun: null, high: null };
  const begun = beginOrGo(machine.begun, before, now, settings);
  const high = highCrossing(machine, before, now, settings);
  if (held(high, now, settings.runningHoldMs))
    // Up to running with too little cranking between to be called a crank, unless it held before.
    return startedEngine({ ...machine, begun: begun.sawCranking ? begun : null }, high!);
  const isCrank = begun.sawCranking && held(begun.crossing, now, settings.holdMs);
  return { ...machine, phase: isCrank ? 'cranking' : 'rest', begun, high };
}

function beginOrGo(
  begun: Begun | null,
  before: Classified | null,
  now: Classified,
  settings: CrankSettings,
): Begun {
  const isCranking = now.rpm < settings.runningRpm;
  return {
    crossing: grow(begun?.crossing ?? null, before, now, settings.startRpm),
    cutAtStart: begun?.cutAtStart ?? false,
    sawCranking: isCranking || (begun?.sawCranking ?? false),
  };
}

function stepCranking(
  machine: CrankMachine,
  before: Classified | null,
  now: Classified,
  settings: CrankSettings,
): CrankMachine {
  if (now.rpm < settings.endRpm) {
    const fall = grow(machine.fall, before, now, settings.endRpm);
    if (!held(fall, now, settings.holdMs)) return { ...machine, fall, high: null };
    const released = crankOf(machine.begun!, fall.edge, 'released');
    return { ...FRESH_MACHINE, phase: 'rest', cranks: [...machine.cranks, released] };
  }
  const high = highCrossing(machine, before, now, settings);
  if (held(high, now, settings.runningHoldMs)) return startedEngine(machine, high!);
  return machine.fall === null && high === machine.high ? machine : { ...machine, fall: null, high };
}

function stepRunning(machine: CrankMachine, now: Classified, settings: CrankSettings): CrankMachine {
  const phase = now.rpm >= settings.runningRpm ? 'running' : 'runningDown';
  // Below the end level counts as standstill: some logs never read exactly 0.
  if (now.rpm >= settings.endRpm)
    return machine.phase === phase && machine.stillSinceMs === null
      ? machine
      : { ...machine, phase, stillSinceMs: null };
  const stillSinceMs = machine.stillSinceMs ?? now.atMs;
  if (now.atMs - stillSinceMs >= settings.restMs)
    return { ...FRESH_MACHINE, phase: 'rest', cranks: machine.cranks };
  return { ...machine, phase, stillSinceMs };
}

function startedEngine(machine: CrankMachine, high: Crossing): CrankMachine {
  const cranks = machine.begun
    ? [...machine.cranks, crankOf(machine.begun, high.edge, 'engine started')]
    : machine.cranks;
  return { ...FRESH_MACHINE, phase: 'running', cranks };
}

function highCrossing(
  machine: CrankMachine,
  before: Classified | null,
  now: Classified,
  settings: CrankSettings,
): Crossing | null {
  return now.rpm < settings.runningRpm ? null : grow(machine.high, before, now, settings.runningRpm);
}

function grow(
  crossing: Crossing | null,
  before: Classified | null,
  now: Classified,
  levelRpm: number,
): Crossing {
  if (crossing) return { ...crossing, samples: crossing.samples + 1 };
  const edge = edgeBetween(before ?? now, now, levelRpm);
  return { edge, sinceMs: now.atMs, samples: 1, lastBeforeMs: (before ?? now).atMs };
}

/** Two samples and the hold time, whichever is longer at the rate of the data. */
const held = (crossing: Crossing | null, now: Classified, holdMs: number): boolean =>
  crossing !== null && crossing.samples >= 2 && now.atMs - crossing.sinceMs >= holdMs;

/** The instant the line between two classified samples passes the level (on a monotone edge these are the samples as they came); standard uncertainty: their interval / sqrt 12 (GUM 4.3.7). */
function edgeBetween(before: Classified, now: Classified, levelRpm: number): Edge {
  const spanMs = now.atMs - before.atMs;
  const from = before.rpm;
  const to = now.rpm;
  const part = to === from ? 1 : Math.min(1, Math.max(0, (levelRpm - from) / (to - from)));
  return { atMs: millis(before.atMs + part * spanMs), standardUncertaintyMs: spanMs / Math.sqrt(12) };
}

function crankOf({ crossing, cutAtStart }: Begun, end: Edge, endedBy: CrankEnd): Crank {
  const start = crossing.edge;
  return { start, end, endedBy, cutAtStart, starterOn: start, startSign: 'speed' };
}
