import { z } from 'zod';
import type { LinkEvent } from '../link/link-event.ts';
import { QUALITIES, SIGNAL_IDS, type Reading } from '../quantities/reading.ts';
import { millis } from '../quantities/time.ts';
import { AnyNumber, StoredProblem } from '../storage/stored-problem.ts';

const KINDS = ['open', 'bytes', 'reading', 'gap'] as const;

const StoredReading = z.strictObject({
  signal: z.enum(SIGNAL_IDS),
  atMs: AnyNumber,
  value: AnyNumber.nullable(),
  quality: z.enum(QUALITIES),
  origin: AnyNumber,
});
/**
 * A stretch of a recording as stored: one row an event in `atMs` (ms), `kinds` (0 open, 1 bytes, 2 reading, 3 gap) and
 * `lengths` (bytes of a `bytes` event, else 0). What the rows carry stands in order in the lists beside them.
 */
const ChunkColumns = z.strictObject({
  recordingId: z.string(),
  sequence: z.number().int().nonnegative(),
  atMs: z.instanceof(Float64Array),
  kinds: z.instanceof(Uint8Array),
  lengths: z.instanceof(Uint32Array),
  bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array, 'not bytes'),
  readings: z.array(StoredReading),
  gaps: z.array(StoredProblem),
  opens: z.array(z.string()),
});
export const Chunk = ChunkColumns.refine(isConsistent, 'its columns do not belong together');
export type Chunk = z.infer<typeof ChunkColumns>;

/** Packs events into one document. `write` of an `open` event is not kept: nothing can be sent to a recording. */
export function packChunk(recordingId: string, sequence: number, events: readonly LinkEvent[]): Chunk {
  const pieces = events.map((event) => (event.kind === 'bytes' ? event.bytes : null));
  return {
    recordingId,
    sequence,
    atMs: Float64Array.from(events, (event) => event.atMs),
    kinds: Uint8Array.from(events, (event) => KINDS.indexOf(event.kind)),
    lengths: Uint32Array.from(pieces, (piece) => piece?.length ?? 0),
    bytes: joined(pieces.filter((piece) => piece !== null)),
    readings: events.flatMap((event) => (event.kind === 'reading' ? [{ ...event.reading }] : [])),
    gaps: events.flatMap((event) => (event.kind === 'gap' ? [{ ...event.problem }] : [])),
    opens: events.flatMap((event) => (event.kind === 'open' ? [event.device] : [])),
  };
}

/** The events of a parsed chunk, as they were, with `write` null. Byte pieces are views of the chunk's bytes. */
export function unpackChunk(chunk: Chunk): readonly LinkEvent[] {
  let byte = 0;
  const readings = chunk.readings.values();
  const gaps = chunk.gaps.values();
  const opens = chunk.opens.values();
  return Array.from(chunk.kinds, (kind, row): LinkEvent => {
    const atMs = millis(chunk.atMs[row]!);
    switch (KINDS[kind]!) {
      case 'open':
        return { kind: 'open', atMs, device: opens.next().value!, write: null };
      case 'bytes':
        return { kind: 'bytes', atMs, bytes: chunk.bytes.subarray(byte, (byte += chunk.lengths[row]!)) };
      case 'reading':
        return { kind: 'reading', atMs, reading: readings.next().value! as Reading };
      case 'gap':
        return { kind: 'gap', atMs, problem: gaps.next().value! };
    }
  });
}

function isConsistent(chunk: Chunk): boolean {
  const rows = chunk.kinds.length;
  const count = (kind: number) => chunk.kinds.reduce((sum, one) => sum + (one === kind ? 1 : 0), 0);
  return (
    chunk.atMs.length === rows &&
    chunk.lengths.length === rows &&
    chunk.kinds.every((kind) => kind < KINDS.length) &&
    chunk.lengths.reduce((sum, length) => sum + length, 0) === chunk.bytes.length &&
    chunk.lengths.every((length, row) => length === 0 || chunk.kinds[row] === 1) &&
    [count(0), count(2), count(3)].join() ===
      [chunk.opens.length, chunk.readings.length, chunk.gaps.length].join()
  );
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
