import { describe, expect, it } from 'vitest';
import { crankTime } from '../../src/crank/crank-time.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { crank, edge } from './fixtures/crank.ts';

describe('crank time', () => {
  it('carries the late report as the mean square about the time shown: 0.6 s / sqrt 3', () => {
    const time = crankTime(crank(10, 25), DEFAULT_CRANK_SETTINGS);
    expect(time).toMatchObject({ seconds: 15, doubt: true });
    // By hand: spread 0.6²/12 = 0.03 (GUM 4.3.7), shift 0.3² = 0.09, together 0.12; its root is 0.34641.
    expect(time.standardUncertaintySeconds).toBeCloseTo(0.34641, 5);
  });

  it('reaches 95 of 100 true times on the side where they lie (z = 1.64485, check-values.md A3)', () => {
    const { standardUncertaintySeconds } = crankTime(crank(10, 25), DEFAULT_CRANK_SETTINGS);
    // True times lie evenly 0 to 0.6 s above. With 0.6 / sqrt 12 the reach would hold 47 of 100 only.
    const part = (1.644854 * standardUncertaintySeconds) / 0.6;
    expect(part).toBeGreaterThan(0.94);
    expect(part).toBeLessThan(0.96);
  });

  it('adds the edges in quadrature', () => {
    const found = { ...crank(10, 25), starterOn: edge(10, 300), end: edge(25, 400) };
    expect(crankTime(found, { lateReportMs: 0 }).standardUncertaintySeconds).toBeCloseTo(0.5, 9);
    // 0.09 + 0.16 + 1.2²/3 = 0.73
    expect(crankTime(found, { lateReportMs: 1200 }).standardUncertaintySeconds).toBeCloseTo(
      Math.sqrt(0.73),
      9,
    );
  });

  it.each(['battery', 'starter'] as const)(
    'is without the late report where the %s marked the start',
    (startSign) => {
      const marked = { ...crank(10, 25), starterOn: edge(9.6, 29), startSign };
      const time = crankTime(marked, DEFAULT_CRANK_SETTINGS);
      expect(time.seconds).toBeCloseTo(15.4, 9);
      expect(time).toMatchObject({ doubt: false, standardUncertaintySeconds: 0.029 });
    },
  );

  it('of a crank that ends before it begins is 0', () => {
    expect(crankTime(crank(25, 10), DEFAULT_CRANK_SETTINGS).seconds).toBe(0);
  });
});
