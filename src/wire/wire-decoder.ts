import type { Reading } from '../quantities/reading.ts';
import type { Millis } from '../quantities/time.ts';
import type { FrameBatch } from './frame-batch.ts';

/** The line protocols that a byte stream may speak. */
export type WireProtocol = 'slcan' | 'candump' | 'reading-lines';

/** Why a line was not taken. Counted and shown, never thrown. */
export const MALFORMED_REASONS = [
  'unknownLine',
  'badHex',
  'wrongLength',
  'idTooLarge',
  'tooLong',
  'cutLine',
  'notKept',
  'badValue',
] as const;
export type MalformedReason = (typeof MALFORMED_REASONS)[number];

/** A line that was not taken, with the beginning of its text for showing. */
export interface Malformed {
  readonly reason: MalformedReason;
  readonly atMs: number;
  readonly text: string;
}

/** Something the stream said that is not a frame. */
export type WireNote =
  | { readonly kind: 'ack' } // a bare CR, z or Z
  | { readonly kind: 'refused' } // BEL
  | { readonly kind: 'reply'; readonly text: string } // V…, N…, F…, s…, e…: as received
  | { readonly kind: 'unknownKey'; readonly text: string } // a name in a reading line that means nothing here; told once
  | { readonly kind: 'lost'; readonly frames: number | null }; // the bridge or logger says it dropped some

/** What is known of the clock of the stream so far. */
export type WireClock = 'unknown' | 'arrival' | 'source' | 'none';

/**
 * State of a decoder between two chunks. Immutable from outside; `malformed` counts by reason.
 * `recentMalformed` holds the last few for showing.
 */
export interface WireCounts {
  readonly lines: number;
  /** Frames taken; of lines that carry values, those that gave readings. */
  readonly frames: number;
  readonly bytes: number;
  readonly malformed: Readonly<Record<MalformedReason, number>>;
  readonly recentMalformed: readonly Malformed[];
  readonly lost: number;
}

export interface WireStep<State> {
  readonly state: State;
  readonly batches: readonly FrameBatch[];
  /** From line protocols that carry values instead of frames; they come before or after all batches of their step. */
  readonly readings: readonly Reading[];
  /** Places in `readings` before which time is not continuous, rising; its length where the break comes behind all of them. */
  readonly readingBreaks?: readonly number[];
  readonly notes: readonly WireNote[];
}

/**
 * Bytes to frames as a reducer: the same bytes give the same frames however they are cut into chunks
 * (a frame's arrival time is that of the chunk that holds its terminator). Never throws, on any bytes.
 */
export interface WireDecoder<State> {
  readonly protocol: WireProtocol;
  initial(): State;
  /** The link was opened again: an unfinished line and the clock's anchor are forgotten, the counts go on. */
  restart(state: State): State;
  step(state: State, bytes: Uint8Array, arrivalMs: Millis): WireStep<State>;
  /** The input has ended: an unterminated last line is taken if it is whole, else counted as `cutLine`. */
  finish(state: State): WireStep<State>;
  counts(state: State): WireCounts;
  clock(state: State): WireClock;
}
