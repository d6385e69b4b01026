import { millis } from '../quantities/time.ts';
import { canLogDecoder } from './can-log.ts';
import { slcanDecoder } from './slcan.ts';
import type { WireDecoder, WireProtocol } from './wire-decoder.ts';

/** Bytes that are looked at. */
const LOOKED_AT = 8192;

/**
 * Which line protocol the beginning of a file or stream speaks, by trying both on its first 8 KiB: the one that takes
 * more frames, if they are more than the lines it does not take.
 * @returns null if neither: not a log of CAN frames.
 */
export function recogniseWire(bytes: Uint8Array): WireProtocol | null {
  const head = bytes.subarray(0, LOOKED_AT);
  const log = framesTaken(canLogDecoder, head);
  const slcan = framesTaken(slcanDecoder, head);
  if (log === 0 && slcan === 0) return null;
  return log >= slcan ? 'candump' : 'slcan';
}

/** Frames taken; 0 unless they outnumber the lines that were not taken. Frames not kept (CAN FD) count for it. */
function framesTaken<State>(decoder: WireDecoder<State>, head: Uint8Array): number {
  const state = decoder.finish(decoder.step(decoder.initial(), head, millis(0)).state).state;
  const { frames, malformed } = decoder.counts(state);
  const { notKept, ...spoilt } = malformed;
  const taken = frames + notKept;
  return taken > Object.values(spoilt).reduce((sum, lines) => sum + lines, 0) ? taken : 0;
}
