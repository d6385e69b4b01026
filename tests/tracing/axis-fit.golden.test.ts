import { describe, expect, test } from 'vitest';
import {
  CLICK_PX,
  fitAxis,
  placeOnAxis,
  readAxis,
  straightLine,
  valuePerPx,
} from '../../src/tracing/axis-fit.ts';

/** Thermometer calibration of GUM (JCGM 100:2008) H.3: corrections b at t - 20 °C. */
const T = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const B = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];

describe('the straight line of GUM H.3', () => {
  const line = straightLine(T, B);
  const at = (t: number) => line.intercept + line.slope * (t - line.middlePx);
  const uAt = (t: number) => Math.hypot(line.uIntercept, (t - line.middlePx) * line.uSlope);

  test('has the intercept at 20 °C that is printed there, -0.1712 with u 0.0029', () => {
    expect(at(20)).toBeCloseTo(-0.1712, 4);
    expect(uAt(20)).toBeCloseTo(0.0029, 4);
  });

  test('has the slope that is printed there, 0.00218 with u 0.00067', () => {
    expect(line.slope).toBeCloseTo(0.00218, 5);
    expect(line.uSlope).toBeCloseTo(0.00067, 5);
  });

  test('gives b(30 °C) = -0.1494 with u 0.0041, and s = 0.0035 with 9 degrees of freedom', () => {
    expect(at(30)).toBeCloseTo(-0.1494, 4);
    expect(uAt(30)).toBeCloseTo(0.0041, 4);
    expect(line.residual).toBeCloseTo(0.0035, 4);
    expect(line.freedom).toBe(9);
  });
});

const good = (marks: { px: number; value: number }[], kind: 'linear' | 'log' = 'linear') => {
  const fit = fitAxis(marks, kind);
  if (!fit.ok) throw new Error(fit.problem.code);
  return fit.value;
};
const code = (marks: { px: number; value: number }[], kind: 'linear' | 'log' = 'linear') => {
  const fit = fitAxis(marks, kind);
  return fit.ok ? 'ok' : fit.problem.code;
};

describe('an axis', () => {
  test('with two marks reads in proportion, also downwards as volume does in a picture', () => {
    const fit = good([
      { px: 500, value: 0 },
      { px: 100, value: 800 },
    ]);
    expect(readAxis(fit, 300).value).toBeCloseTo(400, 9);
    expect(placeOnAxis(fit, 200)).toBeCloseTo(400, 9);
    expect(valuePerPx(fit, 200)).toBeCloseTo(-2, 9);
    expect(fit.residual).toBeNull();
  });

  test('with two marks is as doubtful as the two clicks: u²(half way) = 2 · (click/2)²', () => {
    const fit = good([
      { px: 0, value: 0 },
      { px: 400, value: 400 },
    ]);
    expect(readAxis(fit, 200).u).toBeCloseTo(CLICK_PX / Math.SQRT2, 9);
    expect(readAxis(fit, 0).u).toBeCloseTo(CLICK_PX, 9);
  });

  test('on a logarithmic scale puts the geometric mean half way, with u in proportion to the value', () => {
    const fit = good(
      [
        { px: 0, value: 10 },
        { px: 300, value: 10_000 },
      ],
      'log',
    );
    expect(readAxis(fit, 150).value).toBeCloseTo(Math.sqrt(10 * 10_000), 6);
    expect(placeOnAxis(fit, 100)).toBeCloseTo(100, 9);
    expect(readAxis(fit, 200).u / readAxis(fit, 200).value).toBeCloseTo(
      readAxis(fit, 100).u / readAxis(fit, 100).value,
      9,
    );
    expect(placeOnAxis(fit, 0)).toBe(-Infinity);
  });

  test('with marks that fit worse than clicks explain takes the residual instead', () => {
    const marks = [0, 100, 200, 300, 400].map((px, index) => ({
      px,
      value: px + (index % 2 === 0 ? 8 : -8),
    }));
    const fit = good(marks);
    expect(fit.residual).toBeGreaterThan(8);
    expect(readAxis(fit, 200).u).toBeCloseTo(fit.residual! / Math.sqrt(5), 9);
  });

  test('is refused with a reason where nothing can be read by it', () => {
    expect(code([{ px: 3, value: 4 }])).toBe('tracing.too-few-marks');
    expect(code([])).toBe('tracing.too-few-marks');
    expect(
      code([
        { px: 100, value: 4 },
        { px: 110, value: 8 },
      ]),
    ).toBe('tracing.marks-together');
    expect(
      code([
        { px: 100, value: 4 },
        { px: 300, value: 4 },
      ]),
    ).toBe('tracing.marks-same-value');
    expect(
      code(
        [
          { px: 100, value: 0 },
          { px: 300, value: 4 },
        ],
        'log',
      ),
    ).toBe('tracing.log-needs-positive');
  });
});
