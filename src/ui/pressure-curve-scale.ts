import { niceTicks } from './limit-chart-geometry.ts';

/** A point of a trace: seconds and pressure in the unit that is shown; null is a hole. */
export type CurvePoint = readonly [seconds: number, pressure: number | null];

export interface CurveScale {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly top: number;
  readonly timeTicks: readonly number[];
  readonly pressureTicks: readonly number[];
}

/** Axes that show all points and levels; pressure from 0. Null while there are no two points with a number. */
export function curveScale(points: readonly CurvePoint[], levels: readonly number[]): CurveScale | null {
  const known = points.filter(
    ([seconds, value]) => Number.isFinite(seconds) && value !== null && Number.isFinite(value),
  );
  const [first, last] = [known[0], known.at(-1)];
  if (!first || !last || !(last[0] > first[0])) return null;
  const most = known.reduce((high, [, value]) => Math.max(high, value ?? 0), Math.max(0, ...levels));
  const top = (most || 1) * 1.1;
  return {
    fromSeconds: first[0],
    toSeconds: last[0],
    top,
    timeTicks: niceTicks(first[0], last[0], 6),
    pressureTicks: niceTicks(0, top, 5),
  };
}

/** The trace as a path, interrupted where it has holes. `x` and `y` place a value on the drawing. */
export function curvePath(
  points: readonly CurvePoint[],
  x: (seconds: number) => number,
  y: (pressure: number) => number,
): string {
  const parts: string[] = [];
  let pen = false;
  for (const [seconds, value] of points) {
    const known = value !== null && Number.isFinite(value);
    if (known) parts.push(`${pen ? 'L' : 'M'}${x(seconds).toFixed(1)} ${y(value).toFixed(1)}`);
    pen = known;
  }
  return parts.join('');
}

/** About `count` points spread over the trace, for the table: the first, the last and evenly between. */
export function sampled(points: readonly CurvePoint[], count: number): readonly CurvePoint[] {
  if (points.length <= count || count < 2) return points;
  return Array.from(
    { length: count },
    (_, at) => points[Math.round((at * (points.length - 1)) / (count - 1))]!,
  );
}
