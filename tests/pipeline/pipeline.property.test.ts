import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { finishPipeline, startPipeline, stepPipeline } from '../../src/pipeline/pipeline.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { traceOf } from '../../src/signals/trace-set.ts';
import {
  ascii,
  CANDUMP,
  cranksOf,
  INTERVAL_MS,
  linesOf,
  readPieces,
  tableOf,
  TWO_CRANKS,
} from './fixtures/eec1-log.ts';

const LINES = linesOf(TWO_CRANKS);
const BYTES = ascii(LINES.join(''));
const WHOLE = cranksOf(LINES);
const RUNS = { numRuns: 60 };

function cut(bytes: Uint8Array, places: readonly number[]): Uint8Array[] {
  const sorted = [0, ...[...places].sort((a, b) => a - b), bytes.length];
  return sorted.slice(1).map((to, index) => bytes.subarray(sorted[index], to));
}
const cuts = fc.array(fc.nat(BYTES.length), { maxLength: 40 });
const speeds = (state: ReturnType<typeof readPieces>) => traceOf(state.traces, 'engineSpeed', 0).length;
const through = (events: readonly LinkEvent[]) =>
  finishPipeline(events.reduce(stepPipeline, startPipeline(CANDUMP)));
const bytesEvent = (bytes: Uint8Array): LinkEvent => ({ kind: 'bytes', atMs: millis(0), bytes });

const quiet: fc.Arbitrary<LinkEvent> = fc.record({
  kind: fc.constant('reading' as const),
  atMs: fc.constant(millis(0)),
  reading: fc.record({
    signal: fc.constantFrom('railPressure' as const, 'coolantTemperature' as const),
    atMs: fc.double({ min: 0, max: 1e6, noNaN: true }).map(millis),
    value: fc.option(fc.double({ noNaN: true })),
    quality: fc.constantFrom('valid' as const, 'error' as const),
    origin: fc.constantFrom(0, 3, 256, -1),
  }),
});
const breaking: fc.Arbitrary<LinkEvent> = fc.constantFrom<LinkEvent>(
  { kind: 'open', atMs: millis(0), device: 'bridge', write: null },
  { kind: 'gap', atMs: millis(0), problem: problem('log.time-backwards', { line: 3 }) },
);

const stampMs = (line: string): number => Math.round(Number(line.slice(1, 18)) * 1000);

/**
 * What a person with the bytes before them would say: lines that came in one connection, openings within a line, and lines
 * given up, before and behind the opening. The log ends with a line end.
 */
function linesToldBy(events: readonly LinkEvent[]) {
  const known = new Set(LINES);
  const told = { whole: [] as string[], openings: 0, cut: 0 };
  let line = '';
  for (const event of events) {
    if (event.kind === 'open' && line !== '') {
      told.openings++;
      told.cut++;
      line = '';
    }
    if (event.kind !== 'bytes') continue;
    for (const byte of event.bytes) {
      line += String.fromCharCode(byte);
      if (byte !== 0x0a) continue;
      if (known.has(line)) told.whole.push(line);
      else if (line.trim() !== '') told.cut++;
      line = '';
    }
  }
  return told;
}

/** Events strewn between the pieces of a stream, in any order. */
const strewn = (extra: fc.Arbitrary<LinkEvent>) =>
  fc.tuple(cuts, fc.array(fc.tuple(fc.nat(40), extra), { maxLength: 20 })).map(([places, extras]) => {
    const events: LinkEvent[] = cut(BYTES, places).map(bytesEvent);
    for (const [place, event] of extras) events.splice(place % (events.length + 1), 0, event);
    return events;
  });

describe('the pipeline, whatever the link does', () => {
  it('finds two cranks of 3 s in the log that the properties are tried on', () => {
    expect(WHOLE.map(({ crank }) => crank.endedBy)).toEqual(['released', 'released']);
    for (const { time } of WHOLE) expect(Math.abs(time.spanMs - 3000)).toBeLessThan(2 * INTERVAL_MS);
  });

  it('gives the same cranks and averages for any chunking, and loses no frame', () => {
    fc.assert(
      fc.property(cuts, (places) => {
        const state = readPieces(cut(BYTES, places));
        expect(speeds(state)).toBe(LINES.length);
        expect(tableOf(state).cranks).toEqual(WHOLE);
      }),
      RUNS,
    );
  });

  it('gives the same for any noise between frames', () => {
    const noise = fc.array(fc.tuple(fc.nat(LINES.length), fc.uint8Array({ maxLength: 300 })), {
      maxLength: 12,
    });
    fc.assert(
      fc.property(noise, cuts, (noises, places) => {
        const parts = LINES.map(ascii);
        for (const [place, bytes] of noises) parts.splice(place, 0, Uint8Array.from([...bytes, 0x0a]));
        const all = Uint8Array.from(parts.flatMap((part) => [...part]));
        const state = readPieces(cut(all, places));
        expect(speeds(state)).toBe(LINES.length);
        expect(tableOf(state).cranks).toEqual(WHOLE);
      }),
      { numRuns: 30 },
    );
  });

  it('keeps its cranks when readings of other signals come in between, anywhere', () => {
    fc.assert(
      fc.property(strewn(quiet), (events) => {
        expect(tableOf(through(events)).cranks.map(({ crank }) => crank)).toEqual(
          WHOLE.map(({ crank }) => crank),
        );
      }),
      RUNS,
    );
  });

  it('loses nothing to gaps, and to an opening at most the line under way; no frame is doubled or made up', () => {
    fc.assert(
      fc.property(strewn(fc.oneof(quiet, breaking)), (events) => {
        const state = through(events);
        const told = linesToldBy(events);
        const { length } = traceOf(state.traces, 'engineSpeed', 0);
        const times = traceOf(state.traces, 'engineSpeed', 0).atMs.subarray(0, length);
        expect([...times]).toEqual(told.whole.map(stampMs));
        expect(LINES.length - told.whole.length).toBeLessThanOrEqual(told.openings);
        expect(state.wire!.counts.bytes).toBe(BYTES.length);
        expect(state.wire!.counts.frames).toBe(told.whole.length);
        expect(state.wire!.counts.malformed.cutLine).toBe(told.cut);
        expect(state.gaps).toHaveLength(events.filter(({ kind }) => kind === 'gap').length);
        for (const { crank } of tableOf(state).cranks)
          expect(crank.end.atMs).toBeGreaterThan(crank.start.atMs);
      }),
      RUNS,
    );
  });

  it('never throws on bytes that are no log at all', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 200 })), (pieces) => {
        for (const wire of ['candump', 'slcan', 'readings'] as const)
          expect(tableOf(readPieces(pieces, { ...CANDUMP, wire })).cranks).toEqual([]);
      }),
    );
  });
});

describe('one bad reading', () => {
  const places = fc.nat(TWO_CRANKS.length - 1);
  const edgesHold = (lines: readonly string[]) => {
    const cranks = cranksOf(lines);
    expect(cranks).toHaveLength(WHOLE.length);
    cranks.forEach(({ startMs, endMs }, index) => {
      expect(Math.abs(startMs - WHOLE[index]!.startMs)).toBeLessThanOrEqual(INTERVAL_MS + 1e-6);
      expect(Math.abs(endMs - WHOLE[index]!.endMs)).toBeLessThanOrEqual(INTERVAL_MS + 1e-6);
    });
  };

  it('as a spike moves neither edge by more than one sample interval', () => {
    fc.assert(
      fc.property(places, fc.double({ min: 0, max: 8000, noNaN: true }), (place, rpm) =>
        edgesHold(linesOf(TWO_CRANKS.with(place, rpm))),
      ),
      { numRuns: 150 },
    );
  });

  it('missing, as "not available" or as a lost line, moves neither edge by more than one sample interval', () => {
    fc.assert(
      fc.property(places, fc.boolean(), (place, lost) => {
        const speedsWith = (TWO_CRANKS as readonly (number | null)[]).with(place, null);
        edgesHold(lost ? LINES.toSpliced(place, 1) : linesOf(speedsWith));
      }),
      { numRuns: 150 },
    );
  });
});
