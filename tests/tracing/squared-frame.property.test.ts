import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyMap, squareUp, type Corners } from '../../src/tracing/homography.ts';
import { squaredFrame, type SquaredFrame } from '../../src/tracing/squared-frame.ts';
import { askew, flatCorners } from './draw-chart.ts';

const PICTURE = { width: 1000, height: 800 };
const framed = (corners: Corners, picture = PICTURE): SquaredFrame => {
  const frame = squaredFrame(corners, picture);
  if (!frame.ok) throw new Error(frame.problem.code);
  return frame.value;
};
const box = (left: number, top: number, right: number, bottom: number): Corners => [
  { x: left, y: top },
  { x: right, y: top },
  { x: right, y: bottom },
  { x: left, y: bottom },
];

describe('the frame squared up', () => {
  test('keeps a fifth of its sides beside it, where the picture reaches that far', () => {
    // By hand: the frame is 500 by 400; a fifth is 100 and 80.
    const { map, width, height } = framed(box(250, 200, 750, 600));
    expect([width, height]).toEqual([700, 560]);
    expect(applyMap(map, { x: 250, y: 200 }).x).toBeCloseTo(100, 9);
    expect(applyMap(map, { x: 250, y: 200 }).y).toBeCloseTo(80, 9);
  });

  test('keeps no more than there is in the picture', () => {
    // By hand: 40 px to the left, nothing to the right, 30 px above, 20 px below.
    const { map, width, height } = framed(box(40, 30, 1000, 780));
    expect([width, height]).toEqual([1000, 800]);
    expect(applyMap(map, { x: 0, y: 0 }).x).toBeCloseTo(0, 9);
  });

  test('of an askew photograph is an upright rectangle inside, each pixel shifted alike', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.3, noNaN: true }), (amount) => {
        const tilt = askew(PICTURE.width, PICTURE.height, amount);
        const corners = flatCorners(PICTURE).map((corner) => applyMap(tilt, corner)) as unknown as Corners;
        const { map, width, height } = framed(corners);
        const bare = squareUp(corners);
        if (!bare.ok) throw new Error(bare.problem.code);
        const [a, b, c, d] = corners.map((corner) => applyMap(map, corner)) as unknown as Corners;
        expect(b.y).toBeCloseTo(a.y, 4);
        expect(d.x).toBeCloseTo(a.x, 4);
        expect(c.x - a.x).toBeCloseTo(bare.value.width, 4);
        expect(c.y - a.y).toBeCloseTo(bare.value.height, 4);
        for (const { x, y } of [a, b, c, d]) {
          expect(x).toBeGreaterThan(-1e-4);
          expect(x).toBeLessThan(width + 1e-4);
          expect(y).toBeGreaterThan(-1e-4);
          expect(y).toBeLessThan(height + 1e-4);
        }
      }),
    );
  });

  test('with a corner of the picture behind the horizon keeps its whole margin there', () => {
    // The sides of the frame meet within the picture, a little above it: what lies beyond has no place.
    const corners: Corners = [
      { x: 480, y: 400 },
      { x: 520, y: 400 },
      { x: 800, y: 700 },
      { x: 200, y: 700 },
    ];
    const bare = squareUp(corners);
    const { height } = framed(corners);
    expect(bare.ok && height).toBeGreaterThanOrEqual(bare.ok ? Math.round(1.2 * bare.value.height) : NaN);
  });

  test('of corners that cross is refused', () => {
    const [a, b, c, d] = box(1, 1, 9, 9);
    expect(squaredFrame([a, c, b, d], PICTURE)).toMatchObject({
      problem: { code: 'tracing.corners-unusable' },
    });
  });
});
