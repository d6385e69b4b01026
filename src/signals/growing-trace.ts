import type { TraceColumns } from './trace.ts';

/** Columns shared by the snapshots of one trace; `used` rows of them are taken. */
interface Store {
  readonly atMs: Float64Array;
  readonly value: Float64Array;
  readonly quality: Uint8Array;
  used: number;
}

/**
 * One signal of one origin, append only. A value: appending gives a new trace, and the old one still reads right, since both share
 * rows that never change.
 */
export interface Trace {
  readonly length: number;
  /** Whether any row holds a number. */
  readonly everValid: boolean;
  readonly store: Store;
}

/** One row to append: NaN in `value` unless `quality` (index into QUALITIES) is valid. */
export interface TraceRow {
  readonly atMs: number;
  readonly value: number;
  readonly quality: number;
}

const FIRST_ROOM = 64;

const newStore = (room: number, used: number): Store => ({
  atMs: new Float64Array(room),
  value: new Float64Array(room),
  quality: new Uint8Array(room),
  used,
});

/** A trace without rows. */
export const createTrace = (): Trace => ({ length: 0, everValid: false, store: newStore(0, 0) });

/** The trace as columns (they may be longer than `length`). */
export const columns = ({ length, store }: Trace): TraceColumns => ({
  length,
  atMs: store.atMs,
  value: store.value,
  quality: store.quality,
});

/** A trace while rows are added to it. */
export interface TraceWriter {
  length: number;
  everValid: boolean;
  store: Store;
}

/** Begins adding to a trace. The trace itself keeps reading what it read. */
export const writerOf = ({ length, everValid, store }: Trace): TraceWriter => ({ length, everValid, store });

/** The rows of a writer as a trace. */
export const traceFrom = ({ length, everValid, store }: TraceWriter): Trace => ({ length, everValid, store });

/**
 * Adds one row. Time never falls: an earlier instant than the last is set to the last. A row without a time (NaN) is left out, for
 * a trace is over time. Costs a row, spread over calls.
 */
export function putRow(writer: TraceWriter, atMs: number, value: number, quality: number): void {
  if (Number.isNaN(atMs)) return;
  const row = writer.length;
  if (writer.store.used !== row || row === writer.store.atMs.length) writer.store = copyOf(writer.store, row);
  const { store } = writer;
  const lastMs = row > 0 ? store.atMs[row - 1]! : atMs;
  store.atMs[row] = atMs > lastMs ? atMs : lastMs;
  store.value[row] = value;
  store.quality[row] = quality;
  store.used = writer.length = row + 1;
  writer.everValid ||= !Number.isNaN(value);
}

/** The trace with rows added, in their order, each as `putRow` does. */
export function append(trace: Trace, rows: readonly TraceRow[]): Trace {
  const writer = writerOf(trace);
  for (const { atMs, value, quality } of rows) putRow(writer, atMs, value, quality);
  return traceFrom(writer);
}

/** Columns of one's own with room for as many rows again: where another snapshot went on in the shared ones, or they are full. */
function copyOf(store: Store, length: number): Store {
  const copy = newStore(Math.max(FIRST_ROOM, 2 * length), length);
  copy.atMs.set(store.atMs.subarray(0, length));
  copy.value.set(store.value.subarray(0, length));
  copy.quality.set(store.quality.subarray(0, length));
  return copy;
}

/** The first row at or after `t`; `length` when all are earlier. Times must not fall. */
export function lowerBound(times: Float64Array, length: number, t: number): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle]! < t) low = middle + 1;
    else high = middle;
  }
  return low;
}
