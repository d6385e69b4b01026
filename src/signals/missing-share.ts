/** Instants of one signal, ascending, ms. */
export interface Instants {
  readonly length: number;
  readonly atMs: Float64Array;
}

/** Intervals are compared with the median of so many neighbours: a rate that follows engine speed changes more slowly. */
const BLOCK = 50;
/** Longer is a hole, and told as one. */
const HOLE_MS = 1000;
/** Where so many of the intervals are shorter than half the median, messages came in bunches and say nothing. */
const BUNCHED_SHARE = 0.1;

/**
 * The share of messages that did not arrive, 0 to 1, from a signal that is sent at regular intervals: an interval of k times the usual one has lost
 * k - 1. Null where that cannot be told: too few, or stamped in bunches as they arrived.
 */
export function missingShare({ length, atMs }: Instants): number | null {
  let came = 0;
  let missed = 0;
  for (let from = 1; from + BLOCK <= length; from += BLOCK) {
    const intervals = Array.from(
      { length: BLOCK },
      (_, place) => atMs[from + place]! - atMs[from + place - 1]!,
    );
    const usual = intervals.toSorted((a, b) => a - b)[BLOCK / 2]!;
    const bunched = intervals.filter((interval) => interval < usual / 2).length;
    if (usual <= 0 || bunched > BUNCHED_SHARE * BLOCK) continue;
    came += BLOCK;
    for (const interval of intervals)
      if (interval < HOLE_MS) missed += Math.max(0, Math.round(interval / usual) - 1);
  }
  return came === 0 ? null : missed / (came + missed);
}
