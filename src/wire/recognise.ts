import { millis } from '../quantities/time.ts';
import { canLogDecoder } from './can-log.ts';
import { readingLinesDecoder } from './reading-lines.ts';
import { slcanDecoder } from './slcan.ts';
import type { WireDecoder, WireProtocol } from './wire-decoder.ts';

/** Bytes that are looked at. */
const LOOKED_AT = 8192;

/**
 * Which line protocol the beginning of a file speaks, by trying all on its first 8 KiB: the one that takes more lines, if they are
 * more than those it does not take. Of lines with values only JSON objects: cells under a header are a speed log, of which the
 * person is asked how to read it (src/logs).
 * @returns null if none: no log of frames or of such lines.
 */
export function recogniseWire(bytes: Uint8Array): WireProtocol | null {
  const head = bytes.subarray(0, LOOKED_AT);
  const log = tryOn(canLogDecoder, head).taken;
  const slcan = tryOn(slcanDecoder, head).taken;
  const lines = tryOn(readingLinesDecoder, head);
  const values = lines.state.header === null ? lines.taken : 0;
  const most = Math.max(log, slcan, values);
  if (most === 0) return null;
  if (log === most) return 'candump';
  return slcan === most ? 'slcan' : 'reading-lines';
}

/** Lines taken; 0 unless they outnumber those that were not. Frames not kept (CAN FD) count for it. */
function tryOn<State>(decoder: WireDecoder<State>, head: Uint8Array): { taken: number; state: State } {
  const { state } = decoder.finish(decoder.step(decoder.initial(), head, millis(0)).state);
  const { frames, malformed } = decoder.counts(state);
  const { notKept, ...spoilt } = malformed;
  const taken = frames + notKept;
  const refused = Object.values(spoilt).reduce((sum, lines) => sum + lines, 0);
  return { taken: taken > refused ? taken : 0, state };
}
