import type { LinkEvent } from '../../src/link/link-event.ts';
import { millis } from '../../src/quantities/time.ts';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { ascii, CORPUS, logLine, slcanLine } from './corpus.ts';
import { traceBytes } from './digest.ts';
import { drawsFrom } from './draws.ts';
import { fuzzStream, joined } from './fuzz-stream.ts';
import { through, type FuzzedWire } from './fuzz-pipeline.ts';

/** Streams in which something costly repeats: what takes longer than in proportion shows on one of them. */
export const HARD_STREAMS: Readonly<Record<string, (length: number) => Uint8Array>> = {
  'right lines of every kind': (length) => repeated(joined(CORPUS.map(({ bytes }) => bytes)), length),
  'whole, spoilt and made-up lines': (length) => fuzzStream(drawsFrom(77), length),
  'random bytes': randomBytes,
  'no terminator at all': (length) => new Uint8Array(length).fill(0x54),
  'digits without end': (length) => new Uint8Array(length).fill(0x30),
  NULs: (length) => new Uint8Array(length),
  'CR alone': (length) => new Uint8Array(length).fill(0x0d),
  'LF alone': (length) => new Uint8Array(length).fill(0x0a),
  'BEL alone': (length) => new Uint8Array(length).fill(0x07),
  'opening brackets': (length) => new Uint8Array(length).fill(0x5b),
  'opening braces and quotes': (length) => repeated(ascii('{"'), length),
  quotes: (length) => new Uint8Array(length).fill(0x22),
  'escapes of colours': (length) => repeated(ascii('\x1b[31m'), length),
  spaces: (length) => new Uint8Array(length).fill(0x20),
  'opened numbers': (length) => repeated(ascii('{"t":1,"engineSpeed":'), length),
  commas: (length) => repeated(ascii(','.repeat(3000) + '\n'), length),
  'a clock set back in each line': (length) =>
    numbered(length, (line) => logLine(['0CF00400', 'FFFFFF6804FFFFFF'], line % 2 === 0 ? 1000 : 0)),
  'stamps that jump': (length) =>
    numbered(length, (line) => slcanLine(['0CF00400', 'FFFFFF6804FFFFFF'], (line % 6) * 9000)),
  'a new sender in each line': (length) =>
    numbered(length, (line) => slcanLine([`0CF004${byteOf(line)}`, 'FFFFFF6804FFFFFF'], line)),
  'a new interface in each line': (length) =>
    numbered(length, (line) => `(1700000000.000000) can${line} 0CF00400#FFFFFF6804FFFFFF\n`),
  'transfers opened and never filled': (length) =>
    numbered(length, (line) =>
      slcanLine([`1CEC${byteOf(line)}${byteOf(line >> 8)}`, '10F906FFFFCAFE00'], line),
    ),
  'announcements one upon the other': (length) =>
    numbered(length, (line) => slcanLine([`1CECFF${byteOf(line)}`, '20F906FFFFEBFE00'], line)),
  'starts and stops of an engine': (length) =>
    numbered(length, (line) =>
      logLine(['0CF00400', `FFFFFF${line % 20 < 10 ? '6804' : '0000'}FFFFFF`], 100 * line),
    ),
};

const byteOf = (value: number): string => (value & 0xff).toString(16).toUpperCase().padStart(2, '0');

function repeated(unit: Uint8Array, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  for (let at = 0; at < length; at += unit.length) bytes.set(unit.subarray(0, length - at), at);
  return bytes;
}

function numbered(length: number, lineOf: (line: number) => string): Uint8Array {
  const lines: string[] = [];
  for (let made = 0, line = 0; made < length; line++) {
    lines.push(lineOf(line));
    made += lines[line]!.length;
  }
  return ascii(lines.join('')).subarray(0, length);
}

function randomBytes(length: number): Uint8Array {
  const draws = drawsFrom(5);
  return new Uint8Array(length).map(() => draws.below(256));
}

/** How the bytes come: all at once, as a serial port gives them, or a few at a time. */
export const PIECES = { 'all at once': Infinity, 'as from a port': 1024, 'a few at a time': 16 } as const;

/** The bytes as link events of so many bytes each, 10 ms apart. */
export function inPieces(bytes: Uint8Array, pieceBytes: number): readonly LinkEvent[] {
  const events: LinkEvent[] = [{ kind: 'open', atMs: millis(0), device: 'fuzz', write: null }];
  for (let from = 0; from < bytes.length; from += pieceBytes)
    events.push({
      kind: 'bytes',
      atMs: millis(10 * events.length),
      bytes: bytes.slice(from, from + pieceBytes),
    });
  return events;
}

/** Time in ms to take the bytes, the least of `times` tries, by the clock given. */
export function costOf(
  bytes: Uint8Array,
  how: { readonly wire: FuzzedWire; readonly pieceBytes: number; readonly times: number },
  clockMs: () => number,
): number {
  const events = inPieces(bytes, how.pieceBytes);
  let least = Infinity;
  for (let time = 0; time < how.times; time++) {
    const fromMs = clockMs();
    recogniseWire(bytes);
    through(events, how.wire);
    least = Math.min(least, clockMs() - fromMs);
  }
  return least;
}

/** What a pipeline holds after these bytes, besides its traces, by the measure of the heap that is given (after a collection). */
export function heldBytes(events: readonly LinkEvent[], wire: FuzzedWire, usedBytes: () => number): number {
  const before = usedBytes();
  const state = through(events, wire);
  const held = usedBytes() - before - traceBytes(state);
  // Asked again after measuring, so that the state is still held while it is measured.
  return state.atMs >= 0 ? held : NaN;
}
