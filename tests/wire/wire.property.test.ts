import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { LOG_LINE_LIMIT } from '../../src/wire/can-log.ts';
import { encodeSlcanFrame, type SlcanFrame, type SlcanStamp } from '../../src/wire/slcan-encode.ts';
import { SLCAN_LINE_LIMIT, slcanDecoder } from '../../src/wire/slcan.ts';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import type { WireDecoder, WireStep } from '../../src/wire/wire-decoder.ts';
import { ascii, decodePieces, short } from './decode-all.ts';

const frame: fc.Arbitrary<SlcanFrame> = fc
  .record({
    extended: fc.boolean(),
    remote: fc.boolean(),
    id: fc.integer({ min: 0, max: 0x1fffffff }),
    data: fc.uint8Array({ maxLength: 8 }),
  })
  .map(({ id, extended, remote, data }) => ({
    id: extended ? id : id % 0x800,
    extended,
    remote,
    length: data.length,
    data,
  }));
const stamp: fc.Arbitrary<SlcanStamp | null> = fc.oneof(
  fc.constant(null),
  fc.record({ kind: fc.constant('ms' as const), value: fc.integer({ min: 0, max: 59_999 }) }),
  fc.record({ kind: fc.constant('us' as const), value: fc.integer({ min: 0, max: 3_599_999_999 }) }),
);
/** Pieces of slices that are cut at the given places. */
const cut = (bytes: Uint8Array, places: readonly number[]): (readonly [number, Uint8Array])[] => {
  const edges = [0, ...places.map((place) => place % (bytes.length + 1)).sort((a, b) => a - b), bytes.length];
  return edges.slice(1).map((edge, i) => [1000, bytes.subarray(edges[i]!, edge)] as const);
};
const places = fc.array(fc.nat(), { maxLength: 40 });
const joined = (parts: readonly Uint8Array[]): Uint8Array =>
  Uint8Array.from(parts.flatMap((part) => [...part]));
const expected = ({ id, extended, remote, length, data }: SlcanFrame) =>
  short({ id, extended, remote, length, data: [...data], atMs: 0, error: false, sent: false, channel: 0 });

/** Lines of either protocol, whole, broken and foreign. */
const logLine = fc.oneof(
  fc.constantFrom(
    '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF',
    '(1589326646.500000) can0 123#R3',
    '(1589326640.100000) can1 123##1112233 T',
    ' (000.010000)  can0  123   [2]  11 22',
    ' (000.002000)  can0  18FEF700   [8]  FF FF FF FF F2 00 FF FF',
    '  can0  123   [1]  11',
    "DROPCOUNT: dropped 3 CAN frames on 'can0' socket (total drops 7)",
    '# remark',
  ),
  fc.string({ maxLength: 30 }),
);

function sameForAnyCut<State>(decoder: WireDecoder<State>, bytes: Uint8Array, at: readonly number[]): void {
  const whole = decodePieces(decoder, [[1000, bytes]]);
  const pieces = decodePieces(decoder, cut(bytes, at));
  expect(pieces.frames).toEqual(whole.frames);
  expect(pieces.notes).toEqual(whole.notes);
  expect(pieces.breaks).toEqual(whole.breaks);
  expect(pieces.counts).toEqual(whole.counts);
}

describe('SLCAN', () => {
  test('any frame, with any stamp, comes back as it was written', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(frame, stamp), { minLength: 1 }), (sent) => {
        const bytes = joined(sent.map(([one, at]) => encodeSlcanFrame(one, at)));
        const { frames, counts } = decodePieces(slcanDecoder, [[1000, bytes]]);
        expect(frames.map(short)).toEqual(sent.map(([one]) => expected(one)));
        expect(counts.frames).toBe(sent.length);
      }),
    );
  });

  test('any cut into pieces gives the same frames, notes, breaks and counts', () => {
    const line = fc.oneof(
      fc.tuple(frame, stamp).map(([one, at]) => encodeSlcanFrame(one, at)),
      fc.uint8Array({ maxLength: 200 }),
      fc.constantFrom('\r', '\x07', 'V1013\r', 'F01\r', 't0814F26F002t2000\r').map(ascii),
    );
    fc.assert(
      fc.property(fc.array(line), places, (lines, at) => sameForAnyCut(slcanDecoder, joined(lines), at)),
      { numRuns: 300 },
    );
  });

  test('no noise line between frames loses an intact frame', () => {
    const noise = fc.uint8Array({ maxLength: 300 }).map((bytes) => joined([bytes, ascii('\r')]));
    fc.assert(
      fc.property(fc.array(fc.tuple(noise, frame)), (lines) => {
        const bytes = joined(lines.flatMap(([junk, one]) => [junk, encodeSlcanFrame(one)]));
        const found = decodePieces(slcanDecoder, [[1000, bytes]]).frames.map(short);
        let from = 0;
        for (const [, one] of lines) {
          const place = found.indexOf(expected(one), from);
          expect(place).toBeGreaterThanOrEqual(from);
          from = place + 1;
        }
      }),
    );
  });

  test('time never falls inside a batch nor across batches, whatever stamps and arrivals do', () => {
    const piece = fc.tuple(fc.nat(70_000), fc.array(stamp, { maxLength: 5 }));
    const one: SlcanFrame = { id: 1, extended: false, remote: false, length: 0, data: new Uint8Array(0) };
    fc.assert(
      fc.property(fc.array(piece), (pieces) => {
        let arrivalMs = 0;
        const timed = pieces.map(([later, stamps]) => {
          arrivalMs += later;
          return [arrivalMs, joined(stamps.map((at) => encodeSlcanFrame(one, at)))] as const;
        });
        const times = decodePieces(slcanDecoder, timed).frames.map(({ atMs }) => atMs);
        times.slice(1).forEach((atMs, i) => expect(atMs).toBeGreaterThanOrEqual(times[i]!));
      }),
      { numRuns: 300 },
    );
  });
});

describe('candump text', () => {
  test('any cut into pieces gives the same frames, notes, breaks and counts', () => {
    fc.assert(
      fc.property(fc.array(logLine, { maxLength: 120 }), places, (lines, at) =>
        sameForAnyCut(
          canLogDecoder,
          ascii(lines.map((line) => line.replace(/[^\0-\x7f]/g, '?')).join('\n')),
          at,
        ),
      ),
      { numRuns: 300 },
    );
  });

  test('no noise line between frames loses an intact frame', () => {
    const noise = fc.uint8Array({ maxLength: 300 }).map((bytes) => bytes.filter((byte) => byte !== 10));
    fc.assert(
      fc.property(fc.array(noise), (junk) => {
        const parts = junk.flatMap((bytes, i) => [
          bytes,
          ascii(
            `\n(1589326646.${String(i).padStart(6, '0')}) mark 18FEF7${(i % 256).toString(16).padStart(2, '0')}#\n`,
          ),
        ]);
        const found = decodePieces(canLogDecoder, [[0, joined(parts)]]).frames.map(({ id }) => id);
        let from = 0;
        junk.forEach((_, i) => {
          const place = found.indexOf(0x18fef700 + (i % 256), from);
          expect(place).toBeGreaterThanOrEqual(from);
          from = place + 1;
        });
      }),
    );
  });
});

describe('a link that is opened again', () => {
  const log = Array.from(
    { length: 30 },
    (_, i) => `(1589326646.${String(i * 20_000).padStart(6, '0')}) can1 18FEF7${(i + 16).toString(16)}#0A\n`,
  );
  const slcan = Array.from(
    { length: 30 },
    (_, i) => `T18FEF7${(i + 16).toString(16)}10A${(i * 256).toString(16).padStart(4, '0')}\r`,
  );
  const opened = fc.tuple(places, fc.array(fc.boolean(), { maxLength: 40 }));

  function reopened<State>(
    decoder: WireDecoder<State>,
    text: string,
    at: readonly number[],
    opens: readonly boolean[],
  ) {
    let state = decoder.initial();
    const found: { id: number; atMs: number }[] = [];
    let openings = 0;
    const take = ({ state: next, batches }: WireStep<State>) => {
      state = next;
      for (const batch of batches)
        for (let row = 0; row < batch.count; row++)
          found.push({ id: batch.id[row]!, atMs: batch.atMs[row]! });
    };
    cut(ascii(text), at).forEach(([, bytes], i) => {
      if (opens[i]) {
        state = decoder.restart(state);
        openings++;
      }
      take(decoder.step(state, bytes, millis(1000 + i)));
    });
    take(decoder.finish(state));
    return { found, openings, counts: decoder.counts(state) };
  }

  test.each([
    ['SLCAN', slcanDecoder, slcan],
    ['candump text', canLogDecoder, log],
  ] as const)(
    '%s loses at most the line under way, takes no remainder for a line, and the counts go on',
    (_name, decoder, lines) => {
      fc.assert(
        fc.property(opened, ([at, opens]) => {
          const { found, openings, counts } = reopened(
            decoder as WireDecoder<unknown>,
            lines.join(''),
            at,
            opens,
          );
          const ids = found.map(({ id }) => id);
          expect(new Set(ids).size).toBe(ids.length);
          expect(ids).toEqual([...ids].sort((a, b) => a - b));
          for (const id of ids) expect(id).toBeLessThan(0x18fef710 + lines.length);
          expect(lines.length - ids.length).toBeLessThanOrEqual(openings);
          expect(counts.bytes).toBe(lines.join('').length);
          expect(counts.frames).toBe(ids.length);
          const times = found.map(({ atMs }) => atMs);
          expect(times).toEqual([...times].sort((a, b) => a - b));
        }),
        { numRuns: 300 },
      );
    },
  );

  test('the line under way is counted as cut, once, and blank bytes are not', () => {
    for (const decoder of [runDecoder(slcanDecoder), runDecoder(canLogDecoder)]) {
      const half = decoder.step(ascii('t12'), millis(0)).next;
      const again = half.restart().restart();
      expect(again.counts.malformed.cutLine).toBe(1);
      expect(again.counts.recentMalformed.map(({ text }) => text)).toEqual(['t12']);
      const blank = decoder.step(ascii('  '), millis(0)).next;
      expect(blank.restart().counts.malformed.cutLine).toBe(0);
    }
  });

  test('what is left of a candump line behind the opening is no interface of its own', () => {
    const first = canLogDecoder.step(
      canLogDecoder.initial(),
      ascii('(1589326646.0) can0 123#11\n'),
      millis(0),
    );
    const again = canLogDecoder.step(
      canLogDecoder.restart(first.state),
      ascii('n0 123#22\n(1589326646.1) can0 123#33\n'),
      millis(1),
    );
    expect(again.batches.flatMap((batch) => [...batch.channel])).toEqual([0]);
    expect(canLogDecoder.counts(again.state).malformed.cutLine).toBe(1);
  });

  test('an opening before the first byte of a file changes nothing', () => {
    const { state } = canLogDecoder.step(
      canLogDecoder.restart(canLogDecoder.initial()),
      ascii('can0 123#22\n'),
      millis(1),
    );
    expect(canLogDecoder.counts(canLogDecoder.finish(state).state).frames).toBe(1);
  });
});

describe('both', () => {
  test('no bytes throw', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 600 })), (pieces) => {
        const timed = pieces.map((bytes, i) => [i, bytes] as const);
        const bytes = pieces.reduce((sum, piece) => sum + piece.length, 0);
        expect(decodePieces(slcanDecoder, timed).counts.bytes).toBe(bytes);
        expect(decodePieces(canLogDecoder, timed).counts.bytes).toBe(bytes);
        recogniseWire(joined(pieces));
      }),
    );
  });

  test('what is carried between pieces is bounded, though no terminator ever comes', () => {
    const piece = new Uint8Array(100).fill(0x41);
    let slcan = slcanDecoder.initial();
    let log = canLogDecoder.initial();
    for (let i = 0; i < 1000; i++) {
      slcan = slcanDecoder.step(slcan, piece, millis(i)).state;
      log = canLogDecoder.step(log, piece, millis(i)).state;
      expect(slcan.rest.length).toBeLessThanOrEqual(SLCAN_LINE_LIMIT);
      expect(log.rest.length).toBeLessThanOrEqual(LOG_LINE_LIMIT);
    }
    expect(slcan.counts.malformed.tooLong).toBe(1);
    expect(log.counts.malformed.tooLong).toBe(1);
  });
});
