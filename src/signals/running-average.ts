import { map, scan, type OperatorFunction } from 'rxjs';
import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';

interface Point {
  readonly atMs: number;
  readonly value: number | null;
}

/** The readings within the last `spanMs`, and the one before them, for the edge. */
export interface SlidingWindow {
  readonly spanMs: number;
  readonly points: readonly Point[];
}

/** A window without readings. */
export const emptyWindow = (spanMs: Millis): SlidingWindow => ({ spanMs, points: [] });

/** The window one reading later. Time that runs backwards begins anew; nothing is averaged across it. */
export function slideWindow(
  window: SlidingWindow,
  { atMs, value }: Pick<Reading, 'atMs' | 'value'>,
): SlidingWindow {
  const last = window.points.at(-1);
  const kept = last && atMs < last.atMs ? [] : window.points;
  const fromMs = atMs - window.spanMs;
  const within = kept.findIndex((point) => point.atMs >= fromMs);
  const first = within < 0 ? kept.length - 1 : within - 1;
  return { spanMs: window.spanMs, points: [...kept.slice(Math.max(0, first)), { atMs, value }] };
}

/**
 * Time-weighted mean of the window: trapezoids, the first cut at the window's edge. Nothing is counted across a missing value or
 * an interval longer than the window. With no interval to count it is the last number; null when there is none.
 */
export function windowMean({ points, spanMs }: SlidingWindow): number | null {
  const fromMs = (points.at(-1)?.atMs ?? 0) - spanMs;
  let integral = 0;
  let weight = 0;
  for (let i = 1; i < points.length; i++) {
    const { atMs: a, value: left } = points[i - 1]!;
    const { atMs: b, value: right } = points[i]!;
    if (left === null || right === null || b - a > spanMs || b <= a) continue;
    const start = Math.max(a, fromMs);
    const atStart = left + ((right - left) * (start - a)) / (b - a);
    integral += ((atStart + right) / 2) * (b - start);
    weight += b - start;
  }
  if (weight > 0) return integral / weight;
  return points.findLast(({ atMs, value }) => value !== null && atMs >= fromMs)?.value ?? null;
}

/** Mean over the last `spanMs` of data time. Emits once per reading; completes and errors with its source. */
export const runningAverage =
  (spanMs: Millis): OperatorFunction<Reading, number | null> =>
  (reading$) =>
    reading$.pipe(scan(slideWindow, emptyWindow(spanMs)), map(windowMean));
