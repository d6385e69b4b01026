import { describe, expect, it } from 'vitest';
import { crankClock, type CrankClockInput } from '../../src/crank/crank-clock.ts';
import type { Crank } from '../../src/crank/crank.ts';
import { crank, edge } from './fixtures/crank.ts';

const clock = (
  finished: readonly Crank[],
  underWaySince: number | null,
  now: number,
  other: Partial<CrankClockInput> = {},
) =>
  crankClock({
    cranks: 2,
    crankSeconds: 15,
    tolerancePercent: 5,
    finished,
    underWay: underWaySince === null ? null : edge(underWaySince),
    nowMs: now * 1000,
    longestCrankSeconds: 30,
    leastRestSeconds: 120,
    ...other,
  });

describe('the crank clock', () => {
  it('waits, whatever the wall time, until the starter turns', () => {
    expect(clock([], null, 500)).toMatchObject({
      state: 'waiting',
      crankNumber: 1,
      totalSeconds: 0,
      warn: null,
    });
  });

  it('counts the crank under way: crank 1 of 2, 12.4 of 15 s, with 3 s to go', () => {
    expect(clock([], 100, 112.4)).toMatchObject({
      state: 'cranking',
      crankNumber: 1,
      cranks: 2,
      thisCrankSeconds: 12.4,
      targetSeconds: 15,
      warn: 3,
    });
  });

  it.each([
    [11.9, null],
    [12.1, 3],
    [13.5, 2],
    [14.5, 1],
    [15, 'now'],
    [15.8, 'over'],
  ])('at %f s of 15 warns %s', (seconds, warn) => expect(clock([], 0, seconds).warn).toBe(warn));

  it('stands still between cranks and counts the rest of the starter', () => {
    expect(clock([crank(0, 15)], null, 65)).toMatchObject({
      state: 'resting',
      totalSeconds: 15,
      totalTarget: 30,
      restSeconds: 50,
      restLeftSeconds: 70,
    });
    expect(clock([crank(0, 15)], null, 500)).toMatchObject({
      state: 'resting',
      totalSeconds: 15,
      restLeftSeconds: 0,
    });
  });

  it('is done within the tolerance and over time beyond it', () => {
    expect(clock([crank(0, 15), crank(200, 214)], null, 220).state).toBe('done');
    expect(clock([crank(0, 15), crank(200, 218)], null, 220).state).toBe('over time');
  });
});

describe('the warnings of the crank clock', () => {
  it.each([
    [0, null],
    [11.999, null],
    [12, 3],
    [12.999, 3],
    [13, 2],
    [13.999, 2],
    [14, 1],
    [14.999, 1],
    [15, 'now'],
    [15.749, 'now'],
    [15.75, 'over'],
    [40, 'over'],
  ])('at %f s of 15, 5 per cent: %s', (seconds, warn) => expect(clock([], 0, seconds).warn).toBe(warn));

  it('are over where the starter has turned as long as it may, whatever the target', () => {
    const limits = { longestCrankSeconds: 10 };
    expect(clock([], 0, 9.99, limits).warn).toBeNull();
    expect(clock([], 0, 10, limits).warn).toBe('over');
  });

  it('are none between cranks', () => {
    expect(clock([crank(0, 15)], null, 15).warn).toBeNull();
    expect(clock([crank(0, 40)], null, 41).warn).toBeNull();
  });

  it('follow the share of the crank, not the 15 s: after 13 s the second has 17 s', () => {
    const second = (now: number) => clock([crank(0, 13)], 100, now);
    expect(second(114).warn).toBe(3);
    expect(second(117)).toMatchObject({ warn: 'now', targetSeconds: 17, totalSeconds: 30 });
  });
});

describe('the state of the crank clock', () => {
  it.each([
    ['nothing yet', [], null, 0, 'waiting', 1],
    ['the first under way', [], 10, 12, 'cranking', 1],
    ['after the first', [crank(0, 15)], null, 20, 'resting', 2],
    ['the second under way', [crank(0, 15)], 100, 110, 'cranking', 2],
    ['after both', [crank(0, 15), crank(100, 115)], null, 120, 'done', 2],
    ['a little short, within 5 per cent', [crank(0, 15), crank(100, 113.5)], null, 120, 'done', 2],
    ['shorter than that: one more', [crank(0, 15), crank(100, 113.4)], null, 120, 'resting', 2],
    ['a little long', [crank(0, 15), crank(100, 116.5)], null, 120, 'done', 2],
    ['too long', [crank(0, 15), crank(100, 116.6)], null, 120, 'over time', 2],
    ['too long while cranking', [crank(0, 15)], 100, 116.6, 'over time', 1],
    ['a third under way within the time', [crank(0, 10), crank(50, 60)], 100, 105, 'cranking', 2],
  ] as const)('%s', (...row) => {
    const [, finished, since, now, state, crankNumber] = row;
    expect(clock(finished, since, now)).toMatchObject({ state, crankNumber });
  });

  it('shares what is left over the cranks to come', () => {
    expect(clock([crank(0, 12)], null, 20).targetSeconds).toBe(18);
    expect(clock([crank(0, 12)], null, 20, { cranks: 3 }).targetSeconds).toBe(16.5);
    expect(clock([crank(0, 40)], null, 50).targetSeconds).toBe(0);
  });

  it('counts a crank from where the starter turned, not from the first speed', () => {
    const marked = { ...crank(10, 25), starterOn: edge(9.5) };
    expect(clock([marked], null, 30).totalSeconds).toBe(15.5);
  });

  it('counts down the least rest, to 0 and not below, and only while resting', () => {
    const rest = (now: number) => clock([crank(0, 15)], null, now);
    expect(rest(15)).toMatchObject({ restSeconds: 0, restLeftSeconds: 120 });
    expect(rest(134)).toMatchObject({ restSeconds: 119, restLeftSeconds: 1 });
    expect(rest(136)).toMatchObject({ restSeconds: 121, restLeftSeconds: 0 });
    expect(clock([crank(0, 15)], 20, 22)).toMatchObject({ restSeconds: 0, restLeftSeconds: 0 });
    expect(clock([], null, 22)).toMatchObject({ restSeconds: 0, restLeftSeconds: 0 });
  });

  it('never runs backwards: a time before the start, or a crank of negative length, counts 0', () => {
    expect(clock([], 10, 5)).toMatchObject({ thisCrankSeconds: 0, totalSeconds: 0 });
    expect(clock([crank(10, 5)], null, 20).totalSeconds).toBe(0);
    expect(clock([crank(0, 15)], null, 10).restSeconds).toBe(0);
  });
});
