import type { ClockWarning } from './crank-clock-words.ts';
import type { HeldView } from './held-words.ts';
import { HELD_STATES } from './held-words.ts';
import type { IconShape } from './shape-icon.ts';

/** `over`: still running although the tolerance of the target is past. */
export type StopwatchState = 'ready' | 'running' | 'done' | 'over';
export type StartedBy = 'hand' | 'signal' | 'cranks';

/** The collection clock as plain numbers, seconds. The element keeps no time of its own: the page says how much has passed. */
export interface StopwatchView {
  readonly phase: 'ready' | 'running' | 'stopped';
  readonly elapsedSeconds: number;
  readonly targetSeconds: number;
  /** How far the time may be off, to each side. */
  readonly toleranceSeconds: number;
  readonly startedBy: StartedBy;
  /** What starts and stops it by itself, e.g. "Starts when rail pressure rises through 60 MPa."; empty when started by hand. */
  readonly waitsFor: string;
  /** Typed instead of measured: the clock says so. */
  readonly typed: boolean;
  readonly held: HeldView | null;
}

export const READY_STOPWATCH: StopwatchView = {
  phase: 'ready',
  elapsedSeconds: 0,
  targetSeconds: 60,
  toleranceSeconds: 3,
  startedBy: 'hand',
  waitsFor: '',
  typed: false,
  held: null,
};

/** Sums of milliseconds in seconds are a hair off: what is exactly on an edge is inside. */
const EDGE = 1e-9;

export function stopwatchState({
  phase,
  elapsedSeconds,
  targetSeconds,
  toleranceSeconds,
}: StopwatchView): StopwatchState {
  if (phase === 'ready') return 'ready';
  if (phase === 'stopped') return 'done';
  return elapsedSeconds > targetSeconds + toleranceSeconds + EDGE ? 'over' : 'running';
}

/** 3, 2, 1 seconds before the target, `now` from it on, `over` past its tolerance; null while it is not running or far from it. */
export function stopwatchWarning(view: StopwatchView): ClockWarning {
  const state = stopwatchState(view);
  if (state === 'over') return 'over';
  if (state !== 'running') return null;
  const left = view.targetSeconds - view.elapsedSeconds;
  if (left <= EDGE) return 'now';
  return left <= 3 + EDGE ? (Math.min(3, Math.ceil(left - EDGE)) as 1 | 2 | 3) : null;
}

/** By how much a stopped time misses the target's tolerance, seconds, with its sign; 0 when it is within it. */
export function timeMissed({ elapsedSeconds, targetSeconds, toleranceSeconds }: StopwatchView): number {
  const off = elapsedSeconds - targetSeconds;
  return Math.abs(off) <= toleranceSeconds + EDGE ? 0 : off;
}

export const STOPWATCH_STATES: Readonly<Record<StopwatchState, { word: string; shape: IconShape }>> = {
  ready: { word: 'ready', shape: 'waiting' },
  running: { word: 'collecting', shape: 'cranking' },
  done: { word: 'stopped', shape: 'ended' },
  over: { word: 'over time', shape: 'fail' },
};

/** What is called out at the target: the vessel is moved, or with the cranks the starter let go. */
const CALLS = {
  vessel: { go: 'Keep collecting.', soon: 'Vessel away in', now: 'Vessel away now.', over: 'Vessel away.' },
  starter: {
    go: 'Keep cranking.',
    soon: 'Release in',
    now: 'Release the starter now.',
    over: 'Release the starter.',
  },
} as const;

/** What to do now, in the fewest words that can be shouted across a shop. */
export function stopwatchPrompt(view: StopwatchView): string {
  const call = CALLS[view.startedBy === 'cranks' ? 'starter' : 'vessel'];
  switch (stopwatchState(view)) {
    case 'ready':
      return view.startedBy === 'hand' ? 'Hold the vessel under, then start.' : view.waitsFor;
    case 'over':
      return `${call.over} Over the target time.`;
    case 'done':
      return donePrompt(view);
    case 'running':
      return runningPrompt(view, call);
  }
}

function donePrompt(view: StopwatchView): string {
  const missed = timeMissed(view);
  if (missed === 0) return 'Read the vessel and type the volume.';
  return `${Math.abs(missed).toFixed(1)} s too ${missed > 0 ? 'long' : 'short'}. Empty the vessel and repeat.`;
}

function runningPrompt(view: StopwatchView, call: (typeof CALLS)[keyof typeof CALLS]): string {
  const warn = stopwatchWarning(view);
  if (warn === 'now') return call.now;
  if (warn !== null) return `${call.soon} ${warn}.`;
  const { held } = view;
  if (!held || held.state === 'in') return call.go;
  if (held.state === 'none') return `${held.label} is not known: look at the gauge.`;
  return `${held.label} ${HELD_STATES[held.state].word}: bring it to ${held.asked}.`;
}
