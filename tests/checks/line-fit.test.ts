import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine } from '../../src/checks/line-fit.ts';

const there = <T>(value: T | null): T => {
  if (value === null) throw new Error('no fit');
  return value;
};

describe('fitLine', () => {
  it('gives back a line that the points lie on', () => {
    const fit = there(fitLine([0, 1, 2, 5], [3, 5, 7, 13]));
    expect(fit.slope).toBeCloseTo(2, 12);
    expect(fit.intercept).toBeCloseTo(3, 12);
    expect(fit.residual).toBeCloseTo(0, 12);
    expect(fit.bow).toBeCloseTo(0, 12);
  });

  /*
   * Worked by hand: x 1 2 3 4, y 2 4 5 4. Means 2.5 and 3.75; Sxx 5, Sxy 3.5; slope 0.7, intercept 2. Residuals −0.7, 0.6, 0.9, −0.8: squares
   * 0.49 + 0.36 + 0.81 + 0.64 = 2.3; s = √(2.3/2) = 1.07238; u(slope) = 1.07238/√5 = 0.479583.
   */
  it('agrees with a fit that was worked by hand', () => {
    const fit = there(fitLine([1, 2, 3, 4], [2, 4, 5, 4]));
    expect(fit.slope).toBeCloseTo(0.7, 12);
    expect(fit.intercept).toBeCloseTo(2, 12);
    expect(fit.residual).toBeCloseTo(1.07238, 5);
    expect(fit.slopeUncertainty).toBeCloseTo(0.479583, 6);
    // The parabola's own part: arch +1, −1, −1, +1 (x² − 5x + 5 … about the mean); −3/4 of it; over a chord of 3: 0.75 · 9/4.
    expect(fit.bow).toBeCloseTo(0.75 * 2.25, 9);
  });

  it('says how far a parabola bows out of its chord: c·span²/4', () => {
    const x = Array.from({ length: 11 }, (_, i) => i / 10);
    const fit = there(
      fitLine(
        x,
        x.map((t) => 4 + 3 * t + 2 * t * t),
      ),
    );
    expect(fit.bow).toBeCloseTo(0.5, 9); // 2 · 1²/4
    expect(fit.bowUncertainty).toBeCloseTo(0, 6);
  });

  it('is none below three points, or where all share one x', () => {
    expect(fitLine([], [])).toBeNull();
    expect(fitLine([1, 2], [1, 2])).toBeNull();
    expect(fitLine([1, 1, 1], [1, 2, 3])).toBeNull();
    expect(there(fitLine([1, 2, 3], [1, 2, 4])).bow).toBe(0); // three points tell nothing of a bow
  });

  it('shifts and scales as a line does', () => {
    const point = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
    fc.assert(
      fc.property(
        fc.uniqueArray(point, { minLength: 4, maxLength: 20, selector: ([x]) => x }),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: -9, max: 9 }),
        (points, factor, shift) => {
          const sorted = [...points].sort((a, b) => a[0] - b[0]);
          const x = sorted.map(([each]) => each);
          const plain = there(
            fitLine(
              x,
              sorted.map(([, y]) => y),
            ),
          );
          const moved = there(
            fitLine(
              x,
              sorted.map(([, y]) => factor * y + shift),
            ),
          );
          expect(moved.slope).toBeCloseTo(factor * plain.slope, 6);
          expect(moved.intercept).toBeCloseTo(factor * plain.intercept + shift, 6);
          expect(moved.residual).toBeCloseTo(factor * plain.residual, 6);
          expect(moved.bow).toBeCloseTo(factor * plain.bow, 5);
        },
      ),
    );
  });

  it('leaves residuals that sum to nothing, alone and with x', () => {
    const y = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(y, (values) => {
        const x = values.map((_, i) => i);
        const { slope, intercept } = there(fitLine(x, values));
        const left = values.map((value, i) => value - intercept - slope * i);
        expect(left.reduce((sum, each) => sum + each, 0)).toBeCloseTo(0, 6);
        expect(left.reduce((sum, each, i) => sum + i * each, 0)).toBeCloseTo(0, 4);
      }),
    );
  });
});
