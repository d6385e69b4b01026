import { describe, expect, test } from 'vitest';
import { beforeAfter, COVERAGE } from '../../src/grading/before-after.ts';

const value = (of: number, standardUncertainty = 3) => ({ value: of, standardUncertainty });

describe('before and after', () => {
  test('with one run each combines the two uncertainties as a root of squares (JCGM 100:2008, 5.1.2)', () => {
    const change = beforeAfter([value(100, 3)], [value(110, 4)])!;
    expect(change).toMatchObject({ difference: 10, differencePercent: 10, spreadKnown: false });
    expect(change.standardUncertainty).toBeCloseTo(5, 12); // 3, 4, 5
    expect(change.expandedUncertainty).toBeCloseTo(10, 12); // k = 2 (JCGM 100, 6.3.3)
  });

  test.each([
    [10, false],
    [10.001, true],
    [-10, false],
    [-10.001, true],
  ])('calls a difference of %d with u = 5 more than chance: %s', (difference, expected) => {
    expect(beforeAfter([value(100, 3)], [value(100 + difference, 4)])?.moreThanChance).toBe(expected);
  });

  test('lets the scatter of repeats count beside the instrument', () => {
    // By hand: before 96, 104: mean 100, sum of squares 32; after 120: mean 120. Pooled s² = 32/1. u² = 0 + 32/2 + 0 + 32/1 = 48.
    const change = beforeAfter([value(96, 0), value(104, 0)], [value(120, 0)])!;
    expect(change.standardUncertainty ** 2).toBeCloseTo(48, 12);
    expect(change).toMatchObject({ before: 100, after: 120, spreadKnown: true, moreThanChance: true });
    expect(COVERAGE).toBe(2);
  });

  test('does not let repeating lessen the uncertainty of the instrument', () => {
    const four = Array.from({ length: 4 }, () => value(100, 3));
    expect(beforeAfter(four, four)?.standardUncertainty).toBeCloseTo(3 * Math.SQRT2, 12);
  });

  test('says nothing without numbers on both sides, and no per cent of 0', () => {
    expect(beforeAfter([], [value(1)])).toBeNull();
    expect(beforeAfter([value(1)], [])).toBeNull();
    expect(beforeAfter([value(NaN)], [value(1)])).toBeNull();
    expect(beforeAfter([value(1, Infinity)], [value(1)])).toBeNull();
    expect(beforeAfter([value(0)], [value(1)])?.differencePercent).toBeNaN();
  });
});
