import { problem, type Problem } from '../problems/problem.ts';
import { rounded } from './rounded.ts';

/** The time that a check asks for. */
export interface TimeTarget {
  readonly seconds: number;
  readonly tolerancePercent: number;
}

/** Rounding of sums of milliseconds must not push a time that is exactly on the edge outside. */
const ROUNDING_SECONDS = 1e-9;

/** The problem `check.time-outside` when the time is outside its tolerance; null when it is within, edges included. */
export function timeOutside(
  seconds: number,
  { seconds: target, tolerancePercent }: TimeTarget,
): Problem | null {
  const allowed = (target * tolerancePercent) / 100;
  if (Math.abs(seconds - target) <= allowed + ROUNDING_SECONDS) return null;
  return problem('check.time-outside', {
    seconds: rounded(seconds, 2),
    target: rounded(target, 2),
    from: rounded(target - allowed, 2),
    to: rounded(target + allowed, 2),
  });
}

/** The volume as it would have been in the target time at the same rate, mL: an estimate. Null without a time. */
export const scaledToTarget = (volumeMl: number, seconds: number, targetSeconds: number): number | null =>
  seconds > 0 ? (volumeMl * targetSeconds) / seconds : null;
