import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandTable } from '../../src/checks/deviation-bands.ts';
import type { DeviationRows } from '../../src/checks/deviation-rows.ts';
import { worstStretches } from '../../src/checks/worst-stretches.ts';

const drive = fc.array(
  fc.record({
    gapMs: fc.constantFrom(50, 100, 100, 250),
    deviation: fc.integer({ min: -20, max: 10 }),
    breaks: fc.integer({ min: 0, max: 11 }).map((n) => n === 0),
  }),
  { minLength: 1, maxLength: 60 },
);
type Drive = readonly { readonly gapMs: number; readonly deviation: number; readonly breaks: boolean }[];

function rowsOf(each: Drive): DeviationRows {
  let at = 0;
  const atMs = Float64Array.from(each, ({ gapMs }) => (at += gapMs));
  return {
    atMs,
    deviationKPa: Float64Array.from(each, ({ deviation }) => deviation),
    commandedKPa: new Float64Array(each.length).fill(100),
    speedRpm: Float64Array.from(each, (_, row) => 600 + 10 * row),
    loadPercent: new Float64Array(each.length).fill(50),
    joined: Uint8Array.from(each, ({ breaks }, row) => (row === 0 || breaks ? 0 : 1)),
    knownMs: 0,
  };
}

/** Mean shortfall from `fromMs` on by adding up straight lines in small steps; NaN across a break. */
function slowMean({ atMs, deviationKPa, joined }: DeviationRows, fromMs: number, spanMs: number): number {
  let area = 0;
  for (let row = 1; row < atMs.length; row++) {
    const from = Math.max(fromMs, atMs[row - 1]!);
    const to = Math.min(fromMs + spanMs, atMs[row]!);
    if (to <= from) continue;
    if (!joined[row]) return NaN;
    const slope = (deviationKPa[row]! - deviationKPa[row - 1]!) / (atMs[row]! - atMs[row - 1]!);
    const valueAt = (t: number) => deviationKPa[row - 1]! + slope * (t - atMs[row - 1]!);
    area += ((valueAt(from) + valueAt(to)) / 2) * (to - from);
  }
  return -area / spanMs;
}

const SPAN_MS = 600;

describe('worstStretches', () => {
  it('finds the same worst as trying every stretch that begins or ends at a row', () => {
    fc.assert(
      fc.property(drive, (each) => {
        const rows = rowsOf(each);
        const endMs = rows.atMs.at(-1)!;
        const tried = [...rows.atMs]
          .flatMap((at) => [at, at - SPAN_MS])
          .filter((from) => from >= rows.atMs[0]! && from + SPAN_MS <= endMs)
          .map((from) => slowMean(rows, from, SPAN_MS))
          .filter((mean) => !Number.isNaN(mean));
        const [worst] = worstStretches(rows, SPAN_MS);
        if (tried.length === 0) expect(worst).toBeUndefined();
        else expect(worst?.meanShortfallKPa).toBeCloseTo(Math.max(...tried), 9);
      }),
      { numRuns: 400 },
    );
  });

  it('gives stretches of the asked length with their true means, none overlapping, worst first, at most five', () => {
    fc.assert(
      fc.property(drive, (each) => {
        const rows = rowsOf(each);
        const found = worstStretches(rows, SPAN_MS);
        expect(found.length).toBeLessThanOrEqual(5);
        found.forEach((one, place) => {
          expect(one.endMs - one.startMs).toBeCloseTo(SPAN_MS, 9);
          expect(slowMean(rows, one.startMs, SPAN_MS)).toBeCloseTo(one.meanShortfallKPa, 9);
          expect(rows.atMs[one.firstRow]).toBeGreaterThanOrEqual(one.startMs);
          expect(rows.atMs[one.lastRow]).toBeLessThanOrEqual(one.endMs);
          for (const other of found.slice(0, place)) {
            expect(other.meanShortfallKPa).toBeGreaterThanOrEqual(one.meanShortfallKPa);
            expect(one.startMs >= other.endMs || one.endMs <= other.startMs).toBe(true);
          }
        });
      }),
      { numRuns: 400 },
    );
  });

  it('of a pressure that lies the same amount short all the time is that amount', () => {
    const rows = rowsOf(Array.from({ length: 40 }, () => ({ gapMs: 100, deviation: -7, breaks: false })));
    expect(worstStretches(rows, SPAN_MS)[0]?.meanShortfallKPa).toBeCloseTo(7, 9);
  });

  it('has none in a drive shorter than the stretch', () => {
    const rows = rowsOf(Array.from({ length: 6 }, () => ({ gapMs: 100, deviation: -7, breaks: false })));
    expect(worstStretches(rows, SPAN_MS)).toEqual([]);
  });
});

describe('bandTable', () => {
  it('puts each value in one band, with the mean and spread of its values', () => {
    fc.assert(
      fc.property(drive, fc.array(fc.integer({ min: 500, max: 1300 }), { maxLength: 4 }), (each, ends) => {
        const rows = rowsOf(each);
        const bands = bandTable(rows, rows.speedRpm, ends);
        expect(bands).toHaveLength(new Set(ends).size + 1);
        expect(bands.reduce((sum, { values }) => sum + values, 0)).toBe(each.length);
        for (const { from, to, values, worstKPa, standardDeviationKPa } of bands) {
          const inside = each
            .map(({ deviation }, row) => ({ deviation, speed: rows.speedRpm[row]! }))
            .filter(({ speed }) => speed >= (from ?? -Infinity) && speed < (to ?? Infinity))
            .map(({ deviation }) => deviation);
          expect(values).toBe(inside.length);
          if (inside.length === 0) continue;
          expect(worstKPa).toBe(Math.min(...inside));
          const mean = inside.reduce((sum, value) => sum + value, 0) / inside.length;
          const square = inside.reduce((sum, value) => sum + (value - mean) ** 2, 0);
          if (inside.length > 1)
            expect(standardDeviationKPa).toBeCloseTo(Math.sqrt(square / (inside.length - 1)), 9);
        }
      }),
    );
  });

  it('counts as much time as is joined', () => {
    fc.assert(
      fc.property(drive, (each) => {
        const rows = rowsOf(each);
        const joinedMs = each.reduce((sum, { gapMs }, row) => sum + (rows.joined[row] ? gapMs : 0), 0);
        const seconds = bandTable(rows, rows.speedRpm, [700, 900]).reduce(
          (sum, band) => sum + band.seconds,
          0,
        );
        expect(seconds).toBeCloseTo(joinedMs / 1000, 9);
      }),
    );
  });

  it('leaves values out whose speed is not known', () => {
    const rows = rowsOf(Array.from({ length: 5 }, () => ({ gapMs: 100, deviation: -1, breaks: false })));
    const unknown = new Float64Array(5).fill(NaN);
    expect(bandTable(rows, unknown, [900]).map(({ values }) => values)).toEqual([0, 0]);
  });
});
