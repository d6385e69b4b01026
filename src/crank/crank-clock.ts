import type { Crank, Edge } from './crank.ts';

export type ClockWarning = 3 | 2 | 1 | 'now' | 'over' | null;
export type ClockState = 'waiting' | 'cranking' | 'resting' | 'done' | 'over time';

/** What the crank clock shows: "crank 1 of 2, 12.4 of 15 s". All spans in seconds. */
export interface CrankClock {
  readonly state: ClockState;
  readonly crankNumber: number;
  readonly cranks: number;
  readonly thisCrankSeconds: number;
  /** Of this crank: what is left to the total, shared out over the cranks still to come. */
  readonly targetSeconds: number;
  readonly totalSeconds: number;
  readonly totalTarget: number;
  readonly warn: ClockWarning;
  readonly restSeconds: number;
  readonly restLeftSeconds: number;
}

export interface CrankClockInput {
  readonly cranks: number;
  readonly crankSeconds: number;
  readonly tolerancePercent: number;
  /** The cranks that count. */
  readonly finished: readonly Crank[];
  readonly underWay: Edge | null;
  readonly nowMs: number;
  readonly longestCrankSeconds: number;
  readonly leastRestSeconds: number;
}

/** Only detected cranking counts towards the target, never wall time. Pure: the time is an argument. */
export function crankClock(input: CrankClockInput): CrankClock {
  const { cranks, crankSeconds, finished, underWay, nowMs } = input;
  const doneSeconds = finished.reduce((sum, crank) => sum + secondsOf(crank), 0);
  const thisCrankSeconds = underWay ? Math.max(0, nowMs - underWay.atMs) / 1000 : 0;
  const totalTarget = cranks * crankSeconds;
  const totalSeconds = doneSeconds + thisCrankSeconds;
  const cranksLeft = Math.max(1, cranks - finished.length);
  const targetSeconds = Math.max(0, totalTarget - doneSeconds) / cranksLeft;
  const state = stateOf(input, totalSeconds, totalTarget);
  const restSeconds = state === 'resting' ? Math.max(0, nowMs - finished.at(-1)!.end.atMs) / 1000 : 0;
  return {
    state,
    crankNumber: Math.min(
      finished.length + (state === 'done' || state === 'over time' ? 0 : 1),
      Math.max(cranks, finished.length),
    ),
    cranks,
    thisCrankSeconds,
    targetSeconds,
    totalSeconds,
    totalTarget,
    warn: underWay ? warning(thisCrankSeconds, targetSeconds, input) : null,
    restSeconds,
    restLeftSeconds: state === 'resting' ? Math.max(0, input.leastRestSeconds - restSeconds) : 0,
  };
}

const secondsOf = ({ starterOn, end }: Crank): number => Math.max(0, end.atMs - starterOn.atMs) / 1000;

function stateOf(input: CrankClockInput, totalSeconds: number, totalTarget: number): ClockState {
  const share = input.tolerancePercent / 100;
  if (totalSeconds > totalTarget * (1 + share)) return 'over time';
  if (input.underWay) return 'cranking';
  if (input.finished.length === 0) return 'waiting';
  return totalSeconds >= totalTarget * (1 - share) ? 'done' : 'resting';
}

/** 3, 2, 1 seconds before the target of this crank, `now` at it, `over` past its tolerance or past what the starter bears. */
function warning(seconds: number, target: number, input: CrankClockInput): ClockWarning {
  const over = Math.min(target * (1 + input.tolerancePercent / 100), input.longestCrankSeconds);
  if (seconds >= over) return 'over';
  const left = target - seconds;
  if (left <= 0) return 'now';
  return left <= 3 ? (Math.ceil(left) as 1 | 2 | 3) : null;
}
