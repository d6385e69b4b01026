import { describe, expect, it } from 'vitest';
import { meanUncertainty } from '../../src/crank/mean-uncertainty.ts';
import { LEW, MAVRO, MICHELSO } from './fixtures/nist-univariate.ts';

describe('uncertainty of the mean of values that lean on each other', () => {
  // check-values.md B, table "autocorrelation-aware standard error of the mean", column Bartlett, 10 lags.
  it.each([
    ['Lew', LEW, -177.435, 6.9143],
    ['Mavro', MAVRO, 2.001856, 1.6369e-4],
    ['Michelso', MICHELSO, 299.8524, 0.0127241],
  ])('NIST %s: several lags, not the first alone', (_, values, mean, expected) => {
    expect(values.reduce((sum, value) => sum + value, 0) / values.length).toBeCloseTo(mean, 9); // the data are the right ones
    expect(meanUncertainty(values, 10).standardUncertainty / expected).toBeCloseTo(1, 4);
  });

  it('a value held 20 times over counts about once', () => {
    let seed = 7; // a linear congruential series: 100 values without pattern, each held 20 times
    const sent = Array.from({ length: 100 }, () => 180 + ((seed = (seed * 16807) % 2147483647) % 1000) / 50);
    const held = Array.from({ length: 2000 }, (_, i) => sent[Math.floor(i / 20)]!);
    const { effectiveSamples } = meanUncertainty(held, 60);
    expect(effectiveSamples).toBeGreaterThan(50);
    expect(effectiveSamples).toBeLessThan(160);
  });

  it('one value says nothing about its spread, no value nothing at all', () => {
    expect(meanUncertainty([180], 10).standardUncertainty).toBe(Infinity);
    expect(meanUncertainty([], 10).standardUncertainty).toBeNaN();
  });

  // check-values.md B, certified values of NIST StRD: mean, sd (divisor n - 1), r1. With u² = (s0²/n)(1 + r1) for one lag (weight 1/2), and s0² = sd²(n - 1)/n.
  it.each([
    ['Lew', LEW, 277.332168044316, -0.307304800605679],
    ['Mavro', MAVRO, 0.000429123454003053, 0.937989183438248],
    ['Michelso', MICHELSO, 0.0790105478190518, 0.535199668621283],
  ])('NIST %s: no lag gives sd, one lag r1', (_, values, sd, r1) => {
    const n = values.length;
    const plain = meanUncertainty(values, 0);
    expect((plain.standardUncertainty * n) / Math.sqrt(n - 1) / sd).toBeCloseTo(1, 10);
    expect(plain.effectiveSamples).toBeCloseTo(n, 9);
    const one = meanUncertainty(values, 1);
    // A negative r1 would make the mean better than independent values do: one lag is bounded at that.
    expect((one.standardUncertainty / plain.standardUncertainty) ** 2 - 1).toBeCloseTo(Math.max(0, r1), 9);
  });

  it('holds the mean and spread of large numbers: NumAcc1 and NumAcc3 (check-values.md B)', () => {
    expect(meanUncertainty([10000001, 10000003, 10000002], 0).standardUncertainty).toBeCloseTo(
      Math.sqrt(2) / 3,
      12,
    );
    const numAcc3 = [1000000.2, ...Array.from({ length: 1000 }, (_, i) => (i % 2 ? 1000000.3 : 1000000.1))];
    const sd = (meanUncertainty(numAcc3, 0).standardUncertainty * 1001) / Math.sqrt(1000);
    expect(sd / 0.1).toBeCloseTo(1, 8);
  });

  it('asks no more lags than there are values, and takes none below 0', () => {
    expect(meanUncertainty([1, 2, 4], 100)).toEqual(meanUncertainty([1, 2, 4], 2));
    expect(meanUncertainty([1, 2, 4], -5)).toEqual(meanUncertainty([1, 2, 4], 0));
    expect(meanUncertainty([5, 5, 5], 2)).toEqual({ standardUncertainty: 0, effectiveSamples: 3 });
  });
});
