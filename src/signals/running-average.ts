import { map, scan, type OperatorFunction } from 'rxjs';
import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';

/** Readings in columns, with sums from the first on. Shared by the windows of one stream. */
interface Points {
  readonly atMs: number[];
  readonly value: (number | null)[];
  /** Integral of the value, and the time counted in it, up to each point. */
  readonly integral: number[];
  readonly weightMs: number[];
}

/**
 * The readings within the last `spanMs`, and the one before them, for the edge: points `first` to `length - 1`. A value: an older
 * window still reads right, since points that stand never change.
 */
export interface SlidingWindow {
  readonly spanMs: number;
  readonly points: Points;
  readonly first: number;
  readonly length: number;
}

const DROP_FROM = 64;

const noPoints = (): Points => ({ atMs: [], value: [], integral: [], weightMs: [] });

/** A window without readings. */
export const emptyWindow = (spanMs: Millis): SlidingWindow => ({
  spanMs,
  points: noPoints(),
  first: 0,
  length: 0,
});

/**
 * The window one reading later. Time that runs backwards begins anew; nothing is averaged across it. A value that is no finite
 * number counts as missing. Costs a few steps, spread over calls, however long the window is.
 */
export function slideWindow(
  window: SlidingWindow,
  { atMs, value }: Pick<Reading, 'atMs' | 'value'>,
): SlidingWindow {
  const { spanMs, points: old, length } = window;
  const backwards = length > 0 && atMs < old.atMs[length - 1]!;
  const kept = backwards ? { ...window, points: noPoints(), first: 0, length: 0 } : compact(window);
  const { points } = kept;
  push(points, spanMs, { atMs, value: value !== null && Number.isFinite(value) ? value : null });
  let { first } = kept;
  while (first < kept.length && points.atMs[first + 1]! < atMs - spanMs) first++;
  return { spanMs, points, first, length: kept.length + 1 };
}

/** Points that end with this window: its own copy where another window went on, or where most have slid out. */
function compact(window: SlidingWindow): SlidingWindow {
  const { spanMs, points, first, length } = window;
  if (points.atMs.length === length && first < Math.max(DROP_FROM, length / 2)) return window;
  const copy = noPoints();
  for (let i = first; i < length; i++) push(copy, spanMs, { atMs: points.atMs[i]!, value: points.value[i]! });
  return { spanMs, points: copy, first: 0, length: length - first };
}

function push(points: Points, spanMs: number, to: Point): void {
  const last = points.atMs.length - 1;
  const from = last < 0 ? to : pointAt(points, last);
  const [integral, weightMs] = trapezoid(from, to, { spanMs, fromMs: from.atMs });
  points.atMs.push(to.atMs);
  points.value.push(to.value);
  points.integral.push((points.integral[last] ?? 0) + integral);
  points.weightMs.push((points.weightMs[last] ?? 0) + weightMs);
}

interface Point {
  readonly atMs: number;
  readonly value: number | null;
}

const pointAt = ({ atMs, value }: Points, i: number): Point => ({ atMs: atMs[i]!, value: value[i]! });

/** Integral and counted time of one interval from `fromMs` on. Nothing counts beside a missing value or over more than the span. */
function trapezoid(
  a: Point,
  b: Point,
  { spanMs, fromMs }: { readonly spanMs: number; readonly fromMs: number },
): readonly [integral: number, weightMs: number] {
  const whole = b.atMs - a.atMs;
  if (a.value === null || b.value === null || whole > spanMs || whole <= 0) return [0, 0];
  const start = Math.max(a.atMs, fromMs);
  const atStart = a.value + ((b.value - a.value) * (start - a.atMs)) / whole;
  return [((atStart + b.value) / 2) * (b.atMs - start), b.atMs - start];
}

/**
 * Time-weighted mean of the window: trapezoids, the first cut at the window's edge. Nothing is counted across a missing value or
 * an interval longer than the window. With no interval to count it is the last number; null when there is none.
 */
export function windowMean({ points, spanMs, first, length }: SlidingWindow): number | null {
  const last = length - 1;
  if (last < 0) return null;
  const fromMs = points.atMs[last]! - spanMs;
  const second = Math.min(first + 1, last);
  const edge = trapezoid(pointAt(points, first), pointAt(points, second), { spanMs, fromMs });
  const weightMs = edge[1] + points.weightMs[last]! - points.weightMs[second]!;
  if (weightMs > 0) return (edge[0] + points.integral[last]! - points.integral[second]!) / weightMs;
  return lastNumber(points, last, fromMs);
}

function lastNumber({ atMs, value }: Points, last: number, fromMs: number): number | null {
  for (let i = last; i >= 0 && atMs[i]! >= fromMs; i--) if (value[i] !== null) return value[i]!;
  return null;
}

/** Mean over the last `spanMs` of data time. Emits once per reading; completes and errors with its source. */
export const runningAverage =
  (spanMs: Millis): OperatorFunction<Reading, number | null> =>
  (reading$) =>
    reading$.pipe(scan(slideWindow, emptyWindow(spanMs)), map(windowMean));
