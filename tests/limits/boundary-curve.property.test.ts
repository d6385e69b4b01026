import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundaryAt, type CurveJoin, type CurvePoint } from '../../src/limits/boundary-curve.ts';
import { lowestGap } from '../../src/limits/lowest-gap.ts';

const joins = fc.constantFrom<CurveJoin>('straight', 'monotone cubic');

/** Curves as charts have them: 2 to 8 points, speeds rising by 1 rpm or more, any volumes. */
const curves = (from = 50): fc.Arbitrary<readonly CurvePoint[]> =>
  fc
    .array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 900 })), {
      minLength: 2,
      maxLength: 8,
    })
    .map((steps) => {
      let speed = from;
      return steps.map(([step, volume]): CurvePoint => [(speed += step), volume]);
    });

const ends = (points: readonly CurvePoint[]) => [points[0]?.[0] ?? NaN, points.at(-1)?.[0] ?? NaN] as const;

describe('boundary curves', () => {
  it('run through each of their points, however joined', () => {
    fc.assert(
      fc.property(curves(), joins, (points, join) => {
        for (const [speed, volume] of points) expect(boundaryAt(points, join, speed)?.volumeMl).toBe(volume);
      }),
    );
  });

  it('stay between the two points around the speed: no bulge, no dip', () => {
    fc.assert(
      fc.property(curves(), joins, fc.double({ min: 0, max: 1, noNaN: true }), (points, join, part) => {
        points.slice(1).forEach(([to, high], index) => {
          const [from, low] = points[index] ?? [NaN, NaN];
          const volume = boundaryAt(points, join, from + part * (to - from))?.volumeMl ?? NaN;
          expect(volume).toBeGreaterThanOrEqual(Math.min(low, high) - 1e-9);
          expect(volume).toBeLessThanOrEqual(Math.max(low, high) + 1e-9);
        });
      }),
    );
  });

  it('rise wherever their points rise', () => {
    const rising = curves().map((points) => {
      const volumes = points.map(([, volume]) => volume).sort((a, b) => a - b);
      return points.map(([speed], index): CurvePoint => [speed, volumes[index] ?? NaN]);
    });
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(rising, joins, part, part, (points, join, a, b) => {
        const [from, to] = ends(points);
        const at = (share: number) => boundaryAt(points, join, Math.min(to, from + share * (to - from)));
        expect(at(Math.max(a, b))?.volumeMl).toBeGreaterThanOrEqual(
          (at(Math.min(a, b))?.volumeMl ?? NaN) - 1e-9,
        );
        expect(at(a)?.slopeMlPerRpm).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  it('have a slope that agrees with the difference quotient away from corners', () => {
    fc.assert(
      fc.property(curves(), joins, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (points, join, part) => {
        const [from, to] = [points[0]?.[0] ?? NaN, points[1]?.[0] ?? NaN];
        const speed = from + part * (to - from);
        const step = 1e-4;
        const above = boundaryAt(points, join, speed + step)?.volumeMl ?? NaN;
        const below = boundaryAt(points, join, speed - step)?.volumeMl ?? NaN;
        const slope = boundaryAt(points, join, speed)?.slopeMlPerRpm ?? NaN;
        expect(Math.abs(slope - (above - below) / (2 * step))).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
      }),
    );
  });

  it('are unknown at every speed outside their ends', () => {
    fc.assert(
      fc.property(curves(), joins, fc.double({ noNaN: true }), (points, join, speed) => {
        const [from, to] = ends(points);
        expect(boundaryAt(points, join, speed) === null).toBe(speed < from || speed > to);
      }),
    );
  });
});

describe('the lowest gap between two curves', () => {
  it('is never above any gap that sampling finds, and is really reached', () => {
    fc.assert(
      fc.property(curves(), curves(55), joins, (upper, lower, join) => {
        const gap = lowestGap(upper, lower, join);
        const gapAt = (speed: number) => {
          const [high, low] = [boundaryAt(upper, join, speed), boundaryAt(lower, join, speed)];
          return high && low ? high.volumeMl - low.volumeMl : Infinity;
        };
        const [from, to] = ends(upper);
        const sampled = Array.from({ length: 301 }, (_, index) => gapAt(from + ((to - from) * index) / 300));
        if (!gap) return;
        expect(gap.gapMl).toBeLessThanOrEqual(Math.min(...sampled) + 1e-6);
        expect(gapAt(gap.atRpm)).toBe(gap.gapMl);
      }),
    );
  });

  it('is found between two points where cubic curves dip though every point is apart', () => {
    // The lower curve is steep exactly where the upper is flat: apart by 1 at every shared speed, across in between.
    const upper: readonly CurvePoint[] = [
      [100, 100],
      [200, 101],
      [300, 301],
    ];
    const lower: readonly CurvePoint[] = [
      [100, 0],
      [200, 100],
      [300, 300],
    ];
    const straight = lowestGap(upper, lower, 'straight');
    const cubic = lowestGap(upper, lower, 'monotone cubic');
    expect(straight?.gapMl).toBe(1);
    expect(cubic?.gapMl).toBeLessThan(0);
    expect(cubic?.atRpm).not.toBe(200);
  });

  it('is nothing for curves that share no speeds', () => {
    const low: readonly CurvePoint[] = [
      [50, 1],
      [80, 2],
    ];
    const high: readonly CurvePoint[] = [
      [90, 1],
      [120, 2],
    ];
    expect(lowestGap(high, low, 'straight')).toBeNull();
  });
});
