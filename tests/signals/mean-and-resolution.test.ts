import { describe, expect, it } from 'vitest';
import { NO_ORIGIN } from '../../src/quantities/reading.ts';
import { cleanRows } from '../../src/signals/clean-rows.ts';
import { meanOver } from '../../src/signals/mean-over.ts';
import { stepOf } from '../../src/signals/resolution.ts';
import { traceFromPoints, type Point } from '../checks/example-signals.ts';

const points: readonly Point[] = [
  [0, 10],
  [1000, 20],
  [2000, null],
  [3000, 40],
  [4000, 90],
];
const trace = traceFromPoints(points);

describe('meanOver', () => {
  it('is the plain mean of the valid values within the spans, both ends included', () => {
    expect(meanOver(trace, [{ startMs: 1000, endMs: 3000 }])).toBe(30);
    expect(
      meanOver(trace, [
        { startMs: 0, endMs: 500 },
        { startMs: 3000, endMs: 4000 },
      ]),
    ).toBeCloseTo(140 / 3, 9);
  });

  it('is the last value before the end of the last span where nothing was sent within', () => {
    expect(meanOver(trace, [{ startMs: 1100, endMs: 1900 }])).toBe(20);
    expect(meanOver(trace, [{ startMs: 1500, endMs: 2500 }])).toBe(20);
  });

  it('is the last value of all without a span, and null where nothing was heard by then', () => {
    expect(meanOver(trace, [])).toBe(90);
    expect(meanOver(trace, [{ startMs: -9, endMs: -5 }])).toBeNull();
    expect(meanOver(traceFromPoints([[0, null]]), [])).toBeNull();
  });
});

describe('stepOf', () => {
  const rowsOf = (...values: readonly number[]) =>
    cleanRows(traceFromPoints(values.map((value, place) => [place * 100, value])), {
      floor: Infinity,
      share: 0,
    });

  // Resolution of SAE J1939-71 as in ../shared/reference/j1939.md: SPN 94 4 kPa/bit, SPN 157 1/256 MPa/bit, SPN 190 0.125 rpm/bit.
  it.each([
    ['supplyPressure', 4],
    ['railPressure', 1000 / 256],
    ['engineSpeed', 0.125],
  ] as const)('of %s from the bus is what its parameter says: %f', (signal, step) => {
    expect(stepOf(signal, 0, rowsOf(500, 500))).toBeCloseTo(step, 9);
  });

  it('of a log is the smallest step between two neighbours', () => {
    expect(stepOf('supplyPressure', NO_ORIGIN, rowsOf(500, 510, 505, 505, 530))).toBe(5);
    expect(stepOf('supplyPressure', NO_ORIGIN, rowsOf(500, 500))).toBe(0);
    expect(stepOf('supplyPressure', NO_ORIGIN, rowsOf())).toBe(0);
  });
});
