import { describe, expect, it } from 'vitest';
import { beforeAfter } from '../../src/grading/before-after.ts';
import { spreadOf } from '../../src/grading/repeats.ts';

const exact = (values: readonly number[]) => values.map((value) => ({ value, standardUncertainty: 0 }));

/* NIST/SEMATECH e-Handbook 7.3.1 (check-values.md C): pooled t 2.135334 with 18 degrees of freedom; means 36.0909 and 32.2222; s 4.9082 and 2.5386. */
const OLD = [32, 37, 35, 28, 41, 44, 35, 31, 34, 38, 42];
const NEW = [36, 31, 30, 31, 34, 36, 29, 32, 31];

describe('two samples of the e-Handbook, 7.3.1', () => {
  const change = beforeAfter(exact(OLD), exact(NEW))!;

  it('have the published means and spreads', () => {
    expect(change.before).toBeCloseTo(36.0909, 4);
    expect(change.after).toBeCloseTo(32.2222, 4);
    expect(spreadOf(OLD).standardDeviation).toBeCloseTo(4.9082, 4);
    expect(spreadOf(NEW).standardDeviation).toBeCloseTo(2.5386, 4);
  });

  it('differ by the published pooled t of 2.135334, which is more than chance at k = 2', () => {
    expect(-change.difference / change.standardUncertainty).toBeCloseTo(2.135334, 6);
    expect(change).toMatchObject({ moreThanChance: true, spreadKnown: true });
  });

  it('are chance as soon as the instrument is worth less: u 1 mL makes t 1.67', () => {
    // Scatter alone: 3.8687/2.135334 = 1.81174; with 1 on either side √(1.81174² + 2) = 2.29826; t = 1.6833.
    const doubtful = (values: readonly number[]) =>
      values.map((value) => ({ value, standardUncertainty: 1 }));
    const found = beforeAfter(doubtful(OLD), doubtful(NEW))!;
    expect(-found.difference / found.standardUncertainty).toBeCloseTo(1.6833, 3);
    expect(found.moreThanChance).toBe(false);
  });

  it('turned about give the same with the other sign', () => {
    const back = beforeAfter(exact(NEW), exact(OLD))!;
    expect(back.difference).toBeCloseTo(-change.difference, 12);
    expect(back.standardUncertainty).toBeCloseTo(change.standardUncertainty, 12);
    expect(back.moreThanChance).toBe(true);
  });
});

describe('what stays true of any before and after', () => {
  it('the sides are not the worse for a constant added to both', () => {
    const shifted = beforeAfter(exact(OLD.map((v) => v + 500)), exact(NEW.map((v) => v + 500)))!;
    expect(shifted.standardUncertainty).toBeCloseTo(
      beforeAfter(exact(OLD), exact(NEW))!.standardUncertainty,
      9,
    );
  });

  it('stands by the least certain run of a side', () => {
    const found = beforeAfter(
      [
        { value: 100, standardUncertainty: 1 },
        { value: 100, standardUncertainty: 6 },
      ],
      [{ value: 90, standardUncertainty: 8 }],
    )!;
    expect(found.standardUncertainty).toBeCloseTo(10, 12); // 6, 8, 10
    expect(found).toMatchObject({ difference: -10, differencePercent: -10, moreThanChance: false });
  });
});
