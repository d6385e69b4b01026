import type { TraceColumns } from './trace.ts';

/** `waiting`: nothing came yet. `stale`: later than is usual. `lost`: nothing for over ten seconds. */
export type FreshnessState = 'waiting' | 'fresh' | 'stale' | 'lost';

export interface Freshness {
  readonly state: FreshnessState;
  /** Time since the last row, ms; null while waiting. */
  readonly ageMs: number | null;
}

const INTERVALS = 20;
const STALE_INTERVALS = 3;
const STALE_FLOOR_MS = 1000;
const LOST_MS = 10_000;

/** Median of the last 20 intervals, ms; null below two rows. */
export function usualIntervalMs({ atMs, length }: TraceColumns): number | null {
  if (length < 2) return null;
  const tail = atMs.slice(Math.max(0, length - 1 - INTERVALS), length);
  const intervals = tail
    .subarray(1)
    .map((at, i) => at - tail[i]!)
    .sort();
  const half = intervals.length >> 1;
  return intervals.length % 2 === 1 ? intervals[half]! : (intervals[half - 1]! + intervals[half]!) / 2;
}

/** Age at which a signal is stale: three of its usual intervals, at least 1 s (measurement.md 1). */
export const staleAfterMs = (trace: TraceColumns): number =>
  Math.max(STALE_FLOOR_MS, STALE_INTERVALS * (usualIntervalMs(trace) ?? 0));

/**
 * How current a trace is at `nowMs` (on its own clock). Rows that say "not available" are news too. A signal that usually comes less
 * often than every 3.3 s is lost, not stale, after three intervals.
 */
export function freshness(trace: TraceColumns, nowMs: number): Freshness {
  if (trace.length === 0) return { state: 'waiting', ageMs: null };
  const ageMs = Math.max(0, nowMs - trace.atMs[trace.length - 1]!);
  const staleMs = staleAfterMs(trace);
  const state = ageMs <= staleMs ? 'fresh' : ageMs > LOST_MS ? 'lost' : 'stale';
  return { state, ageMs };
}
