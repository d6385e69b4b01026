import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { downSample } from '../../src/signals/down-sample.ts';
import { freshness, staleAfterMs, usualIntervalMs } from '../../src/signals/freshness.ts';
import { append, columns, createTrace, lowerBound, type TraceRow } from '../../src/signals/growing-trace.ts';

const row = (atMs: number, value: number): TraceRow => ({
  atMs,
  value,
  quality: Number.isNaN(value) ? 2 : 0,
});
const traceOf = (rows: readonly TraceRow[]) => columns(append(createTrace(), rows));
const rows = fc
  .array(
    fc.record({
      step: fc.nat(3000),
      value: fc.oneof(fc.double({ min: -9, max: 9, noNaN: true }), fc.constant(NaN)),
    }),
  )
  .map((steps) => {
    let atMs = 0;
    return steps.map(({ step, value }) => row((atMs += step), value));
  });

describe('a trace', () => {
  test('never changes what it held, however it is appended to', () => {
    fc.assert(
      fc.property(rows, rows, (first, second) => {
        const older = append(createTrace(), first);
        const before = columns(older).value.slice(0, older.length);
        append(older, second);
        append(older, [row(0, 1)]);
        expect(columns(older).value.slice(0, older.length)).toEqual(before);
      }),
    );
  });

  test('time never falls and rows without time are left out', () => {
    const trace = traceOf([row(5, 1), row(3, 2), row(NaN, 3), row(9, 4)]);
    expect([...trace.atMs.subarray(0, trace.length)]).toEqual([5, 5, 9]);
  });

  test('lowerBound finds the first row at or after an instant', () => {
    const times = Float64Array.of(1, 2, 2, 5, 0);
    expect([0, 1, 2, 3, 5, 6].map((t) => lowerBound(times, 4, t))).toEqual([0, 0, 1, 3, 3, 4]);
  });
});

describe('freshness', () => {
  const every = (ms: number, n: number) => traceOf(Array.from({ length: n }, (_, i) => row(i * ms, 1)));
  test('the usual interval is the median of the last twenty', () => {
    expect(usualIntervalMs(traceOf([row(0, 1)]))).toBeNull();
    expect(usualIntervalMs(traceOf([row(0, 1), row(10, 1), row(110, 1)]))).toBe(55);
    const slowThenFast = traceOf(
      Array.from({ length: 60 }, (_, i) => row(i < 30 ? i * 1000 : 30_000 + i, 1)),
    );
    expect(usualIntervalMs(slowThenFast)).toBe(1);
  });
  test('stale after three usual intervals, at least one second (measurement.md 1)', () => {
    expect([10, 333, 500, 1000].map((ms) => staleAfterMs(every(ms, 30)))).toEqual([1000, 1000, 1500, 3000]);
  });
  test('goes from waiting through fresh and stale to lost', () => {
    expect(freshness(traceOf([]), 5)).toEqual({ state: 'waiting', ageMs: null });
    const trace = every(500, 5); // last at 2000
    expect([2000, 3500, 3501, 12_000, 12_001].map((now) => freshness(trace, now).state)).toEqual([
      'fresh',
      'fresh',
      'stale',
      'stale',
      'lost',
    ]);
    expect(freshness(trace, 1000)).toEqual({ state: 'fresh', ageMs: 0 });
  });
});

describe('downSample', () => {
  const window = { fromMs: 0, toMs: 10_000, pixels: 10, staleMs: 1000 };

  test('obeys uPlot and keeps the extreme values of the window and its two neighbours, on any trace', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 50 }), fc.nat(12_000), (some, pixels, fromMs) => {
        const { x, y } = downSample(traceOf(some), { ...window, fromMs, toMs: fromMs + 8000, pixels });
        expect(x.length).toBe(y.length);
        for (let i = 1; i < x.length; i++) expect(x[i]!).toBeGreaterThan(x[i - 1]!);
        const from = some.findIndex(({ atMs }) => atMs >= fromMs);
        const to = some.findLastIndex(({ atMs }) => atMs <= fromMs + 8000);
        const none = from < 0 || (from > to && (from === 0 || to === some.length - 1));
        const seen = (none ? [] : some.slice(Math.max(0, from - 1), to + 2))
          .map(({ value }) => value)
          .filter((value) => !Number.isNaN(value));
        const drawn = y.filter((value) => value !== null);
        expect(Math.max(...drawn)).toBe(Math.max(...seen));
        expect(Math.min(...drawn)).toBe(Math.min(...seen));
        expect(x.length).toBeLessThanOrEqual(5 * pixels + 9);
      }),
    );
  });

  test('the row before the window and the one after it are drawn, so that the line reaches its edges', () => {
    const trace = traceOf([row(0, 1), row(900, 2), row(1500, 3), row(2100, 4), row(2900, 5)]);
    const inside = { ...window, fromMs: 1000, toMs: 2000 };
    expect(downSample(trace, inside)).toEqual({ x: [900, 1500, 2100], y: [2, 3, 4] });
    expect(downSample(trace, { ...inside, fromMs: 1000, toMs: 1400 })).toEqual({ x: [900, 1500], y: [2, 3] });
  });

  test('nothing is drawn in a window before the first row or after the last', () => {
    const trace = traceOf([row(1000, 1), row(2000, 2)]);
    expect(downSample(trace, { ...window, fromMs: 0, toMs: 500 }).x).toEqual([]);
    expect(downSample(trace, { ...window, fromMs: 3000, toMs: 4000 }).x).toEqual([]);
  });

  test('a neighbour beyond a hole is not joined to the window', () => {
    const trace = traceOf([row(0, 1), row(5000, 2)]);
    expect(downSample(trace, { ...window, fromMs: 4000, toMs: 6000 })).toEqual({
      x: [0, 2500, 5000],
      y: [1, null, 2],
    });
  });

  test('a single spike among ten thousand samples is kept at its own time', () => {
    const trace = traceOf(Array.from({ length: 10_000 }, (_, i) => row(i, i === 4567 ? 99 : 1)));
    const { x, y } = downSample(trace, window);
    expect(x[y.indexOf(99)]).toBe(4567);
  });

  test('a hole longer than the stale limit and a missing value break the line', () => {
    expect(downSample(traceOf([row(0, 1), row(500, 2), row(3000, 3)]), { ...window, pixels: 100 })).toEqual({
      x: [0, 500, 1750, 3000],
      y: [1, 2, null, 3],
    });
    expect(
      downSample(traceOf([row(0, 1), row(500, NaN), row(900, 3)]), { ...window, pixels: 100 }).y,
    ).toEqual([1, null, 3]);
  });

  test('an empty or reversed window and no pixels give no points', () => {
    const trace = traceOf([row(1, 1)]);
    for (const bad of [{ toMs: -1 }, { fromMs: NaN }, { pixels: 0 }, { fromMs: 2 }])
      expect(downSample(trace, { ...window, ...bad }).x).toEqual([]);
  });
});
