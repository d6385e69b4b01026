import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cleanRows, type CleanRows } from '../../src/signals/clean-rows.ts';
import { longestSteady, type RowSpan } from '../../src/signals/steady.ts';
import { traceFromPoints } from '../checks/example-signals.ts';

const rowsOf = (values: readonly number[], gaps: readonly number[] = []): CleanRows => {
  let atMs = 0;
  const points = values.map((value, place) => [(atMs += gaps[place] ?? 100), value] as const);
  return cleanRows(traceFromPoints(points), { floor: Infinity, share: 0 });
};

/** The same by looking at each pair of rows: slow, and too simple to be wrong. */
function byLooking(rows: CleanRows, within: number, mayCount: (row: number) => boolean): RowSpan | null {
  let best: RowSpan | null = null;
  for (let first = 0; first < rows.count; first++) {
    let [low, high] = [Infinity, -Infinity];
    for (let last = first; last < rows.count && mayCount(last); last++) {
      if (last > first && rows.atMs[last]! - rows.atMs[last - 1]! > rows.holeMs) break;
      low = Math.min(low, rows.value[last]!);
      high = Math.max(high, rows.value[last]!);
      if (high - low > within) break;
      const spanMs = rows.atMs[last]! - rows.atMs[first]!;
      if (!best || spanMs > rows.atMs[best.last]! - rows.atMs[best.first]!) best = { first, last };
    }
  }
  return best;
}

const spanMs = (rows: CleanRows, span: RowSpan | null) =>
  span ? rows.atMs[span.last]! - rows.atMs[span.first]! : null;

describe('longestSteady', () => {
  it('finds the same length as looking at every pair of rows', () => {
    const value = fc.integer({ min: 0, max: 30 });
    fc.assert(
      fc.property(
        fc.array(value, { maxLength: 40 }),
        fc.array(fc.constantFrom(50, 100, 150, 400, 2000), { minLength: 40, maxLength: 40 }),
        fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
        fc.integer({ min: 0, max: 20 }),
        (values, gaps, counts, within) => {
          const rows = rowsOf(values, gaps);
          const mayCount = (row: number) => counts[row]! || counts[row + 1 === 40 ? 0 : row + 1]!;
          const found = longestSteady(rows, { within, mayCount });
          expect(spanMs(rows, found)).toBe(spanMs(rows, byLooking(rows, within, mayCount)));
        },
      ),
      { numRuns: 500 },
    );
  });

  it('never holds a wider range, a row that may not count, or a hole', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 60 }),
        fc.array(fc.constantFrom(50, 100, 3000), { minLength: 60, maxLength: 60 }),
        fc.integer({ min: 0, max: 59 }),
        (values, gaps, not) => {
          const rows = rowsOf(values, gaps);
          const span = longestSteady(rows, { within: 7, mayCount: (row) => row !== not });
          if (!span) return;
          const held = [...rows.value.subarray(span.first, span.last + 1)];
          expect(Math.max(...held) - Math.min(...held)).toBeLessThanOrEqual(7);
          expect(span.first > not || span.last < not).toBe(true);
          for (let row = span.first + 1; row <= span.last; row++)
            expect(rows.atMs[row]! - rows.atMs[row - 1]!).toBeLessThanOrEqual(rows.holeMs);
        },
      ),
    );
  });

  it('takes the earliest of two that are equally long', () => {
    const rows = rowsOf([0, 0, 0, 50, 0, 0, 0]);
    expect(longestSteady(rows, { within: 1, mayCount: () => true })).toEqual({ first: 0, last: 2 });
  });

  it('goes by time, not by the number of values', () => {
    const rows = rowsOf([0, 0, 0, 0, 50, 0, 0], [10, 10, 10, 10, 10, 10, 900]);
    expect(longestSteady(rows, { within: 1, mayCount: () => true })).toEqual({ first: 5, last: 6 });
  });

  it('finds nothing without rows, or where none may count', () => {
    expect(longestSteady(rowsOf([]), { within: 1, mayCount: () => true })).toBeNull();
    expect(longestSteady(rowsOf([1, 1]), { within: 1, mayCount: () => false })).toBeNull();
  });

  it('reads an hour at 100 a second in one pass', () => {
    const rows = rowsOf(Array.from({ length: 360_000 }, (_, row) => row % 7));
    let looked = 0;
    longestSteady(rows, { within: 10, mayCount: () => (looked++, true) });
    expect(looked).toBeLessThanOrEqual(2 * rows.count);
  });
});
