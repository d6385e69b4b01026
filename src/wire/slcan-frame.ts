import { FRAME_EXTENDED, FRAME_REMOTE } from './frame-batch.ts';
import { reserveRow, type FrameColumns } from './frame-columns.ts';
import { HEX_VALUE, hexNumber } from './hex-digits.ts';
import type { MalformedReason } from './wire-decoder.ts';

/** What came with a frame beside its columns: the raw stamp, and how many digits it had (0: none). */
export interface FrameStamp {
  stamp: number;
  digits: 0 | 4 | 8;
}

const EXTENDED = 1;
const REMOTE = 2;
const FD = 4;
const NO_HEX = -1;
/** Flags of a row by `EXTENDED | REMOTE`. */
const KIND_FLAGS: readonly number[] = [0, FRAME_EXTENDED, FRAME_REMOTE, FRAME_EXTENDED | FRAME_REMOTE];
const FD_LENGTH: readonly number[] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 12, 16, 20, 24, 32, 48, 64];

/** Kind of frame by the type letter, whose case matters; -1 for any other byte. `x` is `T` of one adapter family. */
export function frameKind(letter: number): number {
  switch (letter) {
    case 0x74: // t
      return 0;
    case 0x54: // T
    case 0x78: // x
      return EXTENDED;
    case 0x72: // r
      return REMOTE;
    case 0x52: // R
      return EXTENDED | REMOTE;
    case 0x64: // d
    case 0x62: // b
      return FD;
    case 0x44: // D
    case 0x42: // B
      return FD | EXTENDED;
    default:
      return -1;
  }
}

/**
 * Reads one frame line without its terminator into the row `columns.count` (which the caller then counts),
 * and its stamp into `stamp`. The length must fit exactly.
 * @returns null, or why the line is no frame. Source: can-text-formats.md, Part 1, "Received frames".
 */
export function readFrame(
  bytes: Uint8Array,
  span: { start: number; end: number },
  columns: FrameColumns,
  stamp: FrameStamp,
): MalformedReason | null {
  const { start, end } = span;
  const kind = frameKind(bytes[start]!);
  if (kind < 0) return 'unknownLine';
  const extended = kind & EXTENDED;
  const lengthAt = start + (extended ? 9 : 4);
  if (end <= lengthAt) return 'wrongLength';
  const id = hexNumber(bytes, start + 1, lengthAt);
  if (id < 0) return 'badHex';
  if (id > (extended ? 0x1fffffff : 0x7ff)) return 'idTooLarge';
  const length = readLength(bytes[lengthAt]!, kind);
  if (length < 0) return length === NO_HEX ? 'badHex' : 'wrongLength';
  const dataEnd = lengthAt + 1 + dataDigits(kind, length);
  const reason = readStamp(bytes, { start: dataEnd, end }, (kind & FD) !== 0, stamp);
  if (reason !== null) return reason;
  reserveRow(columns);
  if (!readBytes(bytes, lengthAt + 1, dataEnd, columns)) return 'badHex';
  if (length > 8) return 'notKept';
  const row = columns.count;
  columns.id[row] = id;
  columns.length[row] = length;
  columns.channel[row] = 0;
  columns.flags[row] = KIND_FLAGS[kind & (EXTENDED | REMOTE)]!;
  return null;
}

const dataDigits = (kind: number, length: number): number => (kind & REMOTE ? 0 : length * 2);

/** Bytes of data by the length digit, `NO_HEX`, or -2 for a digit that no frame of this kind has. */
function readLength(byte: number, kind: number): number {
  const code = HEX_VALUE[byte]!;
  if (code < 0) return NO_HEX;
  return code > 8 && !(kind & FD) ? -2 : FD_LENGTH[code]!;
}

/** Reads all pairs, keeps the first 8 and clears the rest of the row. False if a pair is no hex. */
function readBytes(bytes: Uint8Array, start: number, end: number, columns: FrameColumns): boolean {
  const { data } = columns;
  let to = columns.count * 8;
  const rowEnd = to + 8;
  for (let at = start; at < end; at += 2) {
    const value = (HEX_VALUE[bytes[at]!]! << 4) | HEX_VALUE[bytes[at + 1]!]!;
    if (value < 0) return false;
    if (to < rowEnd) data[to++] = value;
  }
  while (to < rowEnd) data[to++] = 0;
  return true;
}

/**
 * What is left after the data: nothing, 4 digits (ms), 8 digits (us), and one digit 0 or 1 more where the error
 * state is told (alone only after CAN FD frames, where it has a meaning).
 */
function readStamp(
  bytes: Uint8Array,
  span: { start: number; end: number },
  fd: boolean,
  stamp: FrameStamp,
): MalformedReason | null {
  let rest = span.end - span.start;
  stamp.digits = 0;
  if (rest === 5 || rest === 9 || (fd && rest === 1)) {
    if ((bytes[span.end - 1]! & 0xfe) !== 0x30) return 'wrongLength';
    rest--;
  }
  if (rest === 0) return null;
  if (rest !== 4 && rest !== 8) return 'wrongLength';
  const value = hexNumber(bytes, span.start, span.start + rest);
  if (value < 0) return 'badHex';
  // A stamp beyond its period is no stamp; the frame is whole all the same.
  if (value < (rest === 4 ? 60_000 : 3_600_000_000)) {
    stamp.stamp = value;
    stamp.digits = rest;
  }
  return null;
}
