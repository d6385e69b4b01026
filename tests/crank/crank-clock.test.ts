import { describe, expect, it } from 'vitest';
import { crankClock } from '../../src/crank/crank-clock.ts';
import { crankTime } from '../../src/crank/crank-time.ts';
import { DEFAULT_CRANK_SETTINGS, type Crank } from '../../src/crank/crank.ts';
import { withStarterOn } from '../../src/crank/starter-on.ts';
import { millis } from '../../src/quantities/time.ts';
import { traceOf } from './fixtures/read-recording.ts';

const edge = (seconds: number, standardUncertaintyMs = 0) => ({
  atMs: millis(seconds * 1000),
  standardUncertaintyMs,
});
const crank = (from: number, to: number): Crank => ({
  start: edge(from),
  end: edge(to),
  endedBy: 'released',
  cutAtStart: false,
  starterOn: edge(from),
  startSign: 'speed',
});
const clock = (finished: readonly Crank[], underWaySince: number | null, now: number) =>
  crankClock({
    cranks: 2,
    crankSeconds: 15,
    tolerancePercent: 5,
    finished,
    underWay: underWaySince === null ? null : edge(underWaySince),
    nowMs: now * 1000,
    longestCrankSeconds: 30,
    leastRestSeconds: 120,
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

describe('crank time', () => {
  it('carries the late report as an uncorrected one-sided doubt: 0.6 s / sqrt 3 (GUM F.2.4.5)', () => {
    const time = crankTime(crank(10, 25), DEFAULT_CRANK_SETTINGS);
    expect(time).toMatchObject({ seconds: 15, doubt: true });
    expect(time.standardUncertaintySeconds).toBeCloseTo(0.34641, 5);
  });

  it('is without that doubt where the battery marked the start', () => {
    const marked: Crank = { ...crank(10, 25), starterOn: edge(9.6, 29), startSign: 'battery' };
    const time = crankTime(marked, DEFAULT_CRANK_SETTINGS);
    expect(time.seconds).toBeCloseTo(15.4, 9);
    expect(time).toMatchObject({ doubt: false, standardUncertaintySeconds: 0.029 });
  });
});

describe('the true start of the starter', () => {
  const every = (intervalMs: number, value: (seconds: number) => number) =>
    traceOf(
      Array.from({ length: Math.ceil(30_000 / intervalMs) }, (_, i) => ({
        atMs: i * intervalMs,
        rpm: value((i * intervalMs) / 1000),
      })),
    );
  const fall = (seconds: number) => (seconds >= 9.55 && seconds < 25 ? 10.5 : 12.4);

  it('is where the battery falls, between the two samples around it', () => {
    const found = withStarterOn(crank(10, 25), { battery: every(100, fall), starterMode: null });
    expect(found.startSign).toBe('battery');
    expect(found.starterOn.atMs).toBeCloseTo(9550, 6);
    expect(found.start.atMs).toBe(10_000);
  });

  it('is where starter mode becomes active', () => {
    const starterMode = every(100, (s) => (s >= 9.45 && s < 25 ? 2 : 0));
    expect(withStarterOn(crank(10, 25), { battery: every(100, fall), starterMode })).toMatchObject({
      startSign: 'starter',
      starterOn: { atMs: 9450 },
    });
  });

  it('stays unknown where the sign comes too seldom, never moves, falls too little or too late', () => {
    const unknown = [
      every(1000, fall),
      every(100, () => 12.4),
      every(100, (s) => (s < 9.55 ? 12.4 : 12)),
      every(100, (s) => (s < 10.2 ? 12.4 : 10)),
    ];
    for (const battery of unknown)
      expect(withStarterOn(crank(10, 25), { battery, starterMode: every(100, () => 0) }).startSign).toBe(
        'speed',
      );
  });
});
