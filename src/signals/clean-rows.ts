import type { TraceColumns } from './trace.ts';

/** The valid rows of a trace without single spikes, in order; the first `count` of each column. */
export interface CleanRows {
  readonly count: number;
  readonly atMs: Float64Array;
  readonly value: Float64Array;
  /** Rows left out as single spikes. */
  readonly spikes: number;
  /** Two rows further apart than this have a hole between them: three usual intervals, at least 1 s (measurement.md 1). */
  readonly holeMs: number;
}

/** How far a single row must lie outside both of its neighbours to be a spike: the larger of the two. */
export interface SpikeRule {
  /** In the unit of the signal. */
  readonly floor: number;
  /** Part of the greater neighbour. */
  readonly share: number;
}

/** As the average of cranking speed leaves them out (crank/pick-samples.ts), rpm. */
export const SPEED_SPIKE: SpikeRule = { floor: 100, share: 0.5 };

const STALE_INTERVALS = 3;
const STALE_FLOOR_MS = 1000;

/**
 * The valid rows of a trace. Single rows far outside both valid neighbours are left out (the first and the last have one neighbour and are
 * believed), as are values that are no finite numbers. Works through the trace once, so it is the same however the data came.
 */
export function cleanRows(trace: TraceColumns | null, { floor, share }: SpikeRule): CleanRows {
  const valid = validRows(trace);
  const { count, atMs, value } = valid;
  let kept = 0;
  let last = NaN; // as it came: a spike is judged among its true neighbours
  for (let row = 0; row < count; row++) {
    const here = value[row]!;
    const next = row + 1 < count ? value[row + 1]! : NaN;
    const allowed = Math.max(floor, share * Math.max(last, next));
    const isSpike = here > Math.max(last, next) + allowed || here < Math.min(last, next) - allowed;
    last = here;
    if (isSpike) continue;
    atMs[kept] = atMs[row]!;
    value[kept] = here;
    kept++;
  }
  return { count: kept, atMs, value, spikes: count - kept, holeMs: holeOf(atMs, kept) };
}

function validRows(trace: TraceColumns | null) {
  const length = trace?.length ?? 0;
  const atMs = new Float64Array(length);
  const value = new Float64Array(length);
  let count = 0;
  for (let row = 0; row < length; row++) {
    const here = trace!.value[row]!;
    if (!Number.isFinite(here)) continue;
    atMs[count] = trace!.atMs[row]!;
    value[count] = here;
    count++;
  }
  return { count, atMs, value };
}

function holeOf(atMs: Float64Array, count: number): number {
  if (count < 2) return STALE_FLOOR_MS;
  const intervals = atMs.slice(1, count).map((at, place) => at - atMs[place]!);
  const usual = intervals.sort()[intervals.length >> 1]!;
  return Math.max(STALE_FLOOR_MS, STALE_INTERVALS * usual);
}

/** The row with the last value at or before `t`; -1 where all are later. */
export function rowAt({ atMs, count }: CleanRows, t: number): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (atMs[middle]! <= t) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The value on the straight line between the rows around `t`; NaN outside the rows and within a hole. */
export function valueAt(rows: CleanRows, t: number): number {
  const row = rowAt(rows, t);
  if (row < 0) return NaN;
  const { atMs, value, count, holeMs } = rows;
  const fromMs = atMs[row]!;
  if (fromMs === t) return value[row]!;
  if (row + 1 >= count) return NaN;
  const spanMs = atMs[row + 1]! - fromMs;
  return spanMs > holeMs ? NaN : value[row]! + ((value[row + 1]! - value[row]!) * (t - fromMs)) / spanMs;
}

/** The rows from `startMs` to `endMs`, both included; what a hole is stays what it was over the whole trace. */
export function rowsWithin(rows: CleanRows, startMs: number, endMs: number): CleanRows {
  const before = rowAt(rows, startMs);
  const first = before >= 0 && rows.atMs[before] === startMs ? before : before + 1;
  const last = Math.max(first - 1, rowAt(rows, endMs));
  return {
    ...rows,
    count: last - first + 1,
    atMs: rows.atMs.subarray(first, last + 1),
    value: rows.value.subarray(first, last + 1),
  };
}
