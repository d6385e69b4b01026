import { describe, expect, it } from 'vitest';
import { probabilityInside } from '../../src/grading/conformity.ts';
import { gradeWindow } from '../../src/grading/grade-window.ts';
import { normalQuantile } from '../../src/grading/normal-distribution.ts';
import { combine } from '../../src/grading/uncertainty.ts';
import type { Verdict } from '../../src/grading/verdict.ts';
import type { Window } from '../../src/limits/limit-sheet.ts';
import { RETURN_WINDOW } from './example-delivery.ts';

/** A value of known standard uncertainty against a window, by the path that grades pressures. */
function graded(value: number, u: number, min: number | null, max: number | null): Verdict {
  const window: Window = { ...RETURN_WINDOW, quantity: 'pressure', min, max };
  const budget = combine([{ cause: 'value', contribution: u }]);
  return gradeWindow({ quantity: 'pressure', value, budget }, window, { reasons: [], warnings: [] });
}

describe('JCGM 106:2012 through a graded window', () => {
  it('7.3 Zener diode: -5.47 with u 0.05 at most -5.40 conforms with 0.92, which is too close to call', () => {
    const verdict = graded(-5.47, 0.05, null, -5.4); // check-values.md A2
    expect(verdict).toMatchObject({ word: 'too close to call', leaning: 'pass', nearest: { name: 'max' } });
    expect(verdict.confidence).toBeCloseTo(0.919243, 6);
    expect(verdict.probabilities?.['fail high']).toBeCloseTo(1 - 0.919243, 6);
    expect(verdict.probabilities?.['fail low']).toBe(0);
    expect(verdict.nearest?.distance).toBeCloseTo(-0.07, 12);
  });

  it('7.4 engine oil: 13.6 with u 1.8 in 12.5 to 16.3 conforms with 0.66', () => {
    const verdict = graded(13.6, 1.8, 12.5, 16.3); // check-values.md A2
    expect(verdict).toMatchObject({ word: 'too close to call', leaning: 'pass', nearest: { name: 'min' } });
    expect(verdict.probabilities?.pass).toBeCloseTo(0.66263, 6);
    // By hand: below 12.5 is Φ(-0.6111) = 0.27057, above 16.3 is Φ(-1.5) = 0.06681.
    expect(verdict.probabilities?.['fail low']).toBeCloseTo(0.2706, 3);
    expect(verdict.probabilities?.['fail high']).toBeCloseTo(0.0668, 4);
  });

  // Measuring capability C_m = T/(4u), y = (value - lower)/T: Φ(4 C_m (1 - y)) - Φ(-4 C_m y). The published formula, worked with scipy norm.cdf.
  const PLACES = [-0.1, 0, 0.05, 0.1, 0.25, 0.5, 0.9, 1, 1.2];
  const TWO_SIDED: readonly (readonly [number, readonly number[]])[] = [
    [0.5, [0.406837, 0.47725, 0.511111, 0.543329, 0.624655, 0.682689, 0.543329, 0.47725, 0.336381]],
    [1, [0.344573, 0.499968, 0.579187, 0.655263, 0.839995, 0.9545, 0.655263, 0.499968, 0.211855]],
    [1.5, [0.274253, 0.5, 0.617911, 0.725747, 0.933189, 0.9973, 0.725747, 0.5, 0.11507]],
    [2, [0.211855, 0.5, 0.655422, 0.788145, 0.97725, 0.999937, 0.788145, 0.5, 0.054799]],
    [3, [0.11507, 0.5, 0.725747, 0.88493, 0.99865, 1, 0.88493, 0.5, 0.008198]],
    [5, [0.02275, 0.5, 0.841345, 0.97725, 1, 1, 0.97725, 0.5, 3.2e-5]],
  ];
  it.each(TWO_SIDED)('a two-sided window at measuring capability %f', (capability, expected) => {
    const u = 400 / (4 * capability); // T is 400 kPa, from 300 to 700
    PLACES.forEach((place, index) => {
      const pass = expected[index] ?? NaN;
      const verdict = graded(300 + 400 * place, u, 300, 700);
      expect(verdict.probabilities?.pass).toBeCloseTo(pass, 5);
      const inside = place >= 0 && place <= 1;
      expect(verdict.leaning).toBe(inside ? 'pass' : place < 0 ? 'fail low' : 'fail high');
      if (inside) expect(verdict.word).toBe(pass >= 0.95 ? 'pass' : 'too close to call');
    });
  });

  // check-values.md A2, table 1: the distance in u from a single limit that a probability needs.
  it.each([
    [0.8, 0.8416],
    [0.9, 1.2816],
    [0.95, 1.6449],
    [0.99, 2.3263],
    [0.999, 3.0902],
  ])('table 1: %f needs %f u from a single limit', (probability, distance) => {
    expect(graded(100 + distance * 3, 3, 100, null).confidence).toBeCloseTo(probability, 4);
    expect(graded(100 - distance * 3, 3, null, 100).confidence).toBeCloseTo(probability, 4);
    // The same distance outside makes a fail as sure as it made a pass inside.
    expect(graded(100 - distance * 3, 3, 100, null).probabilities?.['fail low']).toBeCloseTo(probability, 4);
  });

  it('a verdict begins at exactly 95 %: z 1.64485, not 1.6', () => {
    const z = normalQuantile(0.95);
    expect(graded(100 + (z + 1e-6) * 3, 3, 100, null).word).toBe('pass');
    expect(graded(100 + (z - 1e-6) * 3, 3, 100, null).word).toBe('too close to call');
    expect(graded(100 - (z + 1e-6) * 3, 3, 100, null).word).toBe('fail low');
  });
});

describe('JCGM 106:2012, 9.5: risks of a lot of resistors', () => {
  const process = { value: 1500, standardUncertainty: 0.12 };
  const [low, high, u] = [1499.8, 1500.2, 0.04];

  /** Share of the lot that is truly on one side and judged on the other, by the midpoint rule over ±0.8 in steps of 0.0004, so that limits lie between steps. */
  function risks(guard: number) {
    const steps = 4000;
    const width = 1.6 / steps;
    let [consumer, producer] = [0, 0];
    for (let step = 0; step < steps; step += 1) {
      const from = 1500 + (step - steps / 2) * width;
      const share = probabilityInside(process, from, from + width);
      const truly = from + width / 2;
      const accepted = probabilityInside({ value: truly, standardUncertainty: u }, low + guard, high - guard);
      if (truly < low || truly > high) consumer += share * accepted;
      else producer += share * (1 - accepted);
    }
    return { consumer, producer };
  }

  it('0.90442 of the lot conform', () => {
    expect(probabilityInside(process, low, high)).toBeCloseTo(0.90442, 5); // check-values.md A2
  });

  // check-values.md A2: guard band, consumer's and producer's risk (published as 1 % and 7 % for the band of 0.02).
  it.each([
    [0, 0.01894, 0.03721],
    [0.02, 0.00988, 0.06903],
    [0.04, 0.004334, 0.11466],
    [0.08, 0.000469, 0.24767],
    [-0.02, 0.03114, 0.01755],
  ])('a guard band of %f has the stated risks', (guard, consumer, producer) => {
    const found = risks(guard);
    expect(Math.abs(found.consumer - consumer)).toBeLessThan(2e-5);
    expect(Math.abs(found.producer - producer)).toBeLessThan(2e-5);
  });
});
