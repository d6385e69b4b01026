import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { finishFinder, initialFinder, stepFinder, type FinderState } from '../../src/crank/find-cranks.ts';
import { stepFinders } from '../../src/crank/step-finders.ts';
import { SIGNAL_IDS } from '../../src/quantities/reading.ts';
import type { ReadingBatch } from '../../src/signals/reading-batch.ts';

interface Row {
  readonly signal: number;
  readonly atMs: number;
  readonly value: number;
  readonly origin: number;
}

const SPEED = SIGNAL_IDS.indexOf('engineSpeed');
const BATTERY = SIGNAL_IDS.indexOf('batteryVoltage');

const batchOf = (rows: readonly Row[]): ReadingBatch => ({
  count: rows.length,
  signal: Uint8Array.from(rows, ({ signal }) => signal),
  atMs: Float64Array.from(rows, ({ atMs }) => atMs),
  value: Float64Array.from(rows, ({ value }) => value),
  quality: Uint8Array.from(rows, ({ value }) => (Number.isNaN(value) ? 2 : 0)),
  origin: Int32Array.from(rows, ({ origin }) => origin),
});

/** Rest, crank, run and run-down of two origins, with holes, spikes, falls of time and values that are missing. */
const rows = fc
  .array(
    fc.record({
      gap: fc.constantFrom(20, 20, 20, 100, 600, 3000, -40, NaN),
      value: fc.constantFrom(0, 0, 20, 60, 150, 151, 300, 420, 700, NaN, Infinity),
      times: fc.integer({ min: 1, max: 30 }),
      origin: fc.constantFrom(0, 0, 3),
      signal: fc.constantFrom(SPEED, SPEED, SPEED, BATTERY),
    }),
    { maxLength: 40 },
  )
  .map((parts) => {
    let atMs = 0;
    return parts.flatMap(({ gap, times, ...rest }) =>
      Array.from({ length: times }, (): Row => {
        atMs += Number.isNaN(gap) ? 20 : gap;
        return { ...rest, atMs: Number.isNaN(gap) ? NaN : atMs };
      }),
    );
  });

/** One reading after the other, in the plain way. */
function oneByOne(all: readonly Row[]): ReadonlyMap<number, FinderState> {
  const finders = new Map<number, FinderState>();
  for (const { signal, atMs, value, origin } of all) {
    if (signal !== SPEED || Number.isNaN(atMs)) continue;
    const finder = finders.get(origin) ?? initialFinder(DEFAULT_CRANK_SETTINGS);
    finders.set(origin, stepFinder(finder, atMs, value));
  }
  return finders;
}

const inBatches = (all: readonly Row[], cuts: readonly number[]) => {
  const places = [0, ...[...cuts].sort((a, b) => a - b).map((at) => Math.min(at, all.length)), all.length];
  return places
    .slice(1)
    .reduce<ReadonlyMap<number, FinderState>>(
      (finders, to, part) =>
        stepFinders(finders, batchOf(all.slice(places[part], to)), DEFAULT_CRANK_SETTINGS),
      new Map(),
    );
};
const cuts = fc.array(fc.nat(600), { maxLength: 8 });

describe('finders over a batch', () => {
  it('know the same as when each reading came alone, however the batches are cut', () => {
    fc.assert(
      fc.property(rows, cuts, (all, places) => {
        const whole = oneByOne(all);
        const batched = inBatches(all, places);
        expect(batched).toEqual(whole);
        for (const [origin, finder] of whole)
          expect(finishFinder(batched.get(origin)!)).toEqual(finishFinder(finder));
      }),
      { numRuns: 200 },
    );
  });

  it('leave the finders that they began from as they were', () => {
    fc.assert(
      fc.property(rows, rows, (first, second) => {
        const before = stepFinders(new Map(), batchOf(first), DEFAULT_CRANK_SETTINGS);
        const copy = structuredClone(before);
        stepFinders(before, batchOf(second), DEFAULT_CRANK_SETTINGS);
        stepFinders(before, batchOf(second), DEFAULT_CRANK_SETTINGS);
        expect(before).toEqual(copy);
      }),
    );
  });

  it('are the same map where a batch holds no speed with a time', () => {
    const finders = stepFinders(
      new Map(),
      batchOf([{ signal: SPEED, atMs: 0, value: 0, origin: 0 }]),
      DEFAULT_CRANK_SETTINGS,
    );
    const battery = { signal: BATTERY, atMs: 20, value: 12, origin: 7 };
    const untimed = { signal: SPEED, atMs: NaN, value: 150, origin: 7 };
    expect(stepFinders(finders, batchOf([battery, untimed]), DEFAULT_CRANK_SETTINGS)).toBe(finders);
    expect(stepFinders(finders, batchOf([]), DEFAULT_CRANK_SETTINGS)).toBe(finders);
  });

  it('never mix origins: one that cranks and one that stands are two finders', () => {
    const both = Array.from({ length: 200 }, (_, place) => [
      { signal: SPEED, atMs: 20 * place, value: place > 50 && place < 150 ? 150 : 0, origin: 0 },
      { signal: SPEED, atMs: 20 * place, value: 0, origin: 3 },
    ]).flat();
    const finders = stepFinders(new Map(), batchOf(both), DEFAULT_CRANK_SETTINGS);
    expect([...finders].map(([origin, finder]) => [origin, finishFinder(finder).length])).toEqual([
      [0, 1],
      [3, 0],
    ]);
  });
});
