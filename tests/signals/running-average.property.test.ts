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
const meanOf = (spanMs: number, pairs: readonly Pair[]) =>
  windowMean(pairs.map(reading).reduce(slideWindow, emptyWindow(millis(spanMs))));
const runOf = (value: fc.Arbitrary<number | null>) =>
  fc.array(fc.tuple(fc.integer({ min: 1, max: 90 }), value), { minLength: 2, maxLength: 60 }).map((steps) => {
    let atMs = 0;
    return steps.map(([step, each]): Pair => [(atMs += step), each]);
  });
const number = fc.integer({ min: -500, max: 500 });

describe('the mean', () => {
  test('lies between the smallest and the largest value', () => {
    fc.assert(
      fc.property(runOf(fc.option(number)), (run) => {
        const mean = meanOf(1000, run);
        const values = run.flatMap(([, value]) => (value === null ? [] : [value]));
        if (mean === null) return;
        expect(mean).toBeGreaterThanOrEqual(Math.min(...values) - 1e-9);
        expect(mean).toBeLessThanOrEqual(Math.max(...values) + 1e-9);
      }),
    );
  });
  test('of a constant is the constant, whatever the times', () => {
    fc.assert(
      fc.property(runOf(fc.constant(183)), fc.integer({ min: 90, max: 2000 }), (run, spanMs) => {
        expect(meanOf(spanMs, run)).toBeCloseTo(183, 9);
      }),
    );
  });
  test('of a straight line is the value in the middle of the window', () => {
    fc.assert(
      fc.property(runOf(fc.constant(0)), fc.integer({ min: 90, max: 3000 }), (run, spanMs) => {
        const line = run.map(([atMs]): Pair => [atMs, 3 * atMs + 7]);
        const endMs = line.at(-1)![0];
        const fromMs = Math.max(line[0]![0], endMs - spanMs);
        expect(meanOf(spanMs, line)).toBeCloseTo((3 * (fromMs + endMs)) / 2 + 7, 6);
      }),
    );
  });
  test('does not depend on where time begins', () => {
    fc.assert(
      fc.property(runOf(number), fc.integer({ min: -1e6, max: 1e6 }), (run, shiftMs) => {
        const moved = run.map(([atMs, value]): Pair => [atMs + shiftMs, value]);
        expect(meanOf(400, moved)).toBeCloseTo(meanOf(400, run)!, 6);
      }),
    );
  });
  test('is not changed by a further point on the line', () => {
    fc.assert(
      fc.property(runOf(number), (run) => {
        const fine = run.flatMap(([atMs, value], i): Pair[] => {
          const before = run[i - 1];
          if (!before) return [[atMs, value]];
          return [
            [(before[0] + atMs) / 2, (before[1]! + value!) / 2],
            [atMs, value],
          ];
        });
        expect(meanOf(700, fine)).toBeCloseTo(meanOf(700, run)!, 6);
      }),
    );
  });
  test('does not look at what lies before the window', () => {
    fc.assert(
      fc.property(runOf(number), runOf(number), (old, run) => {
        const startMs = old.at(-1)![0] + 10;
        const later = run.map(([atMs, value]): Pair => [startMs + atMs, value]);
        const spanMs = later.at(-1)![0] - later[0]![0]; // the first of `later` is at the very edge
        fc.pre(spanMs >= 90);
        expect(meanOf(spanMs, [...old, ...later])).toBeCloseTo(meanOf(spanMs, later)!, 6);
      }),
    );
  });
});

describe('edges by hand', () => {
  test.each<[why: string, spanMs: number, pairs: readonly Pair[], mean: number | null]>([
    [
      'an interval just as long as the window counts',
      100,
      [
        [0, 0],
        [100, 100],
      ],
      50,
    ],
    [
      'a longer one does not: the last number',
      100,
      [
        [0, 0],
        [101, 100],
      ],
      100,
    ],
    [
      'two readings of one instant make a step',
      1000,
      [
        [0, 10],
        [100, 10],
        [100, 30],
        [200, 30],
      ],
      20,
    ],
    [
      'two readings of one instant alone: the last',
      1000,
      [
        [0, 10],
        [0, 30],
      ],
      30,
    ],
    [
      'time counts, not readings: 150 ms of 0 to 0 and 50 ms of 0 to 80',
      1000,
      [
        [0, 0],
        [150, 0],
        [200, 80],
      ],
      10,
    ],
    [
      'a missing last reading keeps the mean of the rest',
      1000,
      [
        [0, 10],
        [100, 20],
        [200, null],
      ],
      15,
    ],
    [
      'numbers alone between missing ones: the last of them',
      1000,
      [
        [0, 5],
        [10, null],
        [20, 7],
        [30, null],
      ],
      7,
    ],
    [
      'a number that slid out is gone',
      100,
      [
        [0, 5],
        [101, null],
      ],
      null,
    ],
    [
      'a number at the very edge is still there',
      100,
      [
        [0, 5],
        [100, null],
      ],
      5,
    ],
    [
      'backwards by any step begins anew',
      1000,
      [
        [0, 100],
        [100, 100],
        [99.9, 7],
        [199.9, 9],
      ],
      8,
    ],
  ])('%s', (_, spanMs, pairs, mean) => {
    if (mean === null) expect(meanOf(spanMs, pairs)).toBeNull();
    else expect(meanOf(spanMs, pairs)).toBeCloseTo(mean, 9);
  });
});

describe('runningAverage over marbles', () => {
  const run = (body: Parameters<TestScheduler['run']>[0]) =>
    new TestScheduler((actual, expected) => expect(actual).toEqual(expected)).run(body);
  const values = {
    a: reading([0, 100]),
    b: reading([100, 200]),
    g: reading([5000, 400]),
    n: reading([5100, null]),
    r: reading([50, 8]),
  };
  // By hand, window 1000 ms: b (100 + 200) / 2; g after a hole longer than the window: itself; n keeps it; r runs backwards: itself.
  const means = { a: 100, b: 150, g: 400, n: 400, r: 8 };
  test.each([
    ['a gap, a missing value and time running backwards', '-a-b-g-n-r-|', '^----------!'],
    ['a burst in one frame, then an error', '-(abgnr)-#', '^--------!'],
    ['an error at once', '#', '(^!)'],
    ['completion at once', '|', '(^!)'],
    ['a source that goes on after its last reading', 'a-----', '^'],
  ])('%s', (_, source, subscription) => {
    run(({ cold, expectObservable, expectSubscriptions }) => {
      const reading$ = cold(source, values);
      expectObservable(reading$.pipe(runningAverage(millis(1000)))).toBe(source, means);
      expectSubscriptions(reading$.subscriptions).toBe(subscription);
    });
  });
  test('unsubscribed within a burst it gives what came before and lets go', () => {
    run(({ hot, expectObservable, expectSubscriptions }) => {
      const reading$ = hot('-a-(bg)-n-|', values);
      expectObservable(reading$.pipe(runningAverage(millis(1000))), '^-!').toBe('-a', means);
      expectSubscriptions(reading$.subscriptions).toBe('^-!');
    });
  });
  test('a late subscriber to a running source begins with an empty window', () => {
    run(({ hot, expectObservable, expectSubscriptions }) => {
      const reading$ = hot('-a-b-|', values);
      expectObservable(reading$.pipe(runningAverage(millis(1000))), '--^').toBe('---b-|', { b: 200 });
      expectSubscriptions(reading$.subscriptions).toBe('--^--!');
    });
  });
});
