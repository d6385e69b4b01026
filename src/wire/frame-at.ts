import { FRAME_ERROR, FRAME_EXTENDED, FRAME_REMOTE, FRAME_SENT, type FrameBatch } from './frame-batch.ts';

/** One row of a batch as an object, for showing and for tests; never on the frame path. */
export interface ShownFrame {
  readonly atMs: number;
  readonly id: number;
  readonly extended: boolean;
  readonly remote: boolean;
  readonly error: boolean;
  readonly sent: boolean;
  readonly length: number;
  readonly channel: number;
  readonly data: readonly number[];
}

/** Row `row` of the batch. A remote frame has a length and no data. */
export function frameAt(batch: FrameBatch, row: number): ShownFrame {
  const flags = batch.flags[row]!;
  const length = batch.length[row]!;
  const remote = (flags & FRAME_REMOTE) !== 0;
  return {
    atMs: batch.atMs[row]!,
    id: batch.id[row]!,
    extended: (flags & FRAME_EXTENDED) !== 0,
    remote,
    error: (flags & FRAME_ERROR) !== 0,
    sent: (flags & FRAME_SENT) !== 0,
    length,
    channel: batch.channel[row]!,
    data: remote ? [] : [...batch.data.subarray(row * 8, row * 8 + length)],
  };
}
