import { FRAME_EXTENDED } from './frame-batch.ts';
import { reserveRow, type FrameColumns } from './frame-columns.ts';
import { HEX_VALUE } from './hex-digits.ts';
import type { LogCursor } from './log-frame.ts';
import type { LogStamp } from './log-stamp.ts';

/** Where the interface name of a line stands. */
export interface NamePlace {
  start: number;
  end: number;
}

const SPACE = 0x20;
const HASH = 0x23;
/** `(`, ten digits, `.`, six digits, `)`, space. */
const POINT_AT = 11;
const CLOSE_AT = 18;
const NAME_AT = 20;
const LARGEST_ID = 0x1fffffff;

/**
 * The line that logs are full of, `(1589326646.631333) can0 18FEF700#FFFFFFFFF200FFFF`, read in one go into the row
 * `columns.count`, all but time and channel: most of the time of a long log goes by here. Every other form of line is left to the
 * general reader. @returns false if the line is not of this form; then nothing that counts was changed.
 */
export function readUsualLine(
  bytes: Uint8Array,
  cursor: LogCursor,
  columns: FrameColumns,
  into: { readonly stamp: LogStamp; readonly name: NamePlace },
): boolean {
  const { at: start, end } = cursor;
  const ms = usualStamp(bytes, start, end);
  if (ms < 0) return false;
  const nameStart = start + NAME_AT;
  let at = nameStart;
  while (at < end && bytes[at]! > SPACE) at++;
  const hash = at + 9;
  if (at === nameStart || hash >= end || bytes[at] !== SPACE || bytes[hash] !== HASH) return false;
  const id = hexOf(bytes, at + 1, hash);
  if (id < 0 || id > LARGEST_ID) return false;
  reserveRow(columns);
  if (!usualData(bytes, hash + 1, end, columns)) return false;
  columns.id[columns.count] = id;
  columns.flags[columns.count] = FRAME_EXTENDED;
  into.stamp.ms = ms;
  into.stamp.kind = 'absolute';
  into.name.start = nameStart;
  into.name.end = at;
  return true;
}

/** Time since 1970 in ms, -1 where the stamp is of another form. The sum is that of the general reader, to the last bit. */
function usualStamp(bytes: Uint8Array, start: number, end: number): number {
  if (end - start <= NAME_AT || bytes[start] !== 0x28 || bytes[start + POINT_AT] !== 0x2e) return -1;
  if (bytes[start + CLOSE_AT] !== 0x29 || bytes[start + CLOSE_AT + 1] !== SPACE) return -1;
  const seconds = decimalOf(bytes, start + 1, start + POINT_AT);
  const micros = decimalOf(bytes, start + POINT_AT + 1, start + CLOSE_AT);
  return seconds < 1e9 || micros < 0 ? -1 : seconds * 1000 + micros / 1e3;
}

function decimalOf(bytes: Uint8Array, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at++) {
    const digit = bytes[at]! - 0x30;
    if (digit < 0 || digit > 9) return -1;
    value = value * 10 + digit;
  }
  return value;
}

function hexOf(bytes: Uint8Array, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at++) {
    const digit = HEX_VALUE[bytes[at]!]!;
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
}

/** Up to eight whole pairs of digits up to the end of the line, into the row; false where anything else stands there. */
function usualData(bytes: Uint8Array, from: number, end: number, columns: FrameColumns): boolean {
  const digits = end - from;
  if (digits > 16 || digits % 2 !== 0) return false;
  const { data, count } = columns;
  const base = count * 8;
  let row = base;
  for (let at = from; at < end; at += 2, row++) {
    const value = (HEX_VALUE[bytes[at]!]! << 4) | HEX_VALUE[bytes[at + 1]!]!;
    if (value < 0) return false;
    data[row] = value;
  }
  data.fill(0, row, base + 8);
  columns.length[count] = digits / 2;
  return true;
}
