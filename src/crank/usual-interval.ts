/** Intervals in a shared list: adding one copies nothing, and older states keep theirs. */
interface Link {
  readonly ms: number;
  readonly before: Link | null;
}

/** The last 20 to 40 intervals between samples, in two generations so that memory stays bounded. */
export interface RecentIntervals {
  readonly newest: Link | null;
  readonly count: number;
  readonly older: Link | null;
}

const KEPT = 20;

export const NO_INTERVALS: RecentIntervals = { newest: null, count: 0, older: null };

/** One interval later. Costs two small objects, whatever the history. */
export function addInterval(recent: RecentIntervals, ms: number): RecentIntervals {
  return recent.count === KEPT
    ? { newest: { ms, before: null }, count: 1, older: recent.newest }
    : { newest: { ms, before: recent.newest }, count: recent.count + 1, older: recent.older };
}

/** Median of the last 20 intervals, ms; 0 before the first. Source: measurement.md section 1, stale signals. */
export function usualIntervalMs(recent: RecentIntervals): number {
  const taken: number[] = [];
  for (const start of [recent.newest, recent.older])
    for (let link = start; link !== null && taken.length < KEPT; link = link.before) taken.push(link.ms);
  if (taken.length === 0) return 0;
  taken.sort((a, b) => a - b);
  const middle = taken.length >> 1;
  return taken.length % 2 === 1 ? taken[middle]! : (taken[middle - 1]! + taken[middle]!) / 2;
}
