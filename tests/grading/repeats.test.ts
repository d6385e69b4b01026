import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRepeats, spreadOf, type RepeatedRun } from '../../src/grading/repeats.ts';
import { describeProblem } from '../../src/problems/problem.ts';

const run = (value: number | null, word: RepeatedRun['word'] = 'pass', graduation = 5): RepeatedRun => ({
  value,
  word,
  graduation,
});
const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

describe('mean and standard deviation', () => {
  it('keep the digits of NumAcc1 and NumAcc4 (NIST StRD certified values, check-values.md B)', () => {
    expect(spreadOf([10000001, 10000003, 10000002])).toEqual({
      mean: 10000002,
      standardDeviation: 1,
      range: 2,
    });
    const numAcc4 = [10000000.2, ...Array.from({ length: 500 }, () => [10000000.1, 10000000.3]).flat()];
    const { mean, standardDeviation } = spreadOf(numAcc4);
    expect(mean).toBeCloseTo(10000000.2, 6);
    expect(Math.abs(standardDeviation / 0.1 - 1)).toBeLessThan(1e-8); // as check-values.md B allows for this set
  });

  it('are those of the twenty temperatures of the GUM, 4.4.3', () => {
    const temperatures = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95,
      101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const { mean, standardDeviation } = spreadOf(temperatures);
    expect(mean).toBeCloseTo(100.145, 9);
    expect(standardDeviation).toBeCloseTo(1.4888, 4); // check-values.md A1; printed 1.49
  });

  // ISO 5725-2:1994 annex B, sulfur in coal, levels 1 and 4 (check-values.md C): published s_r 0.015 and 0.026.
  it.each([
    [
      0.0151,
      [
        [0.71, 0.71, 0.7, 0.71],
        [0.69, 0.67, 0.68],
        [0.66, 0.65, 0.69],
        [0.67, 0.65, 0.66],
        [0.7, 0.69, 0.66, 0.71, 0.69],
        [0.73, 0.74, 0.73],
        [0.71, 0.71, 0.69],
        [0.7, 0.65, 0.68],
      ],
    ],
    [
      0.0261,
      [
        [3.26, 3.26, 3.2, 3.24],
        [3.2, 3.2, 3.2],
        [3.37, 3.36, 3.38],
        [3.16, 3.22, 3.23],
        [3.2, 3.19, 3.18, 3.27, 3.24],
        [3.27, 3.31, 3.29],
        [3.27, 3.24, 3.23],
        [3.25, 3.26, 3.26],
      ],
    ],
  ])('pool to the repeatability %f of ISO 5725-2 annex B', (expected, laboratories) => {
    const squares = laboratories.map(
      (values) => (values.length - 1) * spreadOf(values).standardDeviation ** 2,
    );
    const freedom = laboratories.reduce((sum, values) => sum + values.length - 1, 0);
    expect(Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / freedom)).toBeCloseTo(expected, 4);
  });

  it('are no numbers where there is too little', () => {
    expect(spreadOf([]).mean).toBeNaN();
    expect(spreadOf([5])).toEqual({ mean: 5, standardDeviation: NaN, range: 0 });
  });
});

describe('runs of one check', () => {
  it('that agree within 10 % are a finding', () => {
    const repeats = compareRepeats([run(300), run(310), run(305)], null);
    expect(repeats).toMatchObject({
      count: 3,
      mean: 305,
      range: 10,
      limit: 30.5,
      limitFrom: '10 % of the mean',
    });
    expect(repeats).toMatchObject({ standardDeviation: 5, repeatable: true, finding: 'pass', reasons: [] });
  });

  it('with small volumes may differ by two marks of the vessel', () => {
    const repeats = compareRepeats([run(20, 'fail low'), run(30, 'fail low')], null);
    expect(repeats).toMatchObject({
      limit: 10,
      limitFrom: '2 graduations',
      repeatable: true,
      finding: 'fail low',
    });
  });

  it('are held to the limit of the sheet where it states one, exactly', () => {
    expect(compareRepeats([run(300), run(312)], 12)).toMatchObject({ limitFrom: 'sheet', repeatable: true });
    expect(compareRepeats([run(300), run(312.1)], 12)).toMatchObject({ repeatable: false, finding: null });
  });

  it('a sheet that states 2.8 times the repeatability standard deviation (ISO 5725-6) is used as it stands', () => {
    // check-values.md C: r = 1.96 * sqrt2 * s_r = 2.7718 s_r.
    const limit = 2.7718 * 4;
    expect(compareRepeats([run(300), run(311)], limit).repeatable).toBe(true);
    expect(compareRepeats([run(300), run(311.2)], limit).repeatable).toBe(false);
  });

  it('that scatter say by how much and what would have been allowed', () => {
    const repeats = compareRepeats([run(200), run(240)], null);
    expect(codes(repeats.reasons)).toEqual(['check.not-repeatable']);
    const [text] = repeats.reasons.map((each) => describeProblem(each).message);
    expect(text).toBe('The runs differ by 40 mL; up to 22 mL (10 % of their mean) would be repeatable.');
  });

  it.each([
    // By hand: a tenth of the mean of 2000 and 2400 is 220.
    ['ms', 'The runs differ by 0.4 s; up to 0.22 s (10 % of their mean) would be repeatable.'],
    ['mL/min', 'The runs differ by 400 mL/min; up to 220 mL/min (10 % of their mean) would be repeatable.'],
    ['kPa', 'The runs differ by 400 kPa; up to 220 kPa (10 % of their mean) would be repeatable.'],
  ] as const)('that scatter say so in the unit that is read, kept in %s', (unit, words) => {
    const [reason] = compareRepeats([run(2000), run(2400)], null, unit).reasons;
    expect(describeProblem(reason!).message).toBe(words);
  });

  it('with different verdicts say which, even when the numbers agree', () => {
    const repeats = compareRepeats([run(279, 'marginal'), run(281, 'pass')], null);
    expect(repeats).toMatchObject({ repeatable: true, finding: null });
    const [text] = repeats.reasons.map((each) => describeProblem(each).message);
    expect(text).toContain('marginal, pass');
  });

  it('that are all too close to call are no finding', () => {
    const repeats = compareRepeats([run(280, 'too close to call'), run(281, 'too close to call')], null);
    expect(codes(repeats.reasons)).toEqual(['check.runs-too-close']);
    expect(repeats.finding).toBeNull();
  });

  it('one alone is not believed, and runs that are not valid do not count', () => {
    const repeats = compareRepeats([run(300), run(900, 'not valid'), run(null, 'not valid')], null);
    expect(repeats).toMatchObject({ count: 1, repeatable: null, finding: null });
    expect(codes(repeats.reasons)).toEqual(['check.one-run']);
    expect(compareRepeats([], null)).toMatchObject({ count: 0, repeatable: null, finding: null });
  });

  it('do not depend on their order, and a wider scatter is never more repeatable', () => {
    const values = fc.array(fc.double({ min: 1, max: 900, noNaN: true }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(values, fc.double({ min: 0, max: 100, noNaN: true }), (list, more) => {
        const forward = compareRepeats(
          list.map((value) => run(value)),
          50,
        );
        const backward = compareRepeats(
          [...list].reverse().map((value) => run(value)),
          50,
        );
        expect(backward.repeatable).toBe(forward.repeatable);
        const wider = [...list, Math.max(...list) + more];
        if (!forward.repeatable)
          expect(
            compareRepeats(
              wider.map((value) => run(value)),
              50,
            ).repeatable,
          ).toBe(false);
      }),
    );
  });
});
