import { boundaryAt, commonRange, type CurveJoin, type CurvePoint } from './boundary-curve.ts';

/** Where two boundary curves come closest, or cross deepest. */
export interface LowestGap {
  readonly atRpm: number;
  /** Upper minus lower there, mL; negative where they cross. */
  readonly gapMl: number;
}

/**
 * The lowest gap of `upper` above `lower` over the speeds that both know; null when they share none. Exact, not sampled: between two
 * neighbouring points of either curve the gap is one cubic (or line), whose lowest place is an end or a root of its slope.
 */
export function lowestGap(
  upper: readonly CurvePoint[],
  lower: readonly CurvePoint[],
  join: CurveJoin,
): LowestGap | null {
  const range = commonRange([upper, lower]);
  if (!range) return null;
  const knots = [...upper, ...lower]
    .map(([speed]) => speed)
    .filter((speed) => speed > range.fromRpm && speed < range.toRpm);
  const speeds = [range.fromRpm, ...knots.sort((a, b) => a - b), range.toRpm];
  const places = speeds.flatMap((speed, index) => {
    const next = speeds[index + 1];
    if (next === undefined || next <= speed) return [speed];
    return [speed, ...turningPoints((rpm) => gapAt(upper, lower, join, rpm), speed, next)];
  });
  return places
    .map((atRpm) => ({ atRpm, gapMl: gapAt(upper, lower, join, atRpm) }))
    .reduce((lowest, place) => (place.gapMl < lowest.gapMl ? place : lowest));
}

function gapAt(
  upper: readonly CurvePoint[],
  lower: readonly CurvePoint[],
  join: CurveJoin,
  rpm: number,
): number {
  return (boundaryAt(upper, join, rpm)?.volumeMl ?? NaN) - (boundaryAt(lower, join, rpm)?.volumeMl ?? NaN);
}

/** Speeds strictly between `from` and `to` where a cubic through four of its values turns. */
function turningPoints(gap: (rpm: number) => number, from: number, to: number): readonly number[] {
  const span = to - from;
  const [g0, g1, g2, g3] = [0, 1 / 3, 2 / 3, 1].map((part) => gap(from + part * span)) as [
    number,
    number,
    number,
    number,
  ];
  // Cubic through the values at 0, 1/3, 2/3, 1: g0 + a t + b t^2 + c t^3 (Newton's differences written out).
  const a = -5.5 * g0 + 9 * g1 - 4.5 * g2 + g3;
  const b = 9 * g0 - 22.5 * g1 + 18 * g2 - 4.5 * g3;
  const c = -4.5 * g0 + 13.5 * g1 - 13.5 * g2 + 4.5 * g3;
  return quadraticRoots(3 * c, 2 * b, a)
    .filter((part) => part > 0 && part < 1)
    .map((part) => from + part * span);
}

function quadraticRoots(square: number, linear: number, constant: number): readonly number[] {
  const root = Math.sqrt(linear * linear - 4 * square * constant);
  if (Number.isNaN(root)) return [];
  // The stable pair: no difference of two nearly equal numbers, and no division by a vanishing square term.
  const sum = -0.5 * (linear + (linear < 0 ? -root : root));
  return [sum / square, constant / sum].filter(Number.isFinite);
}
