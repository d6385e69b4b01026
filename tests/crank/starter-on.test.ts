import { describe, expect, it } from 'vitest';
import { withStarterOn } from '../../src/crank/starter-on.ts';
import { crank, edge } from './fixtures/crank.ts';
import { traceOf } from './fixtures/read-recording.ts';

const every = (intervalMs: number, value: (seconds: number) => number, seconds = 30) =>
  traceOf(
    Array.from({ length: Math.ceil((seconds * 1000) / intervalMs) }, (_, i) => ({
      atMs: i * intervalMs,
      rpm: value((i * intervalMs) / 1000),
    })),
  );
const fallAt = (at: number) => (s: number) => (s >= at && s < 25 ? 10.5 : 12.4);
const none = { battery: null, starterMode: null };

describe('the true start of the starter', () => {
  it('is where the battery falls, between the two samples around it', () => {
    const found = withStarterOn(crank(10, 25), { ...none, battery: every(100, fallAt(9.55)) });
    expect(found.startSign).toBe('battery');
    expect(found.starterOn.atMs).toBeCloseTo(9550, 6);
    expect(found.starterOn.standardUncertaintyMs).toBeCloseTo(100 / Math.sqrt(12), 9);
    expect(found.start.atMs).toBe(10_000);
  });

  it('is where the slope of the voltage passes half way, not where the sample lies', () => {
    // 12.4 V at 9.5 s, 10.9 V at 9.6 s, 10.4 V from 9.7 s: half way is 11.4 V, at two thirds of the interval.
    const battery = every(100, (s) => (s < 9.55 ? 12.4 : s < 9.65 ? 10.9 : 10.4));
    expect(withStarterOn(crank(10, 25), { ...none, battery }).starterOn.atMs).toBeCloseTo(9566.6667, 3);
  });

  it('is where starter mode becomes active, whatever the battery says', () => {
    for (const mode of [1, 2]) {
      const starterMode = every(100, (s) => (s >= 9.45 && s < 25 ? mode : 0));
      expect(withStarterOn(crank(10, 25), { battery: every(100, fallAt(9.55)), starterMode })).toMatchObject({
        startSign: 'starter',
        starterOn: { atMs: 9450 },
      });
    }
  });

  it('is not a starter mode that means something else (3: finished)', () => {
    const starterMode = every(100, (s) => (s >= 9.45 ? 3 : 0));
    expect(withStarterOn(crank(10, 25), { ...none, starterMode }).startSign).toBe('speed');
  });

  it('is not a starter mode that was active all the time', () => {
    expect(withStarterOn(crank(10, 25), { ...none, starterMode: every(100, () => 2) }).startSign).toBe(
      'speed',
    );
  });

  it.each([
    ['comes once a second', every(1000, fallAt(9.55))],
    ['comes every 300 ms', every(300, fallAt(9.55))],
    ['never moves', every(100, () => 12.4)],
    ['falls by 4 in 100', every(100, (s) => (s < 9.55 ? 12.5 : 12))],
    ['falls after the speed', every(100, fallAt(10.2))],
    ['falls 2 s before the speed', every(100, fallAt(8))],
    ['is missing', every(100, () => NaN)],
    ['ends long before', every(100, () => 12.4, 5)],
    ['is empty', every(100, () => 12.4, 0)],
  ])('stays unknown where the battery %s', (_, battery) => {
    const found = crank(10, 25);
    expect(withStarterOn(found, { ...none, battery })).toBe(found);
  });

  it.each([50, 100, 200, 250])('is found with voltage every %i ms', (intervalMs) => {
    const { startSign, starterOn } = withStarterOn(crank(10, 25), {
      ...none,
      battery: every(intervalMs, fallAt(9.6)),
    });
    expect(startSign).toBe('battery');
    expect(Math.abs(starterOn.atMs - 9600)).toBeLessThanOrEqual(intervalMs);
  });

  it('is a fall of 6 in 100', () => {
    const battery = every(100, (s) => (s < 9.55 ? 12.5 : 11.7));
    expect(withStarterOn(crank(10, 25), { ...none, battery }).startSign).toBe('battery');
  });

  it('is the last fall: a dip that recovered is not the starter', () => {
    const battery = every(100, (s) => ((s > 8.7 && s < 9) || s >= 9.55 ? 10.5 : 12.4));
    expect(withStarterOn(crank(10, 25), { ...none, battery }).starterOn.atMs).toBeCloseTo(9550, 6);
  });

  it('is not placed in a hole of the voltage', () => {
    const samples = Array.from({ length: 300 }, (_, i) => ({ atMs: i * 50, rpm: fallAt(9.55)(i / 20) }));
    const battery = traceOf(samples.filter(({ atMs }) => atMs <= 9400 || atMs >= 9700));
    expect(withStarterOn(crank(10, 25), { ...none, battery }).startSign).toBe('speed');
  });

  it('skips readings that are missing', () => {
    const battery = every(50, (s) => (Math.round(s * 20) % 3 === 0 ? NaN : fallAt(9.55)(s)));
    expect(withStarterOn(crank(10, 25), { ...none, battery }).startSign).toBe('battery');
  });

  it('of a crank that was cut at its start is not looked for', () => {
    const cut = { ...crank(10, 25), cutAtStart: true };
    expect(withStarterOn(cut, { ...none, battery: every(100, fallAt(9.55)) })).toBe(cut);
  });

  it('is found for the second crank as for the first', () => {
    const battery = every(100, (s) => ((s >= 4.55 && s < 8) || (s >= 19.55 && s < 25) ? 10.5 : 12.4));
    const second = { ...crank(20, 25), start: edge(20) };
    expect(withStarterOn(crank(5, 8), { ...none, battery }).starterOn.atMs).toBeCloseTo(4550, 6);
    expect(withStarterOn(second, { ...none, battery }).starterOn.atMs).toBeCloseTo(19_550, 6);
  });
});
