import { describe, expect, test } from 'vitest';
import { timeFrame, UNSET_CLOCK, type SlcanClock } from '../../src/wire/slcan-clock.ts';

// Quirk "stamps negative or stuck": can-text-formats.md, Part 1. 32 frames and 100 ms are common practice, no source.
describe('stamps that stand still', () => {
  const still = (count: number, everyMs: number): SlcanClock => {
    const clock = { ...UNSET_CLOCK };
    for (let i = 0; i < count; i++) timeFrame(clock, { digits: 4, stamp: 7 }, 1_000 + i * everyMs);
    return clock;
  };
  test.each([
    ['32 frames, 31 equal to the one before', 32, 10, false],
    ['33 frames, 32 equal to the one before', 33, 10, true],
    ['40 frames in one transfer', 40, 0, false],
    ['40 frames within 100 ms', 40, 2.5, false],
    ['42 frames over more than 100 ms', 42, 2.5, true],
  ])('%s', (_what, count, everyMs, stuck) => {
    expect(still(count, everyMs)).toMatchObject({ stuck, used: stuck ? 'arrival' : 'source' });
  });

  test('a stamp that moves on begins the count afresh', () => {
    const clock = still(32, 10);
    timeFrame(clock, { digits: 4, stamp: 320 }, 1_320);
    for (let i = 1; i <= 31; i++) timeFrame(clock, { digits: 4, stamp: 320 }, 1_320 + 10 * i);
    expect(clock.stuck).toBe(false);
    timeFrame(clock, { digits: 4, stamp: 320 }, 1_640);
    expect(clock.stuck).toBe(true);
  });

  test('once stuck, stamps are never used again, and only the first such frame is a break', () => {
    const clock = still(33, 10);
    expect(clock.broken).toBe(true);
    expect(timeFrame(clock, { digits: 4, stamp: 5_000 }, 2_000)).toBe(2_000);
    expect([clock.broken, clock.used]).toEqual([false, 'arrival']);
  });
});
