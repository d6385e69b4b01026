import { describe, expect, it } from 'vitest';
import { SPEED_SPIKE, cleanRows, rowAt, rowsWithin, valueAt } from '../../src/signals/clean-rows.ts';
import { traceFromPoints, type Point } from '../checks/example-signals.ts';

const every = (ms: number, values: readonly (number | null)[]): readonly Point[] =>
  values.map((value, place) => [place * ms, value]);
const clean = (values: readonly (number | null)[], floor = 10, ms = 100) =>
  cleanRows(traceFromPoints(every(ms, values)), { floor, share: 0 });
const kept = (rows: ReturnType<typeof clean>) => [...rows.value.subarray(0, rows.count)];

describe('cleanRows', () => {
  it('leaves out missing values and keeps the times of the others', () => {
    const rows = clean([1, null, 3, null, null, 6]);
    expect(kept(rows)).toEqual([1, 3, 6]);
    expect([...rows.atMs.subarray(0, rows.count)]).toEqual([0, 200, 500]);
  });

  it('leaves out a single spike upwards and downwards, and counts them', () => {
    const rows = clean([100, 100, 900, 100, 101, 0, 99]);
    expect(kept(rows)).toEqual([100, 100, 100, 101, 99]);
    expect(rows.spikes).toBe(2);
  });

  it('keeps two values in a row that are far away: they are no single spike', () => {
    expect(kept(clean([100, 900, 900, 100]))).toEqual([100, 900, 900, 100]);
  });

  it('keeps a step, a ramp and what is just within the rule', () => {
    expect(kept(clean([0, 0, 500, 500]))).toEqual([0, 0, 500, 500]);
    expect(kept(clean([0, 100, 200, 300]))).toEqual([0, 100, 200, 300]);
    expect(kept(clean([100, 110, 100]))).toEqual([100, 110, 100]); // exactly 10 outside
    expect(kept(clean([100, 110.1, 100]))).toEqual([100, 100]);
  });

  it('believes the first and the last value, which have one neighbour', () => {
    expect(kept(clean([900, 100, 100, 900]))).toEqual([900, 100, 100, 900]);
  });

  it('judges a spike among its true neighbours where values are missing around it', () => {
    expect(kept(clean([100, null, 900, null, 100]))).toEqual([100, 100]);
  });

  it('lets an engine speed leap by half of the greater neighbour', () => {
    const speed = (rpm: number) => cleanRows(traceFromPoints(every(20, [600, rpm, 600])), SPEED_SPIKE).count;
    expect([900, 901, 300, 299].map(speed)).toEqual([3, 2, 3, 2]);
  });

  it('has no rows of an empty trace and of none', () => {
    expect(cleanRows(null, SPEED_SPIKE).count).toBe(0);
    expect(clean([null, null]).count).toBe(0);
  });

  it.each([
    [20, 1000],
    [400, 1200],
    [1000, 3000],
  ])('calls three intervals of %i ms a hole, but at least a second: %i ms', (ms, holeMs) => {
    expect(clean([1, 2, 3, 4, 5, 6, 7], 10, ms).holeMs).toBe(holeMs);
  });

  it('keeps its hole where one interval is long', () => {
    const points: Point[] = [...every(500, [1, 2, 3, 4]), [60_000, 5]];
    expect(cleanRows(traceFromPoints(points), SPEED_SPIKE).holeMs).toBe(1500);
  });
});

describe('rows at an instant', () => {
  const rows = clean([0, 10, 20, 20]);

  it.each([
    [-1, -1],
    [0, 0],
    [99, 0],
    [100, 1],
    [5000, 3],
  ])('at %i ms the last row is %i', (t, row) => expect(rowAt(rows, t)).toBe(row));

  it('lie on the straight line between two rows', () => {
    expect([0, 50, 100, 125].map((t) => valueAt(rows, t))).toEqual([0, 5, 10, 12.5]);
  });

  it('have no value before the first, after the last and within a hole', () => {
    expect(valueAt(rows, -1)).toBeNaN();
    expect(valueAt(rows, 301)).toBeNaN();
    expect(valueAt(rows, 300)).toBe(20);
    const holed = cleanRows(
      traceFromPoints([
        [0, 1],
        [100, 1],
        [200, 1],
        [5000, 1],
      ]),
      SPEED_SPIKE,
    );
    expect(valueAt(holed, 1000)).toBeNaN();
    expect(valueAt(holed, 5000)).toBe(1);
  });
});

describe('rows within a stretch', () => {
  const rows = clean([0, 1, 2, 3, 4]);
  const within = (from: number, to: number) => {
    const cut = rowsWithin(rows, from, to);
    return [...cut.value.subarray(0, cut.count)];
  };

  it('hold both ends', () => expect(within(100, 300)).toEqual([1, 2, 3]));
  it('hold what lies between where the ends are no rows', () => expect(within(101, 299)).toEqual([2]));
  it('are none where the stretch lies between two rows, outside, or is turned round', () => {
    expect(within(110, 190)).toEqual([]);
    expect(within(900, 1000)).toEqual([]);
    expect(within(-10, -5)).toEqual([]);
    expect(within(300, 100)).toEqual([]);
  });
  it('are all where it is open', () => expect(within(-Infinity, Infinity)).toEqual([0, 1, 2, 3, 4]));
});
