import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findAll, log, stepAll } from './fixtures/find-all.ts';

const interval = fc.integer({ min: 10, max: 500 });
const cranking = fc.record({
  intervalMs: interval,
  rpm: fc.integer({ min: 80, max: 350 }),
  seconds: fc.integer({ min: 4, max: 20 }),
});
const crankLog = ({ intervalMs, rpm, seconds }: { intervalMs: number; rpm: number; seconds: number }) =>
  log(
    [
      [4, 0],
      [seconds, rpm],
      [6, 0],
      [seconds, rpm + 5],
      [4, 0],
    ],
    intervalMs,
  );

describe('finding cranks, whatever the data', () => {
  it('a single spike or missing reading anywhere moves no edge by more than an interval and makes or removes no crank', () => {
    fc.assert(
      fc.property(cranking, fc.nat(), fc.constantFrom(NaN, 0, 150, 900, 3000, 8000), (shape, at, odd) => {
        const samples = crankLog(shape);
        const place = at % samples.length;
        const clean = findAll(samples);
        const touched = findAll(samples.map((each, i) => (i === place ? { ...each, rpm: odd } : each)));
        expect(clean).toHaveLength(2);
        expect(touched).toHaveLength(2);
        touched.forEach(({ start, end, endedBy }, i) => {
          expect(endedBy).toBe('released');
          expect(Math.abs(start.atMs - clean[i]!.start.atMs)).toBeLessThanOrEqual(shape.intervalMs + 1e-6);
          expect(Math.abs(end.atMs - clean[i]!.end.atMs)).toBeLessThanOrEqual(shape.intervalMs + 1e-6);
        });
      }),
      { numRuns: 400 },
    );
  });

  it('the same data shifted in time give the same cranks shifted', () => {
    fc.assert(
      fc.property(cranking, fc.integer({ min: -1_000_000, max: 1_000_000_000 }), (shape, shiftMs) => {
        const samples = crankLog(shape);
        const moved = findAll(samples.map(({ atMs, rpm }) => ({ atMs: atMs + shiftMs, rpm })));
        findAll(samples).forEach(({ start, end }, i) => {
          expect(moved[i]!.start.atMs - shiftMs).toBeCloseTo(start.atMs, 5);
          expect(moved[i]!.end.atMs - shiftMs).toBeCloseTo(end.atMs, 5);
        });
      }),
    );
  });

  it('jittered time stamps give the same number of cranks', () => {
    fc.assert(
      fc.property(
        cranking,
        fc.array(fc.double({ min: 0, max: 0.9, noNaN: true }), { minLength: 50 }),
        (shape, jitter) => {
          const samples = crankLog(shape).map(({ atMs, rpm }, i) => ({
            atMs: atMs + jitter[i % jitter.length]! * shape.intervalMs,
            rpm,
          }));
          expect(findAll(samples)).toHaveLength(2);
        },
      ),
    );
  });

  it('never throws, repeats itself, and gives cranks in order and of length 0 or more', () => {
    const rpm = fc.oneof(fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, -5, 0, 49, 150, 700));
    const samples = fc.array(
      fc.record({ atMs: fc.oneof(fc.integer({ min: 0, max: 60_000 }), fc.double()), rpm }),
    );
    const sorted = samples.map((list) => [...list].sort((a, b) => a.atMs - b.atMs));
    fc.assert(
      fc.property(fc.oneof(samples, sorted), (list) => {
        const cranks = findAll(list);
        expect(findAll(list)).toEqual(cranks);
        expect(stepAll(list)).toEqual(stepAll(list));
        for (const { start, end } of cranks) expect(end.atMs).toBeGreaterThanOrEqual(start.atMs);
      }),
      { numRuns: 500 },
    );
  });
});
