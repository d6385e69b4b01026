import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { averageSpeed } from '../../src/crank/average-speed.ts';
import { coverageOf, spacingOf } from '../../src/crank/coverage.ts';
import { log } from './fixtures/find-all.ts';
import { traceOf } from './fixtures/read-recording.ts';

const even = (count: number, intervalMs: number) => Array.from({ length: count }, (_, i) => i * intervalMs);
const without = (times: readonly number[], ...places: readonly number[]) =>
  times.filter((_, place) => !places.includes(place));
const covered = (times: readonly number[]) => coverageOf(times, times.at(-1)! - times[0]!, spacingOf(times));
/** Stamps as a bridge gives them that sends `size` samples at once, 1 ms apart, or with one stamp. */
const bunched = (count: number, intervalMs: number, size: number, apartMs: number) =>
  even(count, intervalMs).map((_, i) => Math.floor(i / size) * size * intervalMs + (i % size) * apartMs);

describe('spacing of samples', () => {
  it.each([10, 20, 100, 500])('is the interval where samples come evenly every %i ms', (intervalMs) => {
    expect(spacingOf(even(30, intervalMs))).toEqual({ sampleMs: intervalMs, instantMs: intervalMs });
  });

  it('does not move with a lost sample or a hole of a second', () => {
    expect(spacingOf(without(even(30, 500), 12))).toEqual({ sampleMs: 500, instantMs: 500 });
    const holed = even(300, 10).filter((t) => t <= 1000 || t >= 2000);
    expect(spacingOf(holed)).toEqual({ sampleMs: 10, instantMs: 10 });
  });

  it('tells the time for a sample from the time between bunches', () => {
    const oneStamp = spacingOf(bunched(1000, 10, 5, 0));
    expect(oneStamp.instantMs).toBe(50);
    expect(oneStamp.sampleMs).toBeCloseTo(10, 0);
    const apart = spacingOf(bunched(1000, 10, 5, 1));
    expect(apart.instantMs).toBe(46);
    expect(apart.sampleMs).toBeCloseTo(10, 0);
  });

  it('is 0 where there are fewer than two instants', () => {
    expect(spacingOf([])).toEqual({ sampleMs: 0, instantMs: 0 });
    expect(spacingOf([5])).toEqual({ sampleMs: 0, instantMs: 0 });
    expect(spacingOf([5, 5, 5])).toEqual({ sampleMs: 0, instantMs: 0 });
  });
});

describe('coverage', () => {
  it.each([
    ['nothing lost', [], 1],
    ['one sample lost', [10], 29 / 30],
    ['two samples lost apart', [10, 20], 28 / 30],
    ['two samples lost together', [10, 11], 28 / 30],
    ['five samples lost together', [10, 11, 12, 13, 14], 25 / 30],
  ] as const)('with %s of 30 intervals: %j', (_, lost, expected) => {
    for (const intervalMs of [10, 20, 100, 500])
      expect(covered(without(even(31, intervalMs), ...lost))).toBeCloseTo(expected, 9);
  });

  it('takes an interval of 1.5 usual ones for jitter, and a longer one for a hole', () => {
    const stretch = (lastMs: number) => [...even(20, 100), 1900 + lastMs];
    expect(covered(stretch(150))).toBe(1);
    expect(covered(stretch(151))).toBeCloseTo(2000 / 2051, 9);
  });

  it.each([
    [2, 0],
    [5, 0],
    [5, 1],
    [20, 0],
    [20, 0.2],
  ])('is whole for bunches of %i samples %f ms apart', (size, apartMs) => {
    expect(covered(bunched(1000, 10, size, apartMs))).toBe(1);
  });

  it('loses one bunch where a bunch is lost', () => {
    const times = bunched(1000, 10, 5, 0).filter((t) => t !== 3000);
    expect(covered(times)).toBeCloseTo(1 - 50 / 9950, 9);
  });

  it('does not take held values for holes: it looks at the times only', () => {
    const held = log([[10, 180]], 10).map(({ atMs }) => ({ atMs, rpm: 100 + Math.floor(atMs / 180) }));
    expect(averageSpeed(traceOf(held), 0, 9990, { resolutionRpm: 0 }).coverage).toBe(1);
  });

  it('is no more than the part that the samples reach', () => {
    const { coverage } = averageSpeed(traceOf(log([[5, 180]], 100)), -4900, 4900, { resolutionRpm: 0 });
    expect(coverage).toBeCloseTo(0.5, 9);
  });

  it('counts a missing reading and a single spike as one interval each', () => {
    for (const odd of [NaN, 7000]) {
      const samples = log([[10, 180]], 100).map((each, i) => (i === 50 ? { ...each, rpm: odd } : each));
      expect(averageSpeed(traceOf(samples), 0, 9900, { resolutionRpm: 0 }).coverage).toBeCloseTo(98 / 99, 9);
    }
  });

  it('says of a crank of few samples with a long hole that most of it is unknown', () => {
    expect(covered([0, 100, 200, 300, 1300])).toBeCloseTo(400 / 1300, 9);
  });

  it('of no stretch at all is 0', () => {
    expect(coverageOf([5], 0, { sampleMs: 0, instantMs: 0 })).toBe(0);
    expect(coverageOf([], 100, { sampleMs: 10, instantMs: 10 })).toBe(0);
  });

  it('never leaves 0 to 1, and a lost sample never raises it', () => {
    const shape = fc.record({
      count: fc.integer({ min: 24, max: 200 }),
      intervalMs: fc.integer({ min: 10, max: 500 }),
      place: fc.nat(),
    });
    fc.assert(
      fc.property(shape, ({ count, intervalMs, place }) => {
        const lost = covered(without(even(count, intervalMs), 1 + (place % (count - 2))));
        expect(lost).toBeCloseTo(1 - 1 / (count - 1), 9);
      }),
    );
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 3000 })), (gaps) => {
        let t = 0;
        const times = gaps.map((gap) => (t += gap));
        const part = times.length > 1 ? covered(times) : 0;
        expect(part).toBeGreaterThanOrEqual(0);
        expect(part).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('of stamps that jitter by a quarter of the interval is whole', () => {
    const jitter = fc.array(fc.double({ min: -0.12, max: 0.12, noNaN: true }), {
      minLength: 30,
      maxLength: 60,
    });
    fc.assert(
      fc.property(jitter, (parts) => {
        expect(covered(parts.map((part, i) => (i + part) * 100))).toBeCloseTo(1, 9);
      }),
    );
  });
});
