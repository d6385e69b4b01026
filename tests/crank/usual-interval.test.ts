import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  intervalWriter,
  NO_INTERVALS,
  putInterval,
  usualIntervalMs,
  type RecentIntervals,
} from '../../src/crank/usual-interval.ts';

function added(recent: RecentIntervals, intervals: readonly number[]): RecentIntervals {
  const writer = intervalWriter(recent);
  for (const ms of intervals) putInterval(writer, ms);
  return writer;
}
const all = (intervals: readonly number[]) => added(NO_INTERVALS, intervals);
/** Median of the last 20, the plain way. */
function plain(intervals: readonly number[]): number {
  const last = intervals.slice(-20).sort((a, b) => a - b);
  const middle = Math.floor(last.length / 2);
  return last.length % 2 === 1 ? last[middle]! : (last[middle - 1]! + last[middle]!) / 2;
}

describe('the usual interval', () => {
  it.each([
    [[], 0],
    [[100], 100],
    [[100, 200], 150],
    [[100, 100, 5000], 100],
    [[10, 30, 20], 20],
  ])('of %j is %f', (intervals, expected) => expect(usualIntervalMs(all(intervals))).toBe(expected));

  it('forgets all but the last 20 (measurement.md 1)', () => {
    const changed = [...Array<number>(100).fill(10), ...Array<number>(10).fill(500)];
    expect(usualIntervalMs(all(changed))).toBe(255);
    expect(usualIntervalMs(all([...changed, 500]))).toBe(500);
  });

  it('is the median of the last 20 of any list', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1, maxLength: 90 }), (list) => {
        expect(usualIntervalMs(all(list))).toBe(plain(list));
      }),
    );
  });

  it('leaves older states as they were', () => {
    const before = all([10, 10, 10]);
    added(before, [900]);
    added(before, [900, 900, 900, 900]);
    expect(usualIntervalMs(before)).toBe(10);
    expect(usualIntervalMs(NO_INTERVALS)).toBe(0);
  });

  it('keeps no more than 20, however many came', () => {
    expect(all(Array<number>(1000).fill(10)).kept).toHaveLength(20);
  });
});
