import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { probabilityBelow, probabilityInside, zoneProbabilities } from '../../src/grading/conformity.ts';
import { normalBelow, normalQuantile } from '../../src/grading/normal-distribution.ts';
import { combine, type UncertaintyCause } from '../../src/grading/uncertainty.ts';

describe('the normal distribution', () => {
  // Computed with mpmath ncdf at 30 digits, independent of this code.
  it.each([
    [-30, 4.90671392714818706e-198],
    [-12, 1.776482112077679e-33],
    [-8, 6.22096057427178412e-16],
    [-5, 2.86651571879193912e-7],
    [-3.5, 0.000232629079035525036],
    [-3, 0.00134989803163009453],
    [-2.999, 0.00135433653372710665],
    [-2, 0.0227501319481792072],
    [-1.4, 0.0807566592337710465],
    [-1, 0.158655253931457051],
    [-0.1, 0.460172162722971019],
    [0, 0.5],
    [0.3, 0.617911422188952637],
    [1, 0.841344746068542949],
    [2, 0.977249868051820793],
    [3, 0.998650101968369905],
    [4, 0.99996832875816688],
    [6, 0.999999999013412355],
  ])('below %f has probability %f, to 12 figures even in the tail', (z, expected) => {
    expect(Math.abs(normalBelow(z) / expected - 1)).toBeLessThan(1e-12);
  });

  // check-values.md A3.
  it.each([
    [0.9, 1.281552],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.99, 2.326348],
    [0.995, 2.575829],
    [0.999, 3.090232],
  ])('has its %f quantile at %f', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 6);
    expect(normalQuantile(1 - p)).toBeCloseTo(-z, 6);
  });

  // check-values.md A2, JCGM 106:2012 table 1.
  it.each([
    [0.8, 0.8416],
    [0.9, 1.2816],
    [0.95, 1.6449],
    [0.99, 2.3263],
    [0.999, 3.0902],
  ])('needs the distances of JCGM 106 table 1 for %f', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 4);
  });

  it('has ends, and no answer for what is no number or no probability', () => {
    expect([normalBelow(-Infinity), normalBelow(Infinity), normalBelow(NaN)]).toEqual([0, 1, NaN]);
    expect([normalQuantile(0), normalQuantile(1), normalQuantile(-0.1), normalQuantile(NaN)]).toEqual([
      -Infinity,
      Infinity,
      NaN,
      NaN,
    ]);
  });

  it('never falls, is symmetric, and its quantile leads back', () => {
    const z = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(z, z, (a, b) => {
        expect(normalBelow(Math.max(a, b))).toBeGreaterThanOrEqual(normalBelow(Math.min(a, b)) - 1e-15);
        expect(normalBelow(a) + normalBelow(-a)).toBeCloseTo(1, 14);
        if (a < 5) expect(normalQuantile(normalBelow(a))).toBeCloseTo(a, 6);
      }),
    );
  });
});

describe('conformance probabilities are those of JCGM 106:2012', () => {
  it('7.3 Zener diode: at most -5.40 V, measured -5.47 V with u 0.05 V, conforms with 0.92', () => {
    const p = probabilityBelow({ value: -5.47, standardUncertainty: 0.05 }, -5.4);
    expect(p).toBeCloseTo(0.92, 2);
    expect(p).toBeCloseTo(0.919243, 6); // check-values.md A2
  });

  it('7.4 engine oil: 12.5 to 16.3, measured 13.6 with u 1.8, conforms with 0.66', () => {
    const p = probabilityInside({ value: 13.6, standardUncertainty: 1.8 }, 12.5, 16.3);
    expect(p).toBeCloseTo(0.66, 2);
    expect(p).toBeCloseTo(0.66263, 6); // check-values.md A2
  });

  // check-values.md A2, "C_m checks": C_m = T / (4 u), y = (value - lower) / T; here T = 1.
  it.each([
    [1, 0.5, 0.9545],
    [2, 0.1, 0.788145],
    [1.5, 0.25, 0.933189],
  ])('measuring capability %f at %f of the tolerance gives %f', (capability, value, expected) => {
    const standardUncertainty = 1 / (4 * capability);
    expect(probabilityInside({ value, standardUncertainty }, 0, 1)).toBeCloseTo(expected, 6);
  });

  // check-values.md A2, guard band g = r U with U = 2 u.
  it.each([
    [1, 0.97725],
    [0.8224, 0.95],
  ])('a guard band of %f U leaves %f at the acceptance limit', (r, expected) => {
    // r is printed to four figures, so four decimals of the probability can be asked for.
    expect(probabilityBelow({ value: 10 - r * 2, standardUncertainty: 1 }, 10)).toBeCloseTo(expected, 4);
  });

  it('an open side takes nothing away', () => {
    const estimate = { value: 3, standardUncertainty: 1 };
    expect(probabilityInside(estimate, null, null)).toBe(1);
    expect(probabilityInside(estimate, 3, null)).toBeCloseTo(0.5, 14);
  });

  it('without uncertainty the answer is certain', () => {
    const estimate = { value: 3, standardUncertainty: 0 };
    expect([2, 3, 4].map((limit) => probabilityBelow(estimate, limit))).toEqual([0, 0.5, 1]);
  });
});

describe('zones between boundaries of unlike uncertainty', () => {
  it('never get a probability below zero, and still make 1', () => {
    const budget = (combined: number) => ({ parts: [], combined });
    const common = { slopePerRpm: 0, ownValueIsBelow: false };
    const probabilities = zoneProbabilities({
      value: 10,
      unit: 'mL',
      speedRpm: 180,
      above: 'pass',
      boundaries: [
        { ...common, name: 'failBelow', atValue: 9, below: 'fail low', budget: budget(100) },
        { ...common, name: 'passAbove', atValue: 9.5, below: 'marginal', budget: budget(0.1) },
      ],
    });
    expect(probabilities.marginal).toBe(0);
    expect(probabilities['fail low'] + probabilities.pass).toBeCloseTo(1, 14);
  });
});

describe('uncertainties combine by the GUM, first order', () => {
  const budget = (...contributions: number[]) =>
    combine(contributions.map((contribution) => ({ cause: 'value' as UncertaintyCause, contribution })));

  it('H.1: 25, 9.7, 2.9 and 16.6 nm give the published 32 nm', () => {
    const { combined } = budget(25, 9.682, 2.887, 16.599); // check-values.md A1, H.1
    expect(combined).toBeCloseTo(31.664, 3);
    expect(Math.round(combined)).toBe(32);
  });

  it('H.1: the three parts of the comparison give the published 9.7 nm', () => {
    expect(budget(5.8, 3.9, 6.7).combined).toBeCloseTo(9.6819, 4);
  });

  it('H.1: with the second-order terms 11.7 and 1.7 nm it is the published 34 nm', () => {
    const { combined } = budget(25, 9.682, 2.887, 16.599, 11.7, 1.7);
    expect(Math.round(combined)).toBe(34);
    expect(combined).toBeCloseTo(33.807, 1); // the two terms are printed to 0.1 nm
  });

  it('a cylinder of ±4 mL read to half of 5 mL has 2.723 mL', () => {
    expect(budget(4 / Math.sqrt(3), 2.5 / Math.sqrt(3)).combined).toBeCloseTo(2.723, 3); // check-values.md F
  });

  it('nothing gives nothing', () => {
    expect(budget().combined).toBe(0);
  });
});
