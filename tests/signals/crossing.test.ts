import { describe, expect, it } from 'vitest';
import { cleanRows } from '../../src/signals/clean-rows.ts';
import { fallThrough, riseThrough } from '../../src/signals/crossing.ts';
import { traceFromPoints } from '../checks/example-signals.ts';

/** A value each 100 ms, no spike rule: what is a crossing is decided here. */
const rowsOf = (...values: readonly number[]) =>
  cleanRows(traceFromPoints(values.map((value, place) => [place * 100, value])), {
    floor: Infinity,
    share: 0,
  });

describe('riseThrough', () => {
  it('lies on the line between the two rows, with their interval / √12', () => {
    const found = riseThrough(rowsOf(0, 40, 80, 120), 50);
    expect(found?.atMs).toBeCloseTo(125, 9); // a quarter of the way from 40 to 80
    expect(found?.standardUncertaintyMs).toBeCloseTo(28.8675, 4); // 100/√12
    expect(found?.row).toBe(2);
  });

  it('is at a row that lies on the level itself', () => {
    expect(riseThrough(rowsOf(0, 50, 60), 50)?.atMs).toBe(100);
  });

  it.each([
    ['starts above', [60, 70, 80]],
    ['starts on the level', [50, 70, 80]],
    ['never reaches it', [0, 20, 49, 49]],
    ['reaches it with the last row only: one row is not enough', [0, 20, 60]],
    ['touches it for a single row', [0, 60, 0, 0]],
    ['has no rows', []],
    ['has one row', [60]],
  ])('is none in a signal that %s', (_, values) => {
    expect(riseThrough(rowsOf(...values), 50)).toBeNull();
  });

  it('passes over a single spike and finds the rise that holds', () => {
    expect(riseThrough(rowsOf(0, 90, 0, 0, 40, 60, 70), 50)?.atMs).toBeCloseTo(450, 9);
  });

  it('is looked for at or after an instant, also between two rows', () => {
    const rows = rowsOf(0, 100, 100, 0, 0, 100, 100);
    expect(riseThrough(rows, 50)?.atMs).toBe(50);
    expect(riseThrough(rows, 50, { fromMs: 50 })?.atMs).toBe(50);
    expect(riseThrough(rows, 50, { fromMs: 51 })?.atMs).toBe(450);
    expect(riseThrough(rows, 50, { fromMs: 451 })).toBeNull();
  });

  it('is looked for before an instant', () => {
    const rows = rowsOf(0, 0, 0, 100, 100);
    expect(riseThrough(rows, 50, { untilMs: 250 })).toBeNull();
    expect(riseThrough(rows, 50, { untilMs: 251 })?.atMs).toBe(250);
  });
});

describe('fallThrough', () => {
  it('mirrors the rise', () => {
    expect(fallThrough(rowsOf(120, 80, 40, 0), 50)?.atMs).toBeCloseTo(175, 9);
    expect(fallThrough(rowsOf(120, 80, 40), 50)).toBeNull();
    expect(fallThrough(rowsOf(120, 0, 120, 120), 50)).toBeNull();
    expect(fallThrough(rowsOf(40, 30, 20), 50)).toBeNull();
  });

  it('is at a row that lies on the level itself', () => {
    expect(fallThrough(rowsOf(80, 50, 20), 50)?.atMs).toBe(100);
  });
});
