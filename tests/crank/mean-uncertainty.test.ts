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
});
