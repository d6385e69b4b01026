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

const newStore = (room: number): Store => ({
  atMs: new Float64Array(room),
  value: new Float64Array(room),
  quality: new Uint8Array(room),
  used: 0,
});

/** A trace without rows. */
export const createTrace = (): Trace => ({ length: 0, everValid: false, store: newStore(0) });

/** The trace as columns (they may be longer than `length`). */
export const columns = ({ length, store }: Trace): TraceColumns => ({
  length,
  atMs: store.atMs,
  value: store.value,
  quality: store.quality,
});

/**
 * The trace with rows added, in their order. Time never falls: an earlier instant than the last is set to the last. Rows without a
 * time (NaN) are left out, for a trace is over time. Costs the rows added, spread over calls.
 */
export function append(trace: Trace, rows: readonly TraceRow[]): Trace {
  const store = roomFor(trace, rows.length);
  let { length, everValid } = trace;
  for (const { atMs, value, quality } of rows) {
    if (Number.isNaN(atMs)) continue;
    store.atMs[length] = length > 0 ? Math.max(atMs, store.atMs[length - 1]!) : atMs;
    store.value[length] = value;
    store.quality[length] = quality;
    everValid ||= !Number.isNaN(value);
    length++;
  }
  store.used = length;
  return { length, everValid, store };
}

/** The store itself where this trace ends it and there is room; else a copy, so that no other snapshot is written over. */
function roomFor({ store, length }: Trace, more: number): Store {
  const needed = length + more;
  if (store.used === length && needed <= store.atMs.length) return store;
  const copy = newStore(Math.max(FIRST_ROOM, needed, 2 * length));
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
