import type { CleanRows } from './clean-rows.ts';

/** Rows `first` to `last`, both included, of the clean rows. */
export interface RowSpan {
  readonly first: number;
  readonly last: number;
}

/** Which rows may belong to a steady stretch, and how wide it may be. */
export interface SteadyRule {
  /** Widest range of the values, in their unit. */
  readonly within: number;
  /** Whether a row may belong to the stretch at all, e.g. by engine speed. */
  readonly mayCount: (row: number) => boolean;
}

/**
 * The longest stretch in time whose values stay within `within` of each other: rows that may not count and holes break it. The earliest of
 * several equally long ones. Null where no row may count. One pass with the lowest and the highest of the stretch kept in order.
 */
export function longestSteady(rows: CleanRows, { within, mayCount }: SteadyRule): RowSpan | null {
  const { count, atMs, value, holeMs } = rows;
  let best: RowSpan | null = null;
  let first = 0;
  let highs = queue();
  let lows = queue();
  for (let row = 0; row < count; row++) {
    const broken = row > first && atMs[row]! - atMs[row - 1]! > holeMs;
    if (broken || !mayCount(row)) {
      first = mayCount(row) ? row : row + 1;
      highs = queue();
      lows = queue();
      if (first > row) continue;
    }
    push(highs, row, (other) => value[other]! <= value[row]!);
    push(lows, row, (other) => value[other]! >= value[row]!);
    while (value[front(highs)]! - value[front(lows)]! > within) {
      first++;
      dropBefore(highs, first);
      dropBefore(lows, first);
    }
    if (best === null || atMs[row]! - atMs[first]! > atMs[best.last]! - atMs[best.first]!)
      best = { first, last: row };
  }
  return best;
}

/** Rows whose values only fall (or only rise) from `head` on. */
interface Queue {
  readonly rows: number[];
  head: number;
}

const queue = (): Queue => ({ rows: [], head: 0 });
const front = ({ rows, head }: Queue): number => rows[head]!;

function push(into: Queue, row: number, isPassed: (other: number) => boolean): void {
  while (into.rows.length > into.head && isPassed(into.rows.at(-1)!)) into.rows.pop();
  into.rows.push(row);
}

function dropBefore(from: Queue, first: number): void {
  while (from.rows[from.head]! < first) from.head++;
}
