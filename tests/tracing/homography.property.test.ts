import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyMap, homographyOf, invertMap, squareUp, type Corners } from '../../src/tracing/homography.ts';
import { distancePx, type Pixel } from '../../src/tracing/pixel.ts';

const near = (x: number, y: number, span: number) =>
  fc.record({
    x: fc.double({ min: x - span, max: x + span, noNaN: true }),
    y: fc.double({ min: y - span, max: y + span, noNaN: true }),
  });
const corners = fc.tuple(
  near(100, 100, 60),
  near(900, 100, 60),
  near(900, 700, 60),
  near(100, 700, 60),
) as fc.Arbitrary<Corners>;
const inside = fc.record({
  x: fc.double({ min: 0, max: 1, noNaN: true }),
  y: fc.double({ min: 0, max: 1, noNaN: true }),
});

const squared = (frame: Corners) => {
  const result = squareUp(frame);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
};

describe('squaring up a frame', () => {
  test('puts the corners on the corners of the upright frame', () => {
    fc.assert(
      fc.property(corners, (frame) => {
        const { map, width, height } = squared(frame);
        const targets = [
          { x: 0, y: 0 },
          { x: width, y: 0 },
          { x: width, y: height },
          { x: 0, y: height },
        ];
        frame.forEach((corner, place) =>
          expect(distancePx(applyMap(map, corner), targets[place]!)).toBeLessThan(1e-6),
        );
      }),
    );
  });

  test('and back again leaves every place where it was', () => {
    fc.assert(
      fc.property(corners, inside, (frame, part) => {
        const { map, width, height } = squared(frame);
        const place: Pixel = { x: part.x * width, y: part.y * height };
        const there = applyMap(invertMap(map), place);
        expect(distancePx(applyMap(map, there), place)).toBeLessThan(1e-6);
      }),
    );
  });

  test('keeps straight lines straight', () => {
    fc.assert(
      fc.property(corners, inside, inside, (frame, a, b) => {
        const { map } = squared(frame);
        const at = (part: number): Pixel => ({
          x: 100 + 800 * (a.x + part * (b.x - a.x)),
          y: 100 + 600 * (a.y + part * (b.y - a.y)),
        });
        const [p, q, r] = [0, 0.4, 1].map((part) => applyMap(map, at(part))) as [Pixel, Pixel, Pixel];
        const area = (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
        expect(Math.abs(area)).toBeLessThan(1e-5 * (1 + distancePx(p, r) ** 2));
      }),
    );
  });

  test('finds the exact middle of a frame that is only moved and stretched', () => {
    const { map, width, height } = squared([
      { x: 20, y: 30 },
      { x: 220, y: 30 },
      { x: 220, y: 130 },
      { x: 20, y: 130 },
    ]);
    expect([width, height]).toEqual([200, 100]);
    const middle = applyMap(map, { x: 120, y: 80 });
    expect(middle.x).toBeCloseTo(100, 9);
    expect(middle.y).toBeCloseTo(50, 9);
  });
});

const refused: readonly (readonly [string, Corners])[] = [
  [
    'all at one place',
    [
      { x: 1, y: 1 },
      { x: 1, y: 1 },
      { x: 1, y: 1 },
      { x: 1, y: 1 },
    ],
  ],
  [
    'in a line',
    [
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 20, y: 0 },
      { x: 30, y: 0 },
    ],
  ],
  [
    'crossing',
    [
      { x: 0, y: 0 },
      { x: 100, y: 100 },
      { x: 100, y: 0 },
      { x: 0, y: 100 },
    ],
  ],
  [
    'the other way round',
    [
      { x: 0, y: 0 },
      { x: 0, y: 100 },
      { x: 100, y: 100 },
      { x: 100, y: 0 },
    ],
  ],
  [
    'with a corner on the line between two',
    [
      { x: 0, y: 0 },
      { x: 50, y: 50 },
      { x: 100, y: 100 },
      { x: 0, y: 100 },
    ],
  ],
  [
    'not numbers',
    [
      { x: NaN, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 100 },
      { x: 0, y: 100 },
    ],
  ],
];

test.each(refused)('corners %s are refused with a reason', (_, frame) => {
  const result = squareUp(frame);
  expect(result.ok ? 'ok' : result.problem.code).toBe('tracing.corners-unusable');
});

test('four places of which three are one fix no map', () => {
  const flat: Corners = [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
    { x: 0, y: 0 },
    { x: 1, y: 1 },
  ];
  expect(
    homographyOf(flat, [
      { x: 0, y: 0 },
      { x: 1, y: 0 },
      { x: 1, y: 1 },
      { x: 0, y: 1 },
    ]),
  ).toBeNull();
});

test('a place on the horizon of a map is no place', () => {
  expect(applyMap([1, 0, 0, 0, 1, 0, 1, 0, -5], { x: 5, y: 3 }).x).toBeNaN();
});
