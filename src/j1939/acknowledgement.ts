import type { BusMessage } from './bus-message.ts';
import { PGN } from './group-names.ts';

/** What a controller answers to a request besides data (PGN 59392). */
export type Answer = 'acknowledged' | 'refused' | 'denied' | 'busy';

export interface Acknowledgement {
  readonly atMs: number;
  /** Who answers: channel * 256 + source address. */
  readonly origin: number;
  readonly answer: Answer;
  /** The group that was asked for. */
  readonly pgn: number;
  /** Who had asked; null in older units, which leave it out (FF). */
  readonly askedBy: number | null;
}

const ANSWERS: readonly Answer[] = ['acknowledged', 'refused', 'denied', 'busy'];

/** Reads an acknowledgement (J1939-21; j1939.md, "Requests and acknowledgements"). Null for other groups, short messages, unknown control bytes. */
export function readAcknowledgement(message: BusMessage): Acknowledgement | null {
  const { data } = message;
  const answer = ANSWERS[data[0] ?? ANSWERS.length];
  if (message.pgn !== PGN.acknowledgement || data.length < 8 || answer === undefined) return null;
  return {
    atMs: message.atMs,
    origin: message.origin,
    answer,
    pgn: (data[5]! | (data[6]! << 8) | (data[7]! << 16)) & 0x3ffff,
    askedBy: data[4] === 0xff ? null : data[4]!,
  };
}
