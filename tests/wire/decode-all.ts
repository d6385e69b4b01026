import { millis } from '../../src/quantities/time.ts';
import { frameAt, type ShownFrame } from '../../src/wire/frame-at.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import type { WireCounts, WireDecoder, WireNote } from '../../src/wire/wire-decoder.ts';

export interface Decoded {
  readonly frames: readonly ShownFrame[];
  readonly batches: readonly FrameBatch[];
  readonly notes: readonly WireNote[];
  readonly counts: WireCounts;
  readonly clock: string;
  /** Frames before which time is not continuous. */
  readonly breaks: readonly number[];
}

/** ASCII text as bytes. */
export const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** Decodes pieces, each with its arrival time, to the end. */
export function decodePieces<State>(
  decoder: WireDecoder<State>,
  pieces: readonly (readonly [atMs: number, bytes: Uint8Array])[],
): Decoded {
  const batches: FrameBatch[] = [];
  const notes: WireNote[] = [];
  let state = decoder.initial();
  for (const [atMs, bytes] of pieces) {
    const step = decoder.step(state, bytes, millis(atMs));
    batches.push(...step.batches);
    notes.push(...step.notes);
    state = step.state;
  }
  const last = decoder.finish(state);
  batches.push(...last.batches);
  notes.push(...last.notes);
  const breaks: number[] = [];
  let row = 0;
  for (const batch of batches) {
    if (batch.breakBefore) breaks.push(row);
    row += batch.count;
  }
  const frames = batches.flatMap((batch) => Array.from({ length: batch.count }, (_, i) => frameAt(batch, i)));
  return {
    frames,
    batches,
    notes,
    breaks,
    counts: decoder.counts(last.state),
    clock: decoder.clock(last.state),
  };
}

/** One text in one piece, arriving at 1000 ms. */
export const decodeText = <State>(decoder: WireDecoder<State>, text: string): Decoded =>
  decodePieces(decoder, [[1000, ascii(text)]]);

/** A frame in short: id in hex (8 digits if extended), data in hex or R and the length. */
export const short = ({ id, extended, remote, length, data }: ShownFrame): string =>
  `${id.toString(16).padStart(extended ? 8 : 3, '0')}#${remote ? `R${length}` : data.map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;

export const malformedOf = ({ counts }: Decoded): Record<string, number> =>
  Object.fromEntries(Object.entries(counts.malformed).filter(([, lines]) => lines > 0));
