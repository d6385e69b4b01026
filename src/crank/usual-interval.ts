const KEPT = 20;

/** The last 20 intervals between samples. A value: the older states of a finder keep theirs. */
export interface RecentIntervals {
  /** At most 20, ms, the newest at `next - 1`, going round. */
  readonly kept: readonly number[];
  /** Where the next one goes. */
  readonly next: number;
}

export const NO_INTERVALS: RecentIntervals = { kept: [], next: 0 };

/** Recent intervals while samples are added to them, without a copy for each. */
export interface IntervalWriter {
  readonly kept: number[];
  next: number;
}

/** Begins adding: the intervals themselves stay as they are. */
export const intervalWriter = ({ kept, next }: RecentIntervals): IntervalWriter => ({
  kept: kept.slice(),
  next,
});

/** Adds one interval, in the place of the oldest where there are 20. */
export function putInterval(writer: IntervalWriter, ms: number): void {
  writer.kept[writer.next] = ms;
  writer.next = writer.next + 1 === KEPT ? 0 : writer.next + 1;
}

/** Median of the last 20 intervals, ms; 0 before the first. Source: measurement.md section 1, stale signals. */
export function usualIntervalMs({ kept }: RecentIntervals): number {
  if (kept.length === 0) return 0;
  const sorted = kept.slice().sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
