import { describe, expect, test } from 'vitest';
import { curvePath, curveScale, sampled, type CurvePoint } from '../../src/ui/pressure-curve-scale.ts';

const same = (value: number) => value;

describe('the scale of a pressure curve', () => {
  test('covers the trace in time, and the trace and both pressures from 0', () => {
    const scale = curveScale(
      [
        [2, 1],
        [4, 12],
      ],
      [30, 5],
    );
    expect(scale).toMatchObject({ fromSeconds: 2, toSeconds: 4 });
    expect(scale?.top).toBeCloseTo(33); // by hand: a tenth above 30
  });

  test.each([
    [[]],
    [[[1, 5]]],
    [
      [
        [1, 5],
        [2, null],
      ],
    ],
    [
      [
        [1, NaN],
        [2, NaN],
      ],
    ],
  ] as readonly [readonly CurvePoint[]][])('is none for %j', (points) => {
    expect(curveScale(points, [30])).toBeNull();
  });

  test('a hole interrupts the line instead of being bridged', () => {
    const points: readonly CurvePoint[] = [
      [0, 1],
      [1, 2],
      [2, null],
      [3, 4],
      [4, 5],
    ];
    expect(curvePath(points, same, same)).toBe('M0.0 1.0L1.0 2.0M3.0 4.0L4.0 5.0');
  });

  test('a table keeps the first and the last row', () => {
    const points = Array.from({ length: 1000 }, (_, at): CurvePoint => [at, at]);
    const rows = sampled(points, 20);
    expect([rows.length, rows[0]?.[0], rows.at(-1)?.[0]]).toEqual([20, 0, 999]);
    expect(sampled(points.slice(0, 3), 20)).toHaveLength(3);
  });
});
