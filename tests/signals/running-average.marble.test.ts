import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TestScheduler } from 'rxjs/testing';
import type { Reading } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { emptyWindow, runningAverage, slideWindow, windowMean } from '../../src/signals/running-average.ts';

type Pair = readonly [atMs: number, value: number | null];
const reading = ([atMs, value]: Pair): Reading => ({
  signal: 'engineSpeed',
  atMs: millis(atMs),
  value,
  quality: value === null ? 'notAvailable' : 'valid',
  origin: 0,
});
const meanOf = (spanMs: number, ...pairs: Pair[]) =>
  windowMean(pairs.map(reading).reduce(slideWindow, emptyWindow(millis(spanMs))));

describe('the reducer', () => {
  test('the crank profile of check-values.md G has a time-weighted mean of 183.533333', () => {
    const t = [0, 0.5, 1.1, 2.3, 4, 4.1, 7.7, 9.2, 13.6, 15];
    const n = [0, 150, 210, 196, 188, 192, 185, 187, 181, 178];
    expect(meanOf(15_000, ...t.map((s, i): Pair => [s * 1000, n[i]!]))).toBeCloseTo(183.533333, 6);
  });
  test('a ramp on irregular times has its exact mean, 160 (check-values.md G)', () => {
    const t = [0, 0.31, 0.74, 1.52, 2, 3.1, 4.75, 5.5, 7.2, 8.8, 10];
    expect(meanOf(10_000, ...t.map((s): Pair => [s * 1000, 120 + 8 * s]))).toBeCloseTo(160, 9);
  });
  test('the window cuts the first interval by interpolation', () => {
    // From 50 to 200 ms of a line from 0 to 200: mean 125, by hand.
    expect(meanOf(150, [0, 0], [100, 100], [200, 200])).toBe(125);
  });
  test('nothing is counted across a missing value or a hole longer than the window', () => {
    expect(meanOf(1000, [0, 100], [100, 100], [200, null], [300, 300], [400, 300])).toBe(200);
    expect(meanOf(100, [0, 100], [500, 300])).toBe(300);
  });
  test('time that runs backwards begins anew', () => {
    expect(meanOf(1000, [500, 100], [600, 100], [10, 7])).toBe(7);
  });
  test('there is no mean without numbers', () => {
    expect(meanOf(1000)).toBeNull();
    expect(meanOf(1000, [0, null])).toBeNull();
  });
});

/** The definition in measurement terms, straight over all points: an oracle that shares no code with the sums kept by the window. */
function plainMean(spanMs: number, pairs: readonly Pair[]): number | null {
  const endMs = pairs.at(-1)?.[0] ?? 0;
  let area = 0;
  let time = 0;
  for (let i = 1; i < pairs.length; i++) {
    const [a, left] = pairs[i - 1]!;
    const [b, right] = pairs[i]!;
    if (left === null || right === null || b - a > spanMs || b <= endMs - spanMs || a === b) continue;
    const from = Math.max(a, endMs - spanMs);
    const atFrom = left + ((right - left) * (from - a)) / (b - a);
    area += ((atFrom + right) * (b - from)) / 2;
    time += b - from;
  }
  if (time > 0) return area / time;
  return pairs.findLast(([atMs, value]) => value !== null && atMs >= endMs - spanMs)?.[1] ?? null;
}

const pairsOf = fc
  .array(fc.tuple(fc.nat(400), fc.option(fc.integer({ min: 0, max: 3000 }), { freq: 6 })), { maxLength: 300 })
  .map((steps) => {
    let atMs = 0;
    return steps.map(([step, value]): Pair => [(atMs += step), value]);
  });

describe('the window kept by sums', () => {
  test('equals the mean computed over all points, at every reading', () => {
    fc.assert(
      fc.property(pairsOf, fc.integer({ min: 50, max: 3000 }), (pairs, spanMs) => {
        let window = emptyWindow(millis(spanMs));
        pairs.forEach((pair, i) => {
          window = slideWindow(window, reading(pair));
          const mean = windowMean(window);
          const plain = plainMean(spanMs, pairs.slice(0, i + 1));
          if (plain === null) expect(mean).toBeNull();
          else expect(mean).toBeCloseTo(plain, 6);
        });
      }),
      { numRuns: 60 },
    );
  });

  test('an older window still reads right, and two that go on from it do not meet', () => {
    const older = [
      [0, 100],
      [100, 100],
    ]
      .map((pair) => reading(pair as [number, number]))
      .reduce(slideWindow, emptyWindow(millis(1000)));
    const up = slideWindow(older, reading([200, 300]));
    const down = slideWindow(older, reading([200, 0]));
    expect([older, up, down].map(windowMean)).toEqual([100, 150, 75]); // by hand: (100 + 200) / 2 and (100 + 50) / 2
  });

  test('keeps no more than a few windows of points, however long it runs', () => {
    let window = emptyWindow(millis(1000));
    for (let i = 0; i < 20_000; i++) window = slideWindow(window, reading([10 * i, i % 7]));
    expect(window.points.atMs.length).toBeLessThan(400);
    expect(window.length - window.first).toBe(102); // 101 in a closed second at 100 a second, and the one before
  });

  test.each([NaN, Infinity, -Infinity])('%s counts as missing', (value) => {
    expect(meanOf(1000, [0, 100], [100, 100], [200, value], [300, 300], [400, 300])).toBe(200);
  });
});

const marbles = (body: Parameters<TestScheduler['run']>[0]) =>
  new TestScheduler((actual, expected) => expect(actual).toEqual(expected)).run(body);
const values = { a: reading([0, 100]), b: reading([100, 200]), c: reading([200, null]) };
const means = { a: 100, b: 150, c: 150 };

describe('runningAverage', () => {
  const cases: readonly [name: string, source: string, expected: string, subscription: string][] = [
    ['emits once a reading and completes with its source', '-a-b-|', '-a-b-|', '^----!'],
    ['passes on a source error', '-a-#', '-a-#', '^--!'],
    ['completes on an empty source', '--|', '--|', '^-!'],
    ['stays silent on a source that never emits', '-', '-', '^'],
    ['emits for each of a burst in one frame', '-(abc|)', '-(abc|)', '^!'],
    ['keeps its mean over a missing reading', '-a-b-c-|', '-a-b-c-|', '^------!'],
  ];
  test.each(cases)('%s', (_, source, expected, subscription) => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const reading$ = cold(source, values);
      expectObservable(reading$.pipe(runningAverage(millis(1000)))).toBe(expected, means);
      expectSubscriptions(reading$.subscriptions).toBe(subscription);
    });
  });
  test('lets go of its source when unsubscribed early', () => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const reading$ = cold('-a-b-c-|', values);
      expectObservable(reading$.pipe(runningAverage(millis(1000))), '^---!').toBe('-a-b', means);
      expectSubscriptions(reading$.subscriptions).toBe('^---!');
    });
  });
  test('two subscribers share no state', () => {
    marbles(({ cold, expectObservable }) => {
      const mean$ = cold('ab|', values).pipe(runningAverage(millis(1000)));
      expectObservable(mean$).toBe('ab|', means);
      expectObservable(mean$).toBe('ab|', means);
    });
  });
});
