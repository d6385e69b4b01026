import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitAxis, type AxisFit } from '../../src/tracing/axis-fit.ts';
import { followLine } from '../../src/tracing/follow-line.ts';
import { LEAST_CONTRAST } from '../../src/tracing/line-colour.ts';
import type { Picture } from '../../src/tracing/pixel.ts';
import { snapToLine } from '../../src/tracing/snap.ts';
import { curveUncertainty, readPlace, smoothPlaces, thinOut } from '../../src/tracing/traced-curve.ts';

const axis = (marks: { px: number; value: number }[]): AxisFit => {
  const fit = fitAxis(marks, 'linear');
  if (!fit.ok) throw new Error(fit.problem.code);
  return fit.value;
};
const AXES = {
  x: axis([
    { px: 0, value: 100 },
    { px: 400, value: 300 },
  ]),
  y: axis([
    { px: 300, value: 0 },
    { px: 0, value: 600 },
  ]),
};

describe('a place on the chart', () => {
  test('is read on both axes: 0.5 rpm and -2 mL a pixel here', () => {
    const point = readPlace(AXES, { x: 200, y: 150 });
    expect(point.x).toBeCloseTo(200, 9);
    expect(point.y).toBeCloseTo(300, 9);
  });
  test('is as doubtful as click and axis together, in quadrature', () => {
    // Half way between two marks the axis carries click/√2, the place itself the click: √(1 + 1/2) clicks.
    expect(readPlace(AXES, { x: 200, y: 150 }, 0.7).uY).toBeCloseTo(2 * 0.7 * Math.sqrt(1.5), 9);
    expect(readPlace(AXES, { x: 200, y: 150 }, 0).uX).toBeCloseTo((0.5 * 0.7) / Math.SQRT2, 9);
  });
});

describe('the uncertainty of a curve', () => {
  test('takes the doubt of speed by the slope: level curves do not care', () => {
    const level = [100, 200, 300].map((x) => ({ x, y: 50, uX: 3, uY: 4 }));
    expect(curveUncertainty(level)).toBeCloseTo(4, 9);
    const steep = [100, 200, 300].map((x) => ({ x, y: x, uX: 3, uY: 4 }));
    expect(curveUncertainty(steep)).toBeCloseTo(5, 9);
  });
  test('is none for fewer than two points, and not infinite for two at one speed', () => {
    expect(curveUncertainty([])).toBeNaN();
    expect(curveUncertainty([1, 2].map((y) => ({ x: 5, y, uX: 1, uY: 2 })))).toBeCloseTo(2, 9);
  });
});

describe('thinning out', () => {
  const places = fc
    .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 80 })
    .map((ys) => ys.map((y, x) => ({ x, y })));

  test('keeps the ends and stays within the tolerance everywhere', () => {
    fc.assert(
      fc.property(places, fc.double({ min: 0.1, max: 20, noNaN: true }), (all, tolerance) => {
        const kept = thinOut(all, tolerance);
        expect([kept[0], kept.at(-1)]).toEqual([all[0], all.at(-1)]);
        for (const { x, y } of all) {
          const next = Math.max(
            1,
            kept.findIndex((place) => place.x >= x),
          );
          const [a, b] = [kept[next - 1]!, kept[next]!];
          expect(Math.abs(a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y) - y)).toBeLessThanOrEqual(
            tolerance + 1e-9,
          );
        }
      }),
    );
  });
  test('leaves two points of a straight line', () => {
    expect(
      thinOut(
        Array.from({ length: 50 }, (_, x) => ({ x, y: 3 * x })),
        0.01,
      ),
    ).toHaveLength(2);
  });
});

test('smoothing moves no place of a straight line, and keeps both ends', () => {
  const line = Array.from({ length: 30 }, (_, x) => ({ x, y: 2 * x + 1 }));
  smoothPlaces(line).forEach(({ y }, index) => expect(y).toBeCloseTo(line[index]!.y, 9));
  const zigzag = line.map(({ x, y }, index) => ({ x, y: y + (index % 2) }));
  expect(smoothPlaces(zigzag)[0]).toEqual(zigzag[0]);
});

/** Grey paper with one band of another grey. */
function band(paper: number, ink: number, rows: readonly number[]): Picture {
  const data = new Uint8ClampedArray(80 * 60 * 4).fill(paper);
  for (const row of rows) data.fill(ink, 4 * 80 * row, 4 * 80 * (row + 1));
  return { width: 80, height: 60, data };
}

describe('a line in a picture', () => {
  test('is snapped to its middle from some pixels off', () => {
    const snapped = snapToLine(band(255, 0, [30, 31]), { x: 40, y: 26 });
    expect(snapped?.at.y).toBeCloseTo(31, 6);
  });
  test('too faint to be told from the paper is not there', () => {
    const faint = Math.floor(255 - LEAST_CONTRAST / Math.sqrt(3));
    expect(snapToLine(band(255, faint + 2, [30, 31]), { x: 40, y: 30 })).toBeNull();
    expect(snapToLine(band(255, faint - 3, [30, 31]), { x: 40, y: 30 })).not.toBeNull();
    const followed = followLine(band(255, 255, []), { x: 40, y: 30 });
    expect(followed.ok ? 'ok' : followed.problem.code).toBe('tracing.no-line-there');
  });
  test('is followed over its whole length', () => {
    const followed = followLine(band(250, 20, [30, 31]), { x: 40.5, y: 29 });
    expect(followed.ok && followed.value).toHaveLength(80);
  });
  test('that is a dot is no curve', () => {
    const picture = band(255, 255, []);
    for (let x = 38; x < 42; x++) picture.data.fill(0, 4 * (80 * 30 + x), 4 * (80 * 30 + x) + 3);
    const followed = followLine(picture, { x: 40.5, y: 30.5 });
    expect(followed.ok ? 'ok' : followed.problem.code).toBe('tracing.line-too-short');
  });
  test('at the very edge of the picture, or a click outside it, does no harm', () => {
    const picture = band(255, 0, [0, 59]);
    for (const click of [
      { x: 0, y: 0 },
      { x: 79.9, y: 59.9 },
      { x: -40, y: -40 },
      { x: 500, y: 500 },
    ])
      expect(() => followLine(picture, click)).not.toThrow();
  });
});
