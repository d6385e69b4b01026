import fc from 'fast-check';
import { expect, test } from 'vitest';
import { missingShare } from '../../src/signals/missing-share.ts';

const instants = (atMs: readonly number[]) => ({ length: atMs.length, atMs: Float64Array.from(atMs) });
const regular = (count: number, everyMs: number) => Array.from({ length: count }, (_, k) => k * everyMs);

test('nothing is missing of what comes at its usual interval, also with a little jitter', () => {
  expect(missingShare(instants(regular(500, 10)))).toBe(0);
  expect(missingShare(instants(regular(500, 20).map((at, k) => at + (k % 3) * 4)))).toBe(0);
});

test('every fourth message gone is a quarter', () => {
  // 0 10 20 . 40 50 60 . : of four messages one is missing, whatever block it falls in.
  const kept = regular(801, 10).filter((_, place) => place % 4 !== 3);
  expect(missingShare(instants(kept))).toBeCloseTo(0.25, 2);
});

test('a random share lost is found within three of its standard deviations', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.05, max: 0.35, noNaN: true }), fc.integer(), (share, seed) => {
      let state = seed | 0;
      const next = () => {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        return (state >>> 8) / 2 ** 24;
      };
      const kept = regular(4000, 10).filter(() => next() >= share);
      // Bernoulli: sqrt(p (1 - p) / n), n = 4000.
      expect(Math.abs(missingShare(instants(kept))! - share)).toBeLessThan(
        3 * Math.sqrt((share * (1 - share)) / 4000) + 0.01,
      );
    }),
    { numRuns: 40, seed: 7 },
  );
});

test('a rate that follows engine speed is no loss', () => {
  // From 20 ms at idle to 7 ms at high idle over 2000 messages.
  let at = 0;
  const times = Array.from({ length: 2000 }, (_, k) => (at += 20 - (13 * k) / 2000));
  expect(missingShare(instants(times))).toBe(0);
});

test('holes are told elsewhere, and count for nothing here', () => {
  const times = regular(300, 10).map((at, k) => at + (k > 150 ? 4000 : 0));
  expect(missingShare(instants(times))).toBe(0);
});

test('messages stamped in bunches, or too few of them, say nothing', () => {
  expect(missingShare(instants(regular(50, 10)))).toBeNull();
  expect(missingShare(instants(regular(1000, 10).map((at) => 100 * Math.floor(at / 100))))).toBeNull();
});
