import type { FrameBatch } from './frame-batch.ts';

/** Columns that are being filled: one set a chunk, grown by doubling, cut into batches when the chunk is done. */
export interface FrameColumns {
  count: number;
  atMs: Float64Array;
  id: Uint32Array;
  flags: Uint8Array;
  length: Uint8Array;
  channel: Uint8Array;
  data: Uint8Array;
  /** Rows before which source time is not continuous, rising. */
  readonly breaks: number[];
}

/** Empty columns with room for `rows` frames. */
export const frameColumns = (rows: number): FrameColumns => ({
  count: 0,
  atMs: new Float64Array(rows),
  id: new Uint32Array(rows),
  flags: new Uint8Array(rows),
  length: new Uint8Array(rows),
  channel: new Uint8Array(rows),
  data: new Uint8Array(rows * 8),
  breaks: [],
});

/** Makes room for one more row. */
export function reserveRow(columns: FrameColumns): void {
  if (columns.count < columns.id.length) return;
  const rows = columns.count * 2 + 16;
  const larger = frameColumns(rows);
  larger.atMs.set(columns.atMs);
  larger.id.set(columns.id);
  larger.flags.set(columns.flags);
  larger.length.set(columns.length);
  larger.channel.set(columns.channel);
  larger.data.set(columns.data);
  Object.assign(columns, { ...larger, count: columns.count, breaks: columns.breaks });
}

/** The filled rows as batches, cut at the breaks; views, no copies. No rows give no batch. */
export function sealBatches(columns: FrameColumns): FrameBatch[] {
  const cuts = [0, ...columns.breaks.filter((row) => row > 0), columns.count];
  const batches: FrameBatch[] = [];
  for (let i = 0; i + 1 < cuts.length; i++) {
    const from = cuts[i]!;
    const to = cuts[i + 1]!;
    // Each cut but the first is a break: not looked up, for a log that jumps in each line has as many as lines.
    if (to > from) batches.push(rowsOf(columns, { from, to, breakBefore: i > 0 || columns.breaks[0] === 0 }));
  }
  return batches;
}

interface Rows {
  readonly from: number;
  readonly to: number;
  readonly breakBefore: boolean;
}

const rowsOf = (columns: FrameColumns, { from, to, breakBefore }: Rows): FrameBatch => ({
  count: to - from,
  breakBefore,
  atMs: columns.atMs.subarray(from, to),
  id: columns.id.subarray(from, to),
  flags: columns.flags.subarray(from, to),
  length: columns.length.subarray(from, to),
  channel: columns.channel.subarray(from, to),
  data: columns.data.subarray(from * 8, to * 8),
});
