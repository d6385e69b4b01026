import { FRAME_EXTENDED, FRAME_REMOTE } from '../wire/frame-batch.ts';

/**
 * Bits that a classic CAN data or remote frame takes on the bus, from the frame formats of ISO 11898-1. Start of frame to the end of the
 * CRC sequence is 34 bits (11-bit identifier) or 54 bits (29-bit) and the data; behind it come the CRC delimiter (1), the
 * acknowledge slot and delimiter (2), end of frame (7) and intermission (3), which are never stuffed.
 */
const STUFFED_STANDARD = 34;
const STUFFED_EXTENDED = 54;
const UNSTUFFED = 13;

/** Least: no stuff bit at all. `dataBytes` 0 for remote frames. */
export const leastBits = (extended: boolean, dataBytes: number): number =>
  (extended ? STUFFED_EXTENDED : STUFFED_STANDARD) + 8 * dataBytes + UNSTUFFED;

/**
 * Most: a stuff bit after the first five equal bits and after every four that follow, floor((n - 1) / 4) for n bits (the usual bound in the
 * analysis of CAN response times; from memory).
 */
export function mostBits(extended: boolean, dataBytes: number): number {
  const stuffed = (extended ? STUFFED_EXTENDED : STUFFED_STANDARD) + 8 * dataBytes;
  return stuffed + Math.floor((stuffed - 1) / 4) + UNSTUFFED;
}

const EXTENDED_ROW = 9;

/** Row of LEAST_BITS and MOST_BITS for a frame: length 0 to 8, and 9 more for a 29-bit identifier. */
export const bitsRow = (flags: number, length: number): number =>
  ((flags & FRAME_REMOTE) === 0 ? Math.min(length, 8) : 0) +
  ((flags & FRAME_EXTENDED) === 0 ? 0 : EXTENDED_ROW);

const ROWS = Array.from({ length: 2 * EXTENDED_ROW }, (_, row) => row);
/** The figures by `bitsRow`. Never written to. */
export const LEAST_BITS = Float64Array.from(ROWS, (row) =>
  leastBits(row >= EXTENDED_ROW, row % EXTENDED_ROW),
);
export const MOST_BITS = Float64Array.from(ROWS, (row) => mostBits(row >= EXTENDED_ROW, row % EXTENDED_ROW));
