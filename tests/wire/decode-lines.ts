import type { Reading } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { frameAt, type ShownFrame } from '../../src/wire/frame-at.ts';
import type { DecoderStep, RunningDecoder } from '../../src/wire/running-decoder.ts';
import type { WireNote } from '../../src/wire/wire-decoder.ts';
import { ascii } from './decode-all.ts';

/** All that a decoder gave, in order. `breaks`: readings before which time is not continuous; `frameBreaks` likewise. */
export interface Read {
  readonly decoder: RunningDecoder;
  readonly readings: readonly Reading[];
  readonly breaks: readonly number[];
  readonly frames: readonly ShownFrame[];
  readonly frameBreaks: readonly number[];
  readonly notes: readonly WireNote[];
}

/** A piece of a stream, or an opening of the link anew. */
export type Piece = readonly [atMs: number, bytes: Uint8Array | string] | 'open';

/** Reads pieces, each with its arrival time, to the end (or not, with `ended` false). */
export function readThrough(decoder: RunningDecoder, pieces: readonly Piece[], ended = true): Read {
  const read = { readings: [] as Reading[], breaks: [] as number[], frames: [] as ShownFrame[] };
  const frameBreaks: number[] = [];
  const notes: WireNote[] = [];
  let at = decoder;
  const take = (step: DecoderStep) => {
    at = step.next;
    read.breaks.push(...step.readingBreaks.map((place) => read.readings.length + place));
    read.readings.push(...step.readings);
    for (const batch of step.batches) {
      if (batch.breakBefore) frameBreaks.push(read.frames.length);
      for (let row = 0; row < batch.count; row++) read.frames.push(frameAt(batch, row));
    }
    notes.push(...step.notes);
  };
  for (const piece of pieces) {
    if (piece === 'open') at = at.restart();
    else take(at.step(typeof piece[1] === 'string' ? ascii(piece[1]) : piece[1], millis(piece[0])));
  }
  if (ended) take(at.finish());
  return { ...read, decoder: at, frameBreaks, notes };
}

/** Readings in short: `12 engineSpeed=150`, with "-" where there is no value. */
export const said = ({ readings }: Read): string[] =>
  readings.map(
    ({ atMs, signal, value }) => `${atMs} ${signal}=${value === null ? '-' : Number(value.toPrecision(9))}`,
  );

/** Counts of malformed lines that are not 0. */
export const refused = ({ decoder }: Read): Record<string, number> =>
  Object.fromEntries(Object.entries(decoder.counts.malformed).filter(([, lines]) => lines > 0));
