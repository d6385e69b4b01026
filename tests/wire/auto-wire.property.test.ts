import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { runAuto } from '../../src/wire/auto-wire.ts';
import { canLogDecoder, liveCanLogDecoder } from '../../src/wire/can-log.ts';
import {
  liveReadingLinesDecoder,
  READING_LINE_LIMIT,
  readingLinesDecoder,
} from '../../src/wire/reading-lines.ts';
import { runDecoder, type RunningDecoder } from '../../src/wire/running-decoder.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii } from './decode-all.ts';
import { readThrough, type Piece, type Read } from './decode-lines.ts';

const DECODERS: readonly (readonly [string, () => RunningDecoder])[] = [
  ['SLCAN', () => runDecoder(slcanDecoder)],
  ['candump text', () => runDecoder(canLogDecoder)],
  ['candump text on a link', () => runDecoder(liveCanLogDecoder)],
  ['reading lines', () => runDecoder(readingLinesDecoder)],
  ['reading lines on a link', () => runDecoder(liveReadingLinesDecoder)],
  ['what is recognised', runAuto],
];
const RUNS = { numRuns: 120 };

const stampMs = fc.integer({ min: 0, max: 5000 });
const number = fc.oneof(
  fc.integer({ min: -10, max: 3000 }),
  fc.double({ noNaN: true }),
  fc.constantFrom(null, 'nan'),
);
const line = fc.oneof(
  { weight: 3, arbitrary: fc.tuple(stampMs, number).map(([t, value]) => `{"t":${t},"rpm":${value}}\n`) },
  { weight: 3, arbitrary: fc.tuple(stampMs, number).map(([t, value]) => `${t},${value}\r\n`) },
  fc.constantFrom(
    't,rpm\n',
    't;rpm_bar\n',
    'rpm,t,battery\r',
    '# remark\n',
    '\r\n',
    '\x07',
    '\r',
    'V1013\r',
    '1,2,3\n',
  ),
  {
    weight: 3,
    arbitrary: stampMs.map((ms) => `T0CF004008FFFFFF${(ms % 256).toString(16).padStart(2, '0')}00FFFFFF\r`),
  },
  {
    weight: 3,
    arbitrary: stampMs.map(
      (ms) =>
        `(${1_589_326_646 + ms / 1000}) can0 0CF00400#FFFFFF${(ms % 256).toString(16).padStart(2, '0')}\n`,
    ),
  },
  stampMs.map((ms) => ` (${String(ms).padStart(3, '0')}.5)  can0  123   [1]  11\n`),
  fc.string({ unit: 'grapheme-ascii', maxLength: 40 }).map((text) => `${text}\n`),
  fc.uint8Array({ maxLength: 40 }).map((bytes) => String.fromCharCode(...bytes)),
);
const text = fc.array(line, { maxLength: 60 }).map((lines) => lines.join(''));
const places = fc.array(fc.nat(), { maxLength: 40 });

const cut = (bytes: Uint8Array, at: readonly number[]): Piece[] => {
  const edges = [0, ...at.map((place) => place % (bytes.length + 1)).sort((a, b) => a - b), bytes.length];
  return edges.slice(1).map((edge, i): Piece => [1000, bytes.subarray(edges[i]!, edge)]);
};
const outcome = ({ decoder, ...read }: Read) => ({
  ...read,
  protocol: decoder.protocol,
  counts: decoder.counts,
  clock: decoder.clock,
});

describe.each(DECODERS)('%s', (_name, start) => {
  test('gives the same for any cut into pieces', () => {
    fc.assert(
      fc.property(text, places, (lines, at) => {
        const bytes = ascii(lines);
        const whole = outcome(readThrough(start(), [[1000, bytes]]));
        expect(outcome(readThrough(start(), cut(bytes, at)))).toEqual(whole);
      }),
      RUNS,
    );
  });

  test('never throws, counts every byte, and its time never falls, whatever comes and is opened when', () => {
    const piece = fc.oneof(text.map(ascii), fc.uint8Array({ maxLength: 300 }));
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(40_000), piece, fc.boolean()), { maxLength: 12 }), (pieces) => {
        let atMs = 0;
        const timed = pieces.flatMap(([laterMs, bytes, open]): Piece[] => {
          atMs += laterMs;
          return open ? ['open', [atMs, bytes]] : [[atMs, bytes]];
        });
        const read = readThrough(start(), timed);
        expect(read.decoder.counts.bytes).toBe(pieces.reduce((sum, [, bytes]) => sum + bytes.length, 0));
        const byChannel = new Map<number, number>();
        for (const { atMs: at, channel } of read.frames) {
          if (Number.isNaN(at)) continue;
          expect(at).toBeGreaterThanOrEqual(byChannel.get(channel) ?? -Infinity);
          byChannel.set(channel, at);
        }
        const times = read.readings.map((reading) => reading.atMs).filter((at) => !Number.isNaN(at));
        times.slice(1).forEach((at, i) => expect(at).toBeGreaterThanOrEqual(times[i]!));
        for (const { value } of read.readings) expect(value === null || Number.isFinite(value)).toBe(true);
        for (const place of read.breaks) expect(place).toBeLessThanOrEqual(read.readings.length);
      }),
      RUNS,
    );
  });

  test('reads what follows a line without end of any length', () => {
    const junk = new Uint8Array(70_000).fill(0x7b);
    const read = readThrough(start(), [
      [0, junk],
      [1, junk],
      [2, '\n'],
    ]);
    expect(read.decoder.counts.malformed.tooLong).toBe(1);
    expect(read.frames).toEqual([]);
  });
});

describe('recognition', () => {
  const good: readonly (readonly [string, () => RunningDecoder, string])[] = [
    ['slcan', () => runDecoder(slcanDecoder), 'T0CF004008FFFFFF1122FFFFFF\r'],
    ['candump', () => runDecoder(liveCanLogDecoder), '(1589326646.5) can0 0CF00400#FFFFFF1122FFFFFF\n'],
    ['reading-lines', () => runDecoder(liveReadingLinesDecoder), '{"rpm":150}\n'],
  ];
  const noise = fc
    .array(fc.constantFrom('boot', 'ok;', '\xff\xfe', '{', 'x'.repeat(50), 'ready'), { maxLength: 30 })
    .map((words) => words.map((word) => `${word}\n`).join(''));

  test.each(good)(
    'finds %s behind any noise, and gives what the decoder alone gives',
    (protocol, alone, one) => {
      fc.assert(
        fc.property(noise, places, (junk, at) => {
          const pieces = cut(ascii(junk + one.repeat(5)), at);
          const found = readThrough(runAuto(), pieces, false);
          expect(found.decoder.protocol).toBe(protocol);
          expect(outcome(found)).toEqual(outcome(readThrough(alone(), pieces, false)));
        }),
        RUNS,
      );
    },
  );

  test('carries a bounded rest, though no line end ever comes', () => {
    let state = liveReadingLinesDecoder.initial();
    for (let i = 0; i < 200; i++) {
      state = liveReadingLinesDecoder.step(state, new Uint8Array(100).fill(0x41), millis(i)).state;
      expect(state.rest.length).toBeLessThanOrEqual(READING_LINE_LIMIT);
    }
    expect(state.counts.malformed.tooLong).toBe(1);
  });
});
