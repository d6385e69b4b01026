import type { WireProtocol } from '../src/wire/wire-decoder.ts';

/** A piece of a log with the time at which it would have arrived, ms from the first stamp. For pacing only. */
export interface LogChunk {
  readonly atMs: number;
  readonly bytes: Uint8Array;
}

const MAX_BYTES = 65_536;
const SPAN_MS = 50;

/** Bytes a millisecond of a log without stamps: 115,200 baud with 10 bits a byte (8 data, start, stop). */
const BYTES_PER_MS = 11.52;

const LINE_FEED = 10;
const SPACE = 32;
const BRACKET = 40; // (
const POINT = 46;
const ZERO = 48;

/** Seconds from which a stamp is a date and not counted from the start of the log: 10 digits. */
const ABSOLUTE_FROM_MS = 1e12;

/**
 * Cuts a log into pieces of at most 64 KiB and about 50 ms of its own time. Time comes from candump stamps `(seconds.fraction)`
 * at line starts; a log without them is spread by position. `atMs` never falls, whatever the stamps do.
 * The stamps are not read for their value here: the decoder does that.
 */
export function logChunks(bytes: Uint8Array, wire: WireProtocol): Generator<LogChunk> {
  return wire === 'candump' && hasStamps(bytes) ? chunksByStamp(bytes) : chunksByPosition(bytes);
}

function* chunksByPosition(bytes: Uint8Array): Generator<LogChunk> {
  const size = Math.round(SPAN_MS * BYTES_PER_MS);
  for (let from = 0; from < bytes.length; from += size) {
    const to = Math.min(from + size, bytes.length);
    yield { atMs: to / BYTES_PER_MS, bytes: bytes.subarray(from, to) };
  }
}

function* chunksByStamp(bytes: Uint8Array): Generator<LogChunk> {
  let from = 0;
  let startMs = 0;
  let atMs = 0;
  let lastStamp = NaN;
  for (let line = 0; line < bytes.length; line = nextLine(bytes, line)) {
    const stamp = stampAt(bytes, line);
    const forward = Number.isNaN(stamp) ? 0 : advance(lastStamp, stamp);
    if (!Number.isNaN(stamp)) lastStamp = stamp;
    if (line > from && (atMs + forward - startMs >= SPAN_MS || line - from >= MAX_BYTES / 2)) {
      yield* pieces(bytes.subarray(from, line), atMs);
      from = line;
      startMs = atMs + forward;
    }
    atMs += forward;
  }
  yield* pieces(bytes.subarray(from), atMs);
}

function* pieces(bytes: Uint8Array, atMs: number): Generator<LogChunk> {
  for (let from = 0; from < bytes.length; from += MAX_BYTES)
    yield { atMs, bytes: bytes.subarray(from, from + MAX_BYTES) };
}

/** A stamp that falls is a time since the line before (candump -t d), or a clock that was set back. */
function advance(last: number, stamp: number): number {
  if (Number.isNaN(last)) return 0;
  if (stamp >= last) return stamp - last;
  return stamp < ABSOLUTE_FROM_MS ? stamp : 0;
}

function nextLine(bytes: Uint8Array, from: number): number {
  const end = bytes.indexOf(LINE_FEED, from);
  return end < 0 ? bytes.length : end + 1;
}

function hasStamps(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, MAX_BYTES);
  for (let line = 0; line < head.length; line = nextLine(head, line)) {
    if (!Number.isNaN(stampAt(head, line))) return true;
  }
  return false;
}

/** The stamp of the line at `from`, ms, or NaN: `(1589326646.631333)`, after spaces in the screen format. */
function stampAt(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === SPACE) at++;
  if (bytes[at] !== BRACKET) return NaN;
  let seconds = 0;
  for (at++; isDigit(bytes[at]); at++) seconds = seconds * 10 + bytes[at]! - ZERO;
  if (bytes[at] !== POINT) return NaN;
  let fraction = 0;
  let weight = 100;
  for (at++; isDigit(bytes[at]); at++, weight /= 10) fraction += (bytes[at]! - ZERO) * weight;
  return seconds * 1000 + fraction;
}

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= ZERO && byte <= ZERO + 9;
