import { describe, expect, it } from 'vitest';
import {
  boundaryAt,
  commonRange,
  fritschButlandSlopes,
  type CurvePoint,
} from '../../src/limits/boundary-curve.ts';

/**
 * Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980), monotone data; as in the GSL manual's example (check-values.md H).
 * Third value e-2 (copies with e-5 are wrong).
 */
const FRITSCH_CARLSON: readonly CurvePoint[] = [
  [7.99, 0],
  [8.09, 2.76429e-5],
  [8.19, 4.37498e-2],
  [8.7, 0.169183],
  [9.2, 0.469428],
  [10, 0.94374],
  [12, 0.998636],
  [15, 0.999919],
  [20, 0.999994],
];

/** Akima's flat-then-steep data (check-values.md H). */
const AKIMA: readonly CurvePoint[] = [
  [0, 10],
  [2, 10],
  [3, 10],
  [5, 10],
  [6, 10],
  [8, 10],
  [9, 10.5],
  [11, 15],
  [12, 50],
  [14, 60],
  [15, 85],
];

const cubic = (points: readonly CurvePoint[], speed: number) =>
  boundaryAt(points, 'monotone cubic', speed)?.volumeMl;

describe('the monotone cubic is the Fritsch–Butland one of PCHIP', () => {
  // check-values.md H, column "PCHIP (scipy, Fritsch–Butland)", computed there with scipy 1.10.1.
  it.each([
    [8.0, 2.76743e-7, 12],
    [8.14, 0.0176971674, 10],
    [8.5, 0.1166325769, 10],
    [9.0, 0.3375343268, 10],
    [9.5, 0.6852179451, 10],
    [11, 0.9860433625, 10],
    [13, 0.9993618221, 10],
    [17, 0.9999680258, 10],
  ])('on the Fritsch–Carlson data at %f it is %f', (speed, expected, digits) => {
    expect(cubic(FRITSCH_CARLSON, speed)).toBeCloseTo(expected, digits);
  });

  it('has the published slopes at the points', () => {
    // check-values.md H, "PCHIP slopes".
    const expected = [
      0, 5.525087e-4, 0.3358768346, 0.3494491677, 0.5969582389, 0.0603218455, 9.003954e-4, 3.142468e-5, 0,
    ];
    const slopes = fritschButlandSlopes(FRITSCH_CARLSON);
    expect(slopes).toHaveLength(expected.length);
    slopes.forEach((slope, index) => expect(slope).toBeCloseTo(expected[index] ?? NaN, 9));
  });

  it('gives those same slopes as the slope of the curve', () => {
    expect(boundaryAt(FRITSCH_CARLSON, 'monotone cubic', 9.2)?.slopeMlPerRpm).toBeCloseTo(0.5969582389, 9);
    expect(boundaryAt(FRITSCH_CARLSON, 'monotone cubic', 7.99)?.slopeMlPerRpm).toBeCloseTo(0, 12);
    expect(boundaryAt(FRITSCH_CARLSON, 'monotone cubic', 20)?.slopeMlPerRpm).toBeCloseTo(0, 12);
  });

  // check-values.md H, Akima data, PCHIP column.
  it.each([
    [1, 10],
    [7, 10],
    [8.5, 10.154481],
    [10, 11.76955],
    [11.5, 31.892562],
    [13, 55.136364],
    [14.5, 69.666667],
  ])('on the flat-then-steep data at %f it is %f', (speed, expected) => {
    expect(cubic(AKIMA, speed)).toBeCloseTo(expected, 6);
  });

  it('reaches 30 where the check values say, at 11.461189', () => {
    expect(cubic(AKIMA, 11.461189)).toBeCloseTo(30, 4);
  });

  it('through two points only is the straight line', () => {
    const line: readonly CurvePoint[] = [
      [100, 90],
      [260, 330],
    ];
    expect(boundaryAt(line, 'monotone cubic', 180)).toEqual(boundaryAt(line, 'straight', 180));
  });
});

describe('straight lines between points', () => {
  const chart: readonly CurvePoint[] = [
    [100, 90],
    [140, 150],
    [200, 180],
  ];

  it('interpolates between the two points around the speed', () => {
    expect(boundaryAt(chart, 'straight', 120)).toEqual({ volumeMl: 120, slopeMlPerRpm: 1.5 });
    expect(boundaryAt(chart, 'straight', 170)).toEqual({ volumeMl: 165, slopeMlPerRpm: 0.5 });
  });

  it('takes the steeper side at a corner, whichever side that is', () => {
    expect(boundaryAt(chart, 'straight', 140)).toEqual({ volumeMl: 150, slopeMlPerRpm: 1.5 });
    const steepening: readonly CurvePoint[] = [
      [100, 90],
      [140, 100],
      [200, 190],
    ];
    expect(boundaryAt(steepening, 'straight', 140)).toEqual({ volumeMl: 100, slopeMlPerRpm: 1.5 });
  });

  it('is known at both of its ends', () => {
    expect(boundaryAt(chart, 'straight', 100)?.volumeMl).toBe(90);
    expect(boundaryAt(chart, 'straight', 200)?.volumeMl).toBe(180);
  });

  it('is not known beyond its ends, however little, nor for a speed that is no number', () => {
    for (const speed of [99.999, 200.001, 0, -100, NaN, Infinity, -Infinity]) {
      expect(boundaryAt(chart, 'straight', speed)).toBeNull();
      expect(boundaryAt(chart, 'monotone cubic', speed)).toBeNull();
    }
  });
});

describe('the common range of curves', () => {
  const over = (from: number, to: number): readonly CurvePoint[] => [
    [from, 1],
    [to, 2],
  ];

  it('is where all of them are known', () => {
    expect(commonRange([over(100, 260), over(120, 300), over(90, 250)])).toEqual({
      fromRpm: 120,
      toRpm: 250,
    });
  });

  it('is nothing when they only touch or stand apart', () => {
    expect(commonRange([over(100, 160), over(160, 300)])).toBeNull();
    expect(commonRange([over(100, 150), over(160, 300)])).toBeNull();
  });
});
