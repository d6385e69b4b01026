import type { Announcement } from './transfer.ts';

/** A connection management message (TP.CM, PGN 60416) of J1939-21. */
export type ControlMessage =
  | Announcement
  | { readonly kind: 'cts'; readonly packets: number; readonly next: number; readonly pgn: number }
  | { readonly kind: 'end'; readonly packets: number; readonly pgn: number }
  | { readonly kind: 'abort'; readonly reason: number; readonly pgn: number };

const LENGTH = 8;

/** Reason bytes of an Abort in plain words (J1939-21; j1939.md, transport protocol). */
const ABORT_REASONS: Readonly<Record<number, string>> = {
  1: 'busy with another transfer',
  2: 'out of memory or other resources',
  3: 'waited too long',
  4: 'told to send while sending',
  5: 'asked too often for the same packets',
  6: 'packet that was not expected',
  7: 'wrong packet number',
  8: 'packet number came twice',
  9: 'message larger than 1785 bytes',
  250: 'other reason',
};

/** An Abort's reason byte in plain words; numbers without a meaning are given as such. */
export const abortReasonText = (reason: number): string =>
  ABORT_REASONS[reason] ?? (reason === 0xff ? 'no reason given' : `reason ${reason}`);

/**
 * Reads the bytes of a TP.CM. Null where the control byte is none of the five, or the message is too short to be read.
 * An announcement that is too short is given with size 0, so that it is reported as a bad one.
 */
export function readControl(data: Uint8Array): ControlMessage | null {
  const kind = data[0];
  const announces = kind === 16 ? 'rts' : kind === 32 ? 'bam' : null;
  if (data.length < LENGTH) return announces && { kind: announces, sizeBytes: 0, packets: 0, pgn: NaN };
  const pgn = data[5]! | (data[6]! << 8) | (data[7]! << 16);
  const packets = data[3]!;
  if (announces) return { kind: announces, sizeBytes: data[1]! | (data[2]! << 8), packets, pgn };
  if (kind === 17) return { kind: 'cts', packets: data[1]!, next: data[2]!, pgn };
  if (kind === 19) return { kind: 'end', packets, pgn };
  return kind === 0xff ? { kind: 'abort', reason: data[1]!, pgn } : null;
}
