import type { Millis } from '../quantities/time.ts';

/** How a message came: in one frame, announced to all (BAM), or in a session between two addresses (RTS/CTS). */
export type Carriage = 'single' | 'bam' | 'rts';

/** One J1939 message, joined where it came in several packets. `data` has exactly the announced size, at most 1785 bytes. */
export interface BusMessage {
  /** Arrival of its last frame, on the source's clock; NaN in a log without time. */
  readonly atMs: Millis;
  readonly pgn: number;
  /** channel * 256 + source address, as in readings. */
  readonly origin: number;
  readonly destination: number;
  readonly data: Uint8Array;
  readonly carriage: Carriage;
}

/** Why a transfer did not become a message. */
export type BrokenReason =
  'aborted' | 'out of sequence' | 'timed out' | 'replaced' | 'bad announcement' | 'no session';

/** A transfer that was announced and did not arrive whole. Counted and shown, never silently dropped. */
export interface BrokenTransfer {
  readonly atMs: Millis;
  readonly pgn: number | null;
  readonly origin: number;
  readonly destination: number;
  readonly reason: BrokenReason;
  readonly packets: number;
  readonly expected: number;
  /** Number of the first packet that did not come, where the announcement was heard. */
  readonly firstMissing?: number;
  /** The abort reason byte where it was aborted; null otherwise. */
  readonly abortReason: number | null;
}
