/** A point of a boundary curve: [speed rpm, volume mL]. */
export type CurvePoint = readonly [number, number];

/** How the line runs between two points. */
export type CurveJoin = 'straight' | 'monotone cubic';

/** A boundary at one speed. */
export interface BoundaryPoint {
  readonly volumeMl: number;
  /** Change of the boundary with speed, mL per rpm: its sensitivity to a doubtful speed. */
  readonly slopeMlPerRpm: number;
}

/** The speeds between which a curve is known. */
export interface SpeedRange {
  readonly fromRpm: number;
  readonly toRpm: number;
}

/**
 * The boundary at `speedRpm`. Never extrapolated: null outside the first and last point, and for a speed that is no
 * number. `points` ascend in speed, at least two. At a corner of a straight curve the steeper side gives the slope, so that the
 * doubt from speed is not made too small.
 * Monotone cubic: Fritsch–Butland slopes as in PCHIP (see `fritschButlandSlopes`), cubic Hermite between them.
 */
export function boundaryAt(
  points: readonly CurvePoint[],
  join: CurveJoin,
  speedRpm: number,
): BoundaryPoint | null {
  const { fromRpm, toRpm } = curveRange(points);
  if (!(speedRpm >= fromRpm && speedRpm <= toRpm)) return null;
  const last = points.length - 2;
  const found = points.findIndex(([speed], index) => index > 0 && speedRpm <= speed) - 1;
  const index = Math.min(Math.max(found, 0), last);
  return join === 'straight' ? straightAt(points, index, speedRpm) : cubicAt(points, index, speedRpm);
}

/** The speeds between which the curve is known; from the first to the last point. */
export function curveRange(points: readonly CurvePoint[]): SpeedRange {
  return { fromRpm: speedOf(points, 0), toRpm: speedOf(points, points.length - 1) };
}

/** The speeds at which all of the curves are known; null when there are none. */
export function commonRange(curves: readonly (readonly CurvePoint[])[]): SpeedRange | null {
  const ranges = curves.map(curveRange);
  const fromRpm = Math.max(...ranges.map((range) => range.fromRpm));
  const toRpm = Math.min(...ranges.map((range) => range.toRpm));
  return fromRpm < toRpm ? { fromRpm, toRpm } : null;
}

/**
 * Slopes at the points, mL per rpm. Inside: zero where the secants change sign, else their weighted harmonic mean (Fritsch and
 * Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300). Ends: the three-point formula, limited so that the shape is kept, as in
 * PCHIP. Other rules called "monotone cubic" differ from this one by a few per cent of a step.
 */
export function fritschButlandSlopes(points: readonly CurvePoint[]): readonly number[] {
  const steps = points.slice(1).map(([speed], index) => speed - speedOf(points, index));
  const secants = steps.map((step, index) => (volumeOf(points, index + 1) - volumeOf(points, index)) / step);
  if (secants.length === 1) return [at(secants, 0), at(secants, 0)];
  const count = points.length;
  return points.map((_, index) => {
    if (index === 0) return endSlope(at(steps, 0), at(steps, 1), at(secants, 0), at(secants, 1));
    if (index === count - 1) {
      return endSlope(
        at(steps, count - 2),
        at(steps, count - 3),
        at(secants, count - 2),
        at(secants, count - 3),
      );
    }
    return innerSlope(at(steps, index - 1), at(steps, index), at(secants, index - 1), at(secants, index));
  });
}

function innerSlope(before: number, after: number, left: number, right: number): number {
  if (left * right <= 0) return 0;
  const weightLeft = 2 * after + before;
  const weightRight = after + 2 * before;
  return (weightLeft + weightRight) / (weightLeft / left + weightRight / right);
}

function endSlope(near: number, far: number, secantNear: number, secantFar: number): number {
  const slope = ((2 * near + far) * secantNear - near * secantFar) / (near + far);
  if (Math.sign(slope) !== Math.sign(secantNear)) return 0;
  const turns = Math.sign(secantNear) !== Math.sign(secantFar);
  return turns && Math.abs(slope) > 3 * Math.abs(secantNear) ? 3 * secantNear : slope;
}

function straightAt(points: readonly CurvePoint[], index: number, speedRpm: number): BoundaryPoint {
  const slope = secantOf(points, index);
  const atCorner = speedRpm === speedOf(points, index + 1) && index + 2 < points.length;
  const next = atCorner ? secantOf(points, index + 1) : slope;
  const from = volumeOf(points, index);
  const to = volumeOf(points, index + 1);
  const part = (speedRpm - speedOf(points, index)) / (speedOf(points, index + 1) - speedOf(points, index));
  const volumeMl = part === 1 ? to : from + part * (to - from);
  return { volumeMl, slopeMlPerRpm: Math.abs(next) > Math.abs(slope) ? next : slope };
}

function cubicAt(points: readonly CurvePoint[], index: number, speedRpm: number): BoundaryPoint {
  const slopes = fritschButlandSlopes(points);
  const step = speedOf(points, index + 1) - speedOf(points, index);
  const part = (speedRpm - speedOf(points, index)) / step;
  const from = volumeOf(points, index);
  const rise = volumeOf(points, index + 1) - from;
  const start = at(slopes, index) * step;
  const end = at(slopes, index + 1) * step;
  const square = 3 * rise - 2 * start - end;
  const cube = start + end - 2 * rise;
  const volumeMl = part === 1 ? from + rise : from + part * (start + part * (square + part * cube));
  return { volumeMl, slopeMlPerRpm: (start + part * (2 * square + 3 * part * cube)) / step };
}

const secantOf = (points: readonly CurvePoint[], index: number): number =>
  (volumeOf(points, index + 1) - volumeOf(points, index)) /
  (speedOf(points, index + 1) - speedOf(points, index));

const at = (values: readonly number[], index: number): number => values[index] ?? NaN;
const speedOf = (points: readonly CurvePoint[], index: number): number => points[index]?.[0] ?? NaN;
const volumeOf = (points: readonly CurvePoint[], index: number): number => points[index]?.[1] ?? NaN;
