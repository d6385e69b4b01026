import { describe, expect, test } from 'vitest';
import {
  freshness,
  staleAfterMs,
  usualIntervalMs,
  type FreshnessState,
} from '../../src/signals/freshness.ts';
import { append, columns, createTrace } from '../../src/signals/growing-trace.ts';

const traceAt = (times: readonly number[], value = 1) =>
  columns(
    append(
      createTrace(),
      times.map((atMs) => ({ atMs, value, quality: Number.isNaN(value) ? 2 : 0 })),
    ),
  );
const every = (ms: number, rows = 30) => Array.from({ length: rows }, (_, i) => i * ms);

/** By hand from measurement.md 1: stale after three usual intervals, at least 1 s. Lost after 10 s (common practice, no source). */
const RATES: readonly [rate: string, intervalMs: number, staleMs: number][] = [
  ['100 a second', 10, 1000],
  ['50 a second', 20, 1000],
  ['10 a second', 100, 1000],
  ['3 a second', 1000 / 3, 1000],
  ['2 a second', 500, 1500],
  ['1 a second', 1000, 3000],
  ['every 10 s', 10_000, 30_000],
];

describe.each(RATES)('a signal that comes %s', (_, intervalMs, staleMs) => {
  const times = every(intervalMs);
  const trace = traceAt(times);
  const lastMs = times.at(-1)!;
  const stateAt = (ageMs: number) => freshness(trace, lastMs + ageMs).state;

  test('has its interval as the usual one, and its limit', () => {
    expect(usualIntervalMs(trace)).toBeCloseTo(intervalMs, 6);
    expect(staleAfterMs(trace)).toBeCloseTo(staleMs, 6);
  });
  test('is fresh up to its limit and not a moment longer', () => {
    expect(stateAt(0)).toBe('fresh');
    expect(stateAt(intervalMs)).toBe('fresh');
    expect(stateAt(staleMs - 0.01)).toBe('fresh');
    expect(stateAt(staleMs + 0.01)).toBe(staleMs > 10_000 ? 'lost' : 'stale');
  });
  test('is lost after ten seconds, or after its limit where that is longer', () => {
    const lostMs = Math.max(10_000, staleMs);
    expect(stateAt(lostMs - 0.01)).toBe(staleMs > 10_000 ? 'fresh' : 'stale');
    expect(stateAt(lostMs + 0.01)).toBe('lost');
  });
});

test.each<[ageMs: number, state: FreshnessState]>([
  [1000, 'fresh'],
  [1000.001, 'stale'],
  [10_000, 'stale'],
  [10_000.001, 'lost'],
])('at just %s ms a single row is %s, for it has no usual interval', (ageMs, state) => {
  expect(freshness(traceAt([0]), ageMs)).toEqual({ state, ageMs });
});

describe('the usual interval', () => {
  test('is not known from one row or none', () => {
    expect([traceAt([]), traceAt([5])].map(usualIntervalMs)).toEqual([null, null]);
  });
  test('is the middle one of an odd number and the mean of the two middle ones of an even number', () => {
    expect(usualIntervalMs(traceAt([0, 7]))).toBe(7);
    expect(usualIntervalMs(traceAt([0, 10, 110, 140]))).toBe(30);
    expect(usualIntervalMs(traceAt([0, 10, 110, 140, 200]))).toBe(45);
  });
  test('is ordered as numbers are, not as their letters', () => {
    expect(usualIntervalMs(traceAt([0, 9, 109, 1109]))).toBe(100); // as text: 100, 1000, 9
  });
  test('looks at the last twenty intervals only', () => {
    const slow = every(1000, 12); // 11 intervals of 1000
    const fast = Array.from({ length: 9 }, (_, i) => 11_000 + 10 * (i + 1));
    expect(usualIntervalMs(traceAt([...slow, ...fast]))).toBe(1000); // 11 of 20 are slow
    expect(usualIntervalMs(traceAt([...slow, ...fast, 11_100]))).toBe(505); // 10 and 10
    expect(usualIntervalMs(traceAt([...slow, ...fast, 11_100, 11_110]))).toBe(10);
  });
  test('is not moved by one long hole', () => {
    expect(usualIntervalMs(traceAt([...every(10, 15), 60_000, 60_010]))).toBe(10);
  });
  test('does not look at room beyond the rows', () => {
    const roomy = { ...traceAt(every(10, 3)), length: 2 };
    expect(usualIntervalMs(roomy)).toBe(10);
    expect(freshness(roomy, 15).ageMs).toBe(5);
  });
});

test('rows that say "not available" are news', () => {
  expect(freshness(traceAt([0, 500], NaN), 600)).toEqual({ state: 'fresh', ageMs: 100 });
});

test('before the last row the age is zero, never negative', () => {
  expect(freshness(traceAt([5000]), 10)).toEqual({ state: 'fresh', ageMs: 0 });
});
