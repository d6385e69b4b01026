import { frameColumns, sealBatches, type FrameColumns } from './frame-columns.ts';
import { joinBytes } from './join-bytes.ts';
import {
  copyLogClock,
  newLiveClock,
  newLogClock,
  reopenLogClock,
  timeLine,
  type LogClock,
} from './log-clock.ts';
import { readLogFrame, skipSpace, skipWord, type LogCursor } from './log-frame.ts';
import { probeStamps, readLogStamp, type LogStamp } from './log-stamp.ts';
import { readUsualLine, type NamePlace } from './usual-line.ts';
import type { MalformedReason, WireCounts, WireDecoder, WireStep } from './wire-decoder.ts';
import {
  countCutLine,
  countsOf,
  NO_COUNTS,
  noteLost,
  noteMalformed,
  shownText,
  tallyFrom,
  type WireTally,
} from './wire-tally.ts';

/** A line longer than this is junk (a CAN XL frame on the screen has up to some 6 200 characters). */
export const LOG_LINE_LIMIT = 16_384;
const MAX_CHANNELS = 255;

const LF = 0x0a;
const ESC = 0x1b;
const NOTHING = new Uint8Array(0);

export interface CanLogState {
  readonly counts: WireCounts;
  readonly clock: LogClock;
  /** Interface names in the order seen; the index is the channel. */
  readonly interfaces: readonly Uint8Array[];
  /** Bytes not yet read: an unfinished line, or the beginning of the file until its stamps are understood. */
  readonly rest: Uint8Array;
  readonly skipping: boolean;
  /** What comes now begins at a line's beginning. */
  readonly inStep: boolean;
  /** Time of the last frame, shown beside malformed lines. */
  readonly lineMs: number;
  /** Time broke at a line that was not kept: the next frame begins anew. */
  readonly breakDue: boolean;
}

interface Work {
  bytes: Uint8Array;
  readonly columns: FrameColumns;
  readonly tally: WireTally;
  readonly clock: LogClock;
  readonly interfaces: Uint8Array[];
  readonly cursor: LogCursor;
  readonly stamp: LogStamp;
  readonly name: NamePlace;
  lineMs: number;
  skipping: boolean;
  inStep: boolean;
  breakDue: boolean;
}

/**
 * candump text, log and screen format, mixed as they come. For files: time is that of the stamps in ms: absolute ones since 1970,
 * zero-based ones as they stand, delta ones added up; NaN without stamps. Arrival is not used.
 * Source: can-text-formats.md, Part 2.
 */
export const canLogDecoder = decoderFrom(newLogClock);

/** The same for a link: the first stamp stands at its arrival, and time without stamps is arrival. It begins anywhere in a line. */
export const liveCanLogDecoder = decoderFrom(newLiveClock);

function decoderFrom(newClock: () => LogClock): WireDecoder<CanLogState> {
  return {
    protocol: 'candump',
    initial: () => ({
      counts: NO_COUNTS,
      clock: newClock(),
      interfaces: [],
      rest: NOTHING,
      skipping: false,
      inStep: newClock === newLogClock,
      lineMs: NaN,
      breakDue: false,
    }),
    restart: startAgain,
    step: (state, bytes, arrivalMs) => decodeChunk(state, bytes, arrivalMs),
    finish: (state) => decodeChunk(state, NOTHING, null),
    counts: (state) => state.counts,
    clock: (state) => state.clock.used,
  };
}

/** `arrivalMs` null: the input is complete. */
function decodeChunk(state: CanLogState, fresh: Uint8Array, arrivalMs: number | null): WireStep<CanLogState> {
  const complete = arrivalMs === null;
  const bytes = joinBytes(state.rest, fresh);
  const work = workOn(state, bytes);
  work.tally.bytes += fresh.length;
  if (work.clock.live && !complete) work.clock.live.arrivalMs = arrivalMs;
  if (work.clock.stamps === 'unknown') {
    const stamps = probeStamps(bytes, complete);
    if (stamps === null) return seal(work, bytes.slice());
    work.clock.stamps = stamps;
  }
  let start = 0;
  for (let end = bytes.indexOf(LF); end >= 0; end = bytes.indexOf(LF, start)) {
    endLine(work, start, end);
    start = end + 1;
  }
  if (complete) {
    if (start < bytes.length && !work.skipping) takeLine(work, start, bytes.length, true);
    return seal(work, NOTHING);
  }
  if (bytes.length - start > LOG_LINE_LIMIT && !work.skipping) {
    drop(work, start, bytes.length, 'tooLong');
    work.skipping = true;
  }
  return seal(work, work.skipping ? NOTHING : bytes.slice(start));
}

/** Whole lines that wait for their stamps to be understood are kept; only the unfinished one is given up. */
function startAgain(state: CanLogState): CanLogState {
  if (state.counts.bytes === 0) return state; // the first opening: a file begins at a line's beginning
  const from = state.rest.lastIndexOf(LF) + 1;
  return {
    ...state,
    counts: countCutLine(state.counts, state.rest.subarray(from), state.lineMs),
    clock: reopenLogClock(state.clock),
    rest: state.rest.slice(0, from),
    skipping: false,
    inStep: from > 0,
  };
}

const workOn = (state: CanLogState, bytes: Uint8Array): Work => ({
  bytes,
  columns: frameColumns((bytes.length >> 5) + 8),
  tally: tallyFrom(state.counts),
  clock: copyLogClock(state.clock),
  interfaces: state.interfaces.slice(),
  cursor: { at: 0, end: 0 },
  stamp: { end: 0, ms: 0, kind: 'small' },
  name: { start: 0, end: 0 },
  lineMs: state.lineMs,
  skipping: state.skipping,
  inStep: state.inStep,
  breakDue: state.breakDue,
});

function seal(work: Work, rest: Uint8Array): WireStep<CanLogState> {
  const { tally, clock, interfaces, skipping, inStep, lineMs, breakDue } = work;
  const state = { counts: countsOf(tally), clock, interfaces, rest, skipping, inStep, lineMs, breakDue };
  return { state, batches: sealBatches(work.columns), readings: [], notes: tally.notes };
}

function endLine(work: Work, start: number, end: number): void {
  if (work.skipping) work.skipping = false;
  else if (end - start > LOG_LINE_LIMIT) drop(work, start, end, 'tooLong');
  else takeLine(work, start, end, false);
  work.inStep = true;
}

function takeLine(work: Work, start: number, lineEnd: number, cut: boolean): void {
  const { bytes } = work;
  let end = lineEnd;
  while (end > start && bytes[end - 1]! <= 0x20) end--;
  if (end === start) return;
  work.tally.lines++;
  if (!work.inStep && mayBeRemainder(work, start)) return drop(work, start, end, 'cutLine');
  const reason = readLine(work, start, end);
  if (reason === null || tryPlain(work, start, end)) return;
  if (reason === 'unknownLine' && isRemark(work, start, end)) return;
  drop(work, start, end, cut && reason !== 'notKept' ? 'cutLine' : reason);
}

/**
 * Behind an opening the first line may lack its beginning, and what is left may look whole (`n0 123#11`, an interface of its
 * own). It cannot if it begins with a bracket, or with a space where no line has a stamp.
 */
function mayBeRemainder({ bytes, clock }: Work, start: number): boolean {
  const first = bytes[start]!;
  return first !== 0x28 && (first !== 0x20 || clock.used === 'source');
}

/** Reads one line and counts its frame. @returns null, or why it is no frame (nothing is counted then). */
function readLine(work: Work, start: number, end: number): MalformedReason | null {
  const { bytes, columns, cursor } = work;
  cursor.at = start;
  cursor.end = end;
  if (readUsualLine(bytes, cursor, columns, work)) return keepRow(work, work.stamp, work.name);
  skipSpace(bytes, cursor);
  let stamp: LogStamp | null = null;
  if (bytes[cursor.at] === 0x28 && readLogStamp(bytes, cursor.at, end, work.stamp)) {
    stamp = work.stamp;
    cursor.at = stamp.end;
    skipSpace(bytes, cursor);
  }
  const name = { start: cursor.at, end: cursor.at };
  skipWord(bytes, cursor);
  name.end = cursor.at;
  skipSpace(bytes, cursor);
  if (cursor.at >= end) return 'unknownLine';
  const reason = readLogFrame(bytes, cursor, columns);
  if (reason === null) return keepRow(work, stamp, name);
  if (reason === 'notKept' && stamp !== null) timeOf(work, stamp, channelOf(work, name.start, name.end));
  return reason;
}

/** Keeps the row that was read: its channel and time, and the count. */
function keepRow(work: Work, stamp: LogStamp | null, name: NamePlace): null {
  const { columns } = work;
  const channel = channelOf(work, name.start, name.end);
  const atMs = timeOf(work, stamp, channel);
  if (work.breakDue) columns.breaks.push(columns.count);
  work.breakDue = false;
  const row = columns.count++;
  columns.channel[row] = channel;
  columns.atMs[row] = atMs;
  work.lineMs = atMs;
  work.tally.frames++;
  return null;
}

function timeOf(work: Work, stamp: LogStamp | null, channel: number): number {
  const atMs = timeLine(work.clock, stamp, channel);
  work.breakDue ||= work.clock.broken;
  return atMs;
}

/** Index of the interface by the order seen; names beyond 255 share the last one. */
function channelOf(work: Work, start: number, end: number): number {
  const { bytes, interfaces } = work;
  for (let channel = 0; channel < interfaces.length; channel++) {
    const name = interfaces[channel]!;
    if (name.length !== end - start) continue;
    let same = 0;
    while (same < name.length && name[same] === bytes[start + same]) same++;
    if (same === name.length) return channel;
  }
  if (interfaces.length >= MAX_CHANNELS) return MAX_CHANNELS - 1;
  return interfaces.push(bytes.slice(start, end)) - 1;
}

/** A captured screen may hold colour escapes: the line is tried again without them. */
function tryPlain(work: Work, start: number, end: number): boolean {
  const { bytes } = work;
  if (!bytes.subarray(start, end).includes(ESC)) return false;
  const plain = new Uint8Array(end - start);
  let length = 0;
  for (let at = start; at < end; at++) {
    if (bytes[at] !== ESC || bytes[at + 1] !== 0x5b) {
      plain[length++] = bytes[at]!;
      continue;
    }
    at += 2;
    while (at < end && (bytes[at]! < 0x40 || bytes[at]! > 0x7e)) at++;
  }
  work.bytes = plain;
  const taken = readLine(work, 0, length) === null;
  work.bytes = bytes;
  return taken;
}

/** Comments (`#`, `;`, `//`, a tab for the details of an error frame) and `DROPCOUNT: dropped 3 CAN frames …`. */
function isRemark(work: Work, start: number, end: number): boolean {
  const { bytes } = work;
  const first = bytes[start]!;
  if (first === 0x23 || first === 0x3b || first === 0x2f || first === 0x09) return true;
  const dropped = /^\s*DROPCOUNT: dropped (\d+)/.exec(shownText(bytes, start, end));
  if (dropped) noteLost(work.tally, Number(dropped[1]));
  return dropped !== null;
}

function drop(work: Work, start: number, end: number, reason: MalformedReason): void {
  noteMalformed(work.tally, { reason, atMs: work.lineMs, text: shownText(work.bytes, start, end) });
}
