import { FRAME_ERROR, FRAME_EXTENDED, FRAME_REMOTE, FRAME_SENT } from './frame-batch.ts';
import { reserveRow, type FrameColumns } from './frame-columns.ts';
import { HEX_VALUE } from './hex-digits.ts';
import type { MalformedReason } from './wire-decoder.ts';

/** A line being read: where it ends, and where reading stands. */
export interface LogCursor {
  at: number;
  end: number;
}

const SPACE = 0x20;
const HASH = 0x23;
const TICK = 0x60;

/** Moves over white space. */
export function skipSpace(bytes: Uint8Array, cursor: LogCursor): void {
  let { at } = cursor;
  while (at < cursor.end && bytes[at]! <= SPACE) at++;
  cursor.at = at;
}

/** Moves over everything up to white space. */
export function skipWord(bytes: Uint8Array, cursor: LogCursor): void {
  let { at } = cursor;
  while (at < cursor.end && bytes[at]! > SPACE) at++;
  cursor.at = at;
}

/**
 * Reads the frame part of a line, log format (`18FEF700#FFFF`) or screen format (`18FEF700   [8]  FF …`), after the
 * interface name, into the row `columns.count`, all but time and channel. Source: can-text-formats.md, Part 2.
 * @returns null, or why the line is no frame.
 */
export function readLogFrame(
  bytes: Uint8Array,
  cursor: LogCursor,
  columns: FrameColumns,
): MalformedReason | null {
  reserveRow(columns);
  const row = columns.count;
  clearRow(columns);
  let flags = skipDirection(bytes, cursor);
  const idStart = cursor.at;
  const id = readId(bytes, cursor);
  const digits = cursor.at - idStart;
  const inLog = cursor.at < cursor.end && bytes[cursor.at] === HASH;
  if (digits !== 3 && digits !== 8)
    return digits === 5 && inLog && isXl(bytes, cursor) ? 'notKept' : 'unknownLine';
  if (id > (digits === 3 ? 0x7ff : 0x3fffffff)) return 'idTooLarge';
  if (digits === 8) flags |= id > 0x1fffffff ? FRAME_ERROR : FRAME_EXTENDED;
  columns.id[row] = id & 0x1fffffff;
  columns.flags[row] = flags;
  return inLog ? readLogRest(bytes, cursor, columns) : readScreenRest(bytes, cursor, columns);
}

function clearRow({ data, count }: FrameColumns): void {
  for (let at = count * 8, end = at + 8; at < end; at++) data[at] = 0;
}

/** The number that the hex digits at the cursor make; the cursor moves behind them. */
function readId(bytes: Uint8Array, cursor: LogCursor): number {
  let id = 0;
  let { at } = cursor;
  for (; at < cursor.end; at++) {
    const digit = HEX_VALUE[bytes[at]!]!;
    if (digit < 0) break;
    id = id * 16 + digit;
  }
  cursor.at = at;
  return id;
}

/** CAN XL in log format: colons between its parts. */
const isXl = (bytes: Uint8Array, { at, end }: LogCursor): boolean => bytes.subarray(at, end).includes(0x3a);

/** `RX` or `TX` and the two flag columns `- -` or `B E` of `candump -x`. */
function skipDirection(bytes: Uint8Array, cursor: LogCursor): number {
  const letter = bytes[cursor.at]!;
  if ((letter !== 0x52 && letter !== 0x54) || (bytes[cursor.at + 1]! | 0x20) !== 0x78) return 0;
  skipWord(bytes, cursor);
  skipSpace(bytes, cursor);
  while (cursor.at + 1 < cursor.end && bytes[cursor.at + 1]! === SPACE) {
    cursor.at++;
    skipSpace(bytes, cursor);
  }
  return letter === 0x54 ? FRAME_SENT : 0;
}

function readLogRest(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns): MalformedReason | null {
  const row = columns.count;
  let at = cursor.at + 1;
  const next = at < cursor.end ? bytes[at]! : 0;
  const fd = next === HASH;
  if (fd) {
    if (at + 1 >= cursor.end || HEX_VALUE[bytes[at + 1]!]! < 0) return 'badHex';
    at += 2;
  }
  columns.length[row] = 0;
  cursor.at = at;
  if (!fd && (next | 0x20) === 0x72) return readRemote(bytes, cursor, columns);
  const count = readPairs(bytes, cursor, columns);
  if (count < 0) return 'wrongLength';
  if (count > 8) return fd && count <= 64 ? 'notKept' : 'wrongLength';
  columns.length[row] = count;
  return readTail(bytes, cursor, columns);
}

function readRemote(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns): MalformedReason | null {
  columns.flags[columns.count]! |= FRAME_REMOTE;
  cursor.at++;
  const digit = cursor.at < cursor.end ? bytes[cursor.at]! - 0x30 : -1;
  if (digit >= 0 && digit <= 9) {
    if (digit > 8) return 'wrongLength';
    columns.length[columns.count] = digit;
    cursor.at++;
  }
  return readTail(bytes, cursor, columns);
}

/** Pairs of digits, dots between them allowed: how many, or -1 if one is half. Keeps the first 8. */
function readPairs(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns): number {
  const { data } = columns;
  const { end } = cursor;
  const base = columns.count * 8;
  let at = cursor.at;
  let count = 0;
  while (at < end) {
    const high = HEX_VALUE[bytes[at]!]!;
    if (high < 0) {
      if (bytes[at] !== 0x2e || count === 0) break;
      at++;
      continue;
    }
    const low = at + 1 < end ? HEX_VALUE[bytes[at + 1]!]! : -1;
    if (low < 0) return -1;
    if (count < 8) data[base + count] = (high << 4) | low;
    count++;
    at += 2;
  }
  cursor.at = at;
  return count;
}

/** `_E` (raw length code) and ` R` / ` T` (direction) may stand at the end; anything else spoils the line. */
function readTail(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns): MalformedReason | null {
  if (cursor.at < cursor.end && bytes[cursor.at] === 0x5f) {
    const code = cursor.at + 1 < cursor.end ? HEX_VALUE[bytes[cursor.at + 1]!]! : -1;
    if (code < 9 || columns.length[columns.count] !== 8) return 'wrongLength';
    cursor.at += 2;
  }
  if (cursor.at >= cursor.end) return null;
  if (bytes[cursor.at]! > SPACE) return 'badHex';
  skipSpace(bytes, cursor);
  const letter = bytes[cursor.at]!;
  if (cursor.end - cursor.at !== 1 || (letter !== 0x52 && letter !== 0x54)) return 'badHex';
  if (letter === 0x54) columns.flags[columns.count]! |= FRAME_SENT;
  return null;
}

function readScreenRest(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns): MalformedReason | null {
  skipSpace(bytes, cursor);
  const row = columns.count;
  const size = readSize(bytes, cursor);
  if (size < 0) return 'unknownLine';
  if (size > 64) return 'notKept';
  columns.length[row] = size;
  skipSpace(bytes, cursor);
  if (cursor.at < cursor.end && bytes[cursor.at] === 0x72) {
    columns.flags[row]! |= FRAME_REMOTE;
    return size > 8 ? 'wrongLength' : null;
  }
  const count = readSpacedPairs(bytes, cursor, columns, size);
  if (count < size) return 'wrongLength';
  if (size > 8) return 'notKept';
  skipSpace(bytes, cursor);
  const { at } = cursor;
  if (at + 1 < cursor.end && bytes[at] === 0x45 && bytes[at + 1] === 0x52) columns.flags[row]! |= FRAME_ERROR;
  return null;
}

/** `[8]` classic, `[08]` CAN FD, `[0008]` CAN XL (given as 65: not kept), `{B}` raw length code. -1 if neither. */
function readSize(bytes: Uint8Array, cursor: LogCursor): number {
  const open = bytes[cursor.at];
  const { at, end } = cursor;
  if (at + 2 < end && open === 0x7b && bytes[at + 2] === 0x7d) {
    cursor.at = at + 3;
    return Math.min(8, HEX_VALUE[bytes[at + 1]!]!);
  }
  return open === 0x5b ? readBracketed(bytes, cursor) : -1;
}

function readBracketed(bytes: Uint8Array, cursor: LogCursor): number {
  const { at, end } = cursor;
  let size = 0;
  let to = at + 1;
  for (; to < end && bytes[to]! >= 0x30 && bytes[to]! <= 0x39; to++) size = size * 10 + bytes[to]! - 0x30;
  const digits = to - at - 1;
  if (to >= end || bytes[to] !== 0x5d || digits === 0) return -1;
  cursor.at = to + 1;
  if (digits > 2) return 65;
  return digits === 1 && size > 8 ? -1 : size;
}

/** Pairs between white space, at most `size`; with back-ticks between them (`-S`) they stand in reverse. */
function readSpacedPairs(bytes: Uint8Array, cursor: LogCursor, columns: FrameColumns, size: number): number {
  const { data, count: row } = columns;
  let at = cursor.at;
  let count = 0;
  let ticks = false;
  while (count < size && at + 1 < cursor.end) {
    const value = (HEX_VALUE[bytes[at]!]! << 4) | HEX_VALUE[bytes[at + 1]!]!;
    const after = at + 2 < cursor.end ? bytes[at + 2]! : SPACE;
    if (value < 0 || !isBetween(after)) break;
    if (count < 8) data[row * 8 + count] = value;
    count++;
    ticks ||= after === TICK;
    at += 2;
    while (at < cursor.end && isBetween(bytes[at]!)) at++;
  }
  cursor.at = at;
  if (ticks && size <= 8) data.subarray(row * 8, row * 8 + count).reverse();
  return count;
}

const isBetween = (byte: number): boolean => byte <= SPACE || byte === TICK;
