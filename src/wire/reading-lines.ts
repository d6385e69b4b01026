import { NO_ORIGIN, type Reading } from '../quantities/reading.ts';
import { millis, type Millis } from '../quantities/time.ts';
import { timeStamped, timeUnstamped, untied, UNTIED_CLOCK, type AnchoredClock } from './anchored-clock.ts';
import { joinBytes } from './join-bytes.ts';
import {
  readHeader,
  readJsonLine,
  readRow,
  type LineContent,
  type LineHeader,
  type LineResult,
} from './reading-cells.ts';
import type { MalformedReason, WireCounts, WireDecoder, WireStep } from './wire-decoder.ts';
import {
  countCutLine,
  countsOf,
  isBlank,
  NO_COUNTS,
  noteMalformed,
  shownText,
  tallyFrom,
  type WireTally,
} from './wire-tally.ts';

/** All signals with their units in one object come to some 900 characters; a longer run is junk. */
export const READING_LINE_LIMIT = 4096;
/** Unknown keys told of; more than these are ignored without a word. */
const KEYS_TOLD = 32;

const CR = 0x0d;
const LF = 0x0a;
const NOTHING = new Uint8Array(0);

export interface ReadingLinesState {
  readonly counts: WireCounts;
  readonly clock: AnchoredClock;
  /** The header that rows are read by; null before one has come. */
  readonly header: LineHeader | null;
  /** Unknown keys that a note has told of. */
  readonly told: readonly string[];
  readonly rest: Uint8Array;
  readonly skipping: boolean;
  /** What comes now begins at a line's beginning. */
  readonly inStep: boolean;
  /** Null: a file. */
  readonly arrivalMs: number | null;
}

interface Work extends Pick<ReadingLinesState, 'clock'> {
  readonly bytes: Uint8Array;
  readonly tally: WireTally;
  readonly arrivalMs: number | null;
  readonly readings: Reading[];
  readonly breaks: number[];
  header: LineHeader | null;
  told: readonly string[];
  skipping: boolean;
  inStep: boolean;
}

/**
 * Lines with values, as a sketch on a microcontroller prints them: JSON objects one a line, or cells under a header that may come
 * again at any time. Blank lines and lines with `#` are skipped; everything else that does not fit is counted. CR, LF and CR LF
 * end a line. `counts.frames` are the lines that gave readings. What is accepted: reading-cells.ts, reading-keys.ts.
 * This one is for files: time is `t` as it stands, NaN without.
 */
export const readingLinesDecoder = decoderFrom(null);

/** The same for a link: `t` tied to arrival, arrival where there is none. */
export const liveReadingLinesDecoder = decoderFrom(0);

function decoderFrom(arrivalMs: number | null): WireDecoder<ReadingLinesState> {
  const live = arrivalMs !== null;
  return {
    protocol: 'reading-lines',
    initial: () => ({
      counts: NO_COUNTS,
      clock: UNTIED_CLOCK,
      header: null,
      told: [],
      rest: NOTHING,
      skipping: false,
      inStep: !live,
      arrivalMs,
    }),
    restart: startAgain,
    step: (state, bytes, atMs) => decodeChunk(live ? { ...state, arrivalMs: atMs } : state, bytes),
    finish: finishLine,
    counts: (state) => state.counts,
    clock: (state) => state.clock.used,
  };
}

/** The header is kept: a board that goes on without a new start sends none. */
function startAgain(state: ReadingLinesState): ReadingLinesState {
  if (state.counts.bytes === 0) return state;
  const counts = countCutLine(state.counts, state.rest, state.arrivalMs ?? NaN);
  return { ...state, counts, clock: untied(state.clock), rest: NOTHING, skipping: false, inStep: false };
}

function decodeChunk(state: ReadingLinesState, fresh: Uint8Array): WireStep<ReadingLinesState> {
  const work = workOn(state, joinBytes(state.rest, fresh));
  work.tally.bytes += fresh.length;
  const { bytes } = work;
  let start = 0;
  for (let at = state.rest.length; at < bytes.length; at++) {
    if (bytes[at] !== CR && bytes[at] !== LF) continue;
    endLine(work, start, at);
    start = at + 1;
  }
  if (bytes.length - start > READING_LINE_LIMIT && !work.skipping) {
    drop(work, start, bytes.length, 'tooLong');
    work.skipping = true;
  }
  return seal(work, work.skipping ? NOTHING : bytes.slice(start));
}

/** The last line is taken if it is an object, which shows its end; the last number of a row might go on. */
function finishLine(state: ReadingLinesState): WireStep<ReadingLinesState> {
  const work = workOn(state, state.rest);
  const text = textOf(state.rest, 0, state.rest.length);
  if (isBlank(state.rest) || text.startsWith('#')) return seal(work, NOTHING);
  work.tally.lines++;
  const result: LineResult = text.startsWith('{')
    ? readJsonLine(text)
    : { kind: 'malformed', reason: 'cutLine' };
  if (result.kind === 'content') takeContent(work, result.content);
  else drop(work, 0, state.rest.length, 'cutLine');
  return seal(work, NOTHING);
}

const workOn = (state: ReadingLinesState, bytes: Uint8Array): Work => ({
  bytes,
  tally: tallyFrom(state.counts),
  clock: { ...state.clock },
  arrivalMs: state.arrivalMs,
  readings: [],
  breaks: [],
  header: state.header,
  told: state.told,
  skipping: state.skipping,
  inStep: state.inStep,
});

function seal(work: Work, rest: Uint8Array): WireStep<ReadingLinesState> {
  const { tally, clock, header, told, skipping, inStep, arrivalMs, readings, breaks } = work;
  const state = { counts: countsOf(tally), clock, header, told, rest, skipping, inStep, arrivalMs };
  return { state, batches: [], readings, readingBreaks: breaks, notes: tally.notes };
}

function endLine(work: Work, start: number, end: number): void {
  if (work.skipping) work.skipping = false;
  else if (end - start > READING_LINE_LIMIT) drop(work, start, end, 'tooLong');
  else takeLine(work, start, end);
  work.inStep = true;
}

function takeLine(work: Work, start: number, end: number): void {
  const text = textOf(work.bytes, start, end);
  if (text === '') return;
  work.tally.lines++;
  if (text.startsWith('#')) return;
  const result = text.startsWith('{') ? readJsonLine(text) : readCells(work, text);
  if (result?.kind === 'content') takeContent(work, result.content);
  else if (result) drop(work, start, end, result.reason);
}

/** A header or a row. The first line behind an opening may lack its beginning: no row, and no header with fewer names. */
function readCells(work: Work, text: string): LineResult | null {
  const header = readHeader(text);
  const { header: known, inStep } = work;
  if (header && (inStep || header.names.length >= (known?.names.length ?? 0))) {
    work.header = header;
    return null;
  }
  if (!inStep) return { kind: 'malformed', reason: 'cutLine' };
  return known ? readRow(text, known) : { kind: 'malformed', reason: 'unknownLine' };
}

function takeContent(work: Work, { stamp, values, unknown }: LineContent): void {
  const { clock, arrivalMs, readings, tally } = work;
  tellUnknown(work, unknown);
  if (values.length === 0 && stamp === null) return;
  const atMs = stamp
    ? timeStamped(clock, stamp.ms, arrivalMs, { periodMs: stamp.periodMs, disorderMs: 0 })
    : timeUnstamped(clock, arrivalMs);
  if (clock.broken) work.breaks.push(readings.length);
  if (values.length === 0) return;
  tally.frames++;
  for (const { signal, value } of values) readings.push(readingAt(signal, value, millis(atMs)));
}

const readingAt = (signal: Reading['signal'], value: number | null, atMs: Millis): Reading => ({
  signal,
  atMs,
  value,
  quality: value === null ? 'notAvailable' : 'valid',
  origin: NO_ORIGIN,
});

function tellUnknown(work: Work, keys: readonly string[]): void {
  for (const key of keys) {
    const text = key.slice(0, 48);
    if (work.told.length >= KEYS_TOLD || work.told.includes(text)) continue;
    work.told = [...work.told, text];
    work.tally.notes.push({ kind: 'unknownKey', text });
  }
}

/** A line as text, a character a byte, without white space around it. */
function textOf(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  for (let at = start; at < end; at++) text += String.fromCharCode(bytes[at]!);
  return text.trim();
}

function drop(work: Work, start: number, end: number, reason: MalformedReason): void {
  noteMalformed(work.tally, {
    reason,
    atMs: work.arrivalMs ?? work.clock.lastMs,
    text: shownText(work.bytes, start, end),
  });
}
