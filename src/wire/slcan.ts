import { millis, type Millis } from '../quantities/time.ts';
import { FRAME_SENT } from './frame-batch.ts';
import { frameColumns, sealBatches, type FrameColumns } from './frame-columns.ts';
import { HEX_VALUE, hexNumber } from './hex-digits.ts';
import { joinBytes } from './join-bytes.ts';
import { timeFrame, UNSET_CLOCK, type SlcanClock } from './slcan-clock.ts';
import { frameKind, readFrame, type FrameStamp } from './slcan-frame.ts';
import type { MalformedReason, WireCounts, WireDecoder, WireStep } from './wire-decoder.ts';
import {
  countCutLine,
  countsOf,
  isBlank,
  NO_COUNTS,
  noteLost,
  noteMalformed,
  shownText,
  tallyFrom,
  type WireTally,
} from './wire-tally.ts';

/** The longest line is 147 characters (CAN FD, us stamp, error state); a longer run is junk and dropped. */
export const SLCAN_LINE_LIMIT = 160;

const CR = 0x0d;
const LF = 0x0a;
const BEL = 0x07;
const NOTHING = new Uint8Array(0);

export interface SlcanState {
  readonly counts: WireCounts;
  readonly clock: SlcanClock;
  /** Bytes of a line whose terminator has not come yet. */
  readonly rest: Uint8Array;
  /** The line being received is too long: skipped up to its terminator. */
  readonly skipping: boolean;
  /** A terminator has been seen: what comes now begins at a line's beginning. */
  readonly inStep: boolean;
  /** Opened again within a stream: what comes first is likely the rest of a line. */
  readonly reopened: boolean;
  readonly arrivalMs: number;
}

interface Work {
  readonly bytes: Uint8Array;
  readonly columns: FrameColumns;
  readonly tally: WireTally;
  readonly clock: SlcanClock;
  readonly stamp: FrameStamp;
  arrivalMs: number;
  skipping: boolean;
  inStep: boolean;
  readonly reopened: boolean;
}

/**
 * The Lawicel-type ASCII protocol, bytes to frames. CR, LF and BEL end a line; a bare CR is an acknowledgement, a bare
 * LF nothing (so CR LF is one end). A line that does not fit is counted once, and tried again from its last frame
 * letter. The first line may be a remainder: it is taken only if it cannot be one.
 * Source: can-text-formats.md, Part 1.
 */
export const slcanDecoder: WireDecoder<SlcanState> = {
  protocol: 'slcan',
  initial: () => ({
    counts: NO_COUNTS,
    clock: UNSET_CLOCK,
    rest: NOTHING,
    skipping: false,
    inStep: false,
    reopened: false,
    arrivalMs: 0,
  }),
  restart: startAgain,
  step: (state, bytes, arrivalMs) => decodeChunk(state, bytes, arrivalMs),
  finish: finishLine,
  counts: (state) => state.counts,
  clock: (state) => state.clock.used,
};

function decodeChunk(state: SlcanState, fresh: Uint8Array, arrivalMs: Millis): WireStep<SlcanState> {
  const work = workOn(state, joinBytes(state.rest, fresh), arrivalMs);
  work.tally.bytes += fresh.length;
  const { bytes } = work;
  let start = 0;
  for (let at = state.rest.length; at < bytes.length; at++) {
    const byte = bytes[at]!;
    if (byte !== CR && byte !== LF && byte !== BEL) continue;
    endLine(work, start, at, byte);
    start = at + 1;
  }
  if (bytes.length - start > SLCAN_LINE_LIMIT && !work.skipping) {
    drop(work, { start, end: bytes.length }, 'tooLong');
    work.skipping = true;
  }
  return seal(work, work.skipping ? NOTHING : bytes.slice(start));
}

/** The stamps are tied anew, but time goes on from where it was: it never falls. */
function startAgain(state: SlcanState): SlcanState {
  if (state.counts.bytes === 0) return state;
  return {
    ...state,
    counts: countCutLine(state.counts, state.rest, state.arrivalMs),
    clock: { ...UNSET_CLOCK, lastMs: state.clock.lastMs },
    rest: NOTHING,
    skipping: false,
    inStep: false,
    reopened: true,
  };
}

/** The last line, if it is whole, is taken although its terminator is missing. */
function finishLine(state: SlcanState): WireStep<SlcanState> {
  const work = workOn(state, state.rest, millis(state.arrivalMs));
  const span = { start: 0, end: state.rest.length };
  if (isBlank(state.rest)) return seal(work, NOTHING);
  work.tally.lines++;
  if (!takeFrame(work, span)) drop(work, span, 'cutLine');
  return seal(work, NOTHING);
}

const workOn = (state: SlcanState, bytes: Uint8Array, arrivalMs: Millis): Work => ({
  bytes,
  columns: frameColumns((bytes.length >> 4) + 8),
  tally: tallyFrom(state.counts),
  clock: { ...state.clock },
  stamp: { stamp: 0, digits: 0 },
  arrivalMs,
  skipping: state.skipping,
  inStep: state.inStep,
  reopened: state.reopened,
});

function seal(work: Work, rest: Uint8Array): WireStep<SlcanState> {
  const { tally, clock, skipping, inStep, reopened, arrivalMs } = work;
  const state = { counts: countsOf(tally), clock, rest, skipping, inStep, reopened, arrivalMs };
  return { state, batches: sealBatches(work.columns), readings: [], notes: tally.notes };
}

function endLine(work: Work, start: number, end: number, terminator: number): void {
  if (work.skipping) work.skipping = false;
  else if (end - start > SLCAN_LINE_LIMIT) drop(work, { start, end }, 'tooLong');
  else if (end > start) takeLine(work, start, end);
  else if (terminator === CR) work.tally.notes.push({ kind: 'ack' });
  if (terminator === BEL) work.tally.notes.push({ kind: 'refused' });
  work.inStep = true;
}

function takeLine(work: Work, from: number, end: number): void {
  const { bytes, tally } = work;
  let start = from;
  while (start < end && (bytes[start] === 0x20 || bytes[start] === 0x09)) start++;
  if (start === end) return;
  tally.lines++;
  const span = { start, end };
  if (mayBeRemainder(work, span)) return drop(work, span, 'cutLine');
  if (takeFrame(work, span) || takeReply(work, span)) return;
  const first = afterMarks(bytes, span).start;
  const reason = first < end ? readFrame(bytes, { start: first, end }, work.columns, work.stamp) : null;
  drop(work, span, reason ?? 'unknownLine');
  if (reason !== 'notKept') tryLastLetter(work, span);
}

/** Behind an opening the rest of a line may begin with b, d, B or D, which are digits too, and read as a short CAN FD frame. */
function mayBeRemainder(work: Work, span: { start: number; end: number }): boolean {
  if (!work.reopened || work.inStep || HEX_VALUE[work.bytes[span.start]!]! < 0) return false;
  return readFrame(work.bytes, span, work.columns, work.stamp) === null;
}

/** Takes the span if it is a frame of at most 8 bytes, with its channel mark or echo letter. */
function takeFrame(work: Work, span: { start: number; end: number }): boolean {
  const { columns, bytes, clock } = work;
  const marks = afterMarks(bytes, span);
  if (marks.start >= span.end) return false;
  if (readFrame(bytes, { start: marks.start, end: span.end }, columns, work.stamp) !== null) return false;
  const row = columns.count++;
  columns.channel[row] = marks.channel;
  if (marks.echo) columns.flags[row]! |= FRAME_SENT;
  columns.atMs[row] = timeFrame(clock, work.stamp, work.arrivalMs);
  if (clock.broken) columns.breaks.push(row);
  work.tally.frames++;
  return true;
}

/** `&` and `$` mark the two channels of one firmware (1 and 2 here, 0 without a mark); `z`, `Z` an own frame echoed. */
function afterMarks(
  bytes: Uint8Array,
  span: { start: number; end: number },
): { start: number; channel: number; echo: boolean } {
  let start = span.start;
  const mark = bytes[start]!;
  const channel = mark === 0x26 ? 1 : mark === 0x24 ? 2 : 0;
  if (channel > 0) start++;
  const echo = start < span.end && (bytes[start]! | 0x20) === 0x7a;
  return { start: echo ? start + 1 : start, channel, echo };
}

/** Takes acknowledgements and replies. A first line is only taken if it cannot be the end of a cut frame. */
function takeReply(work: Work, { start, end }: { start: number; end: number }): boolean {
  const { bytes, tally, inStep } = work;
  const letter = bytes[start]!;
  if ((letter | 0x20) === 0x7a && end - start === 1) {
    tally.notes.push({ kind: 'ack' });
    return true;
  }
  const known = 'VvN'.includes(String.fromCharCode(letter)) || (inStep && isStatus(bytes, start, end));
  if (!known) return false;
  let text = '';
  for (let at = start; at < end; at++) text += String.fromCharCode(bytes[at]!);
  tally.notes.push({ kind: 'reply', text });
  if (saysLost(text)) noteLost(tally, null);
  return true;
}

function isStatus(bytes: Uint8Array, start: number, end: number): boolean {
  const letter = bytes[start]!;
  if (letter === 0x46) return end - start === 3 && hexNumber(bytes, start + 1, end) >= 0; // F
  return letter === 0x73 || letter === 0x65; // s, e
}

/**
 * `F`: bit 0 receive queue full, bit 3 data overrun; bit 1 is receive overflow in one firmware, and transmit queue full
 * in the originals, which a listener cannot cause. `e` with the letter `o`: receive overrun.
 */
function saysLost(text: string): boolean {
  if (text.startsWith('F')) return (Number.parseInt(text.slice(1), 16) & 0b1011) !== 0;
  return /^e\d+[a-zA-Z]*o/.test(text);
}

/** Two lines glued because a terminator or a digit was lost: the part from the last frame letter may be whole. */
function tryLastLetter(work: Work, { start, end }: { start: number; end: number }): void {
  for (let at = end - 1; at > start; at--) {
    const kind = frameKind(work.bytes[at]!);
    if (kind < 0 || kind >= 4 || work.bytes[at] === 0x78) continue; // letters t T r R only
    takeFrame(work, { start: at, end });
    return;
  }
}

function drop(work: Work, { start, end }: { start: number; end: number }, reason: MalformedReason): void {
  noteMalformed(work.tally, { reason, atMs: work.arrivalMs, text: shownText(work.bytes, start, end) });
}
