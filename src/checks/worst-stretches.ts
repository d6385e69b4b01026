import type { DeviationRows } from './deviation-rows.ts';

/** A stretch over which the actual pressure fell short, with the rows that it holds. */
export interface WorstStretch {
  readonly startMs: number;
  readonly endMs: number;
  /** Commanded less actual, mean over the stretch, kPa; below zero where the actual was higher. */
  readonly meanShortfallKPa: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

/** So many of the worst are told. */
const MOST = 5;

/**
 * The stretches of `spanMs` with the largest mean shortfall, worst first and none overlapping another, at most five. The mean is the area under straight
 * lines between the rows; each stretch begins at a row or ends at one, and holds no break. None where no run of rows is as long.
 */
export function worstStretches(rows: DeviationRows, spanMs: number): readonly WorstStretch[] {
  const all = stretchesAt(rows, spanMs);
  const chosen: WorstStretch[] = [];
  while (chosen.length < MOST) {
    const at = worstFree(all, chosen, spanMs);
    // The worst is told even where it is none; the others only where the pressure fell short.
    if (at < 0 || (chosen.length > 0 && all.shortfall[at]! <= 0)) break;
    chosen.push(stretchFrom(rows, all, at, spanMs));
  }
  return chosen;
}

/** Beginning and mean shortfall of each stretch, in columns: there are two for each row of a drive. */
interface Stretches {
  readonly startMs: Float64Array;
  readonly shortfall: Float64Array;
  /** The last rows at or before its beginning and its end. */
  readonly tail: Int32Array;
  readonly head: Int32Array;
  count: number;
}

function worstFree(all: Stretches, chosen: readonly WorstStretch[], spanMs: number): number {
  let best = -1;
  for (let at = 0; at < all.count; at++) {
    if (best >= 0 && all.shortfall[at]! <= all.shortfall[best]!) continue;
    const fromMs = all.startMs[at]!;
    if (chosen.every(({ startMs, endMs }) => fromMs >= endMs || fromMs + spanMs <= startMs)) best = at;
  }
  return best;
}

function stretchesAt(rows: DeviationRows, spanMs: number): Stretches {
  const { atMs, joined } = rows;
  const area = areaUpTo(rows);
  const all = roomFor(2 * atMs.length);
  const put = (fromMs: number, tail: number, head: number): void => {
    const at = all.count++;
    const whole = areaAt(rows, area, head, fromMs + spanMs) - areaAt(rows, area, tail, fromMs);
    all.startMs[at] = fromMs;
    all.shortfall[at] = 0 - whole / spanMs;
    all.tail[at] = tail;
    all.head[at] = head;
  };
  let first = 0; // of the run of joined rows
  let tail = 0; // the last row at or before the beginning of the stretch that ends at `row`
  let start = 0; // the next row at which a stretch begins
  for (let row = 0; row < atMs.length; row++) {
    if (!joined[row]) first = tail = start = row;
    // Those that begin at a row and end between the row before and this one.
    for (; start < row && atMs[start]! + spanMs < atMs[row]!; start++) put(atMs[start]!, start, row - 1);
    const fromMs = atMs[row]! - spanMs;
    if (fromMs < atMs[first]!) continue;
    while (atMs[tail + 1]! <= fromMs) tail++;
    put(fromMs, tail, row);
  }
  return all;
}

const roomFor = (room: number): Stretches => ({
  startMs: new Float64Array(room),
  shortfall: new Float64Array(room),
  tail: new Int32Array(room),
  head: new Int32Array(room),
  count: 0,
});

/** Area under the straight lines up to each row, kPa·ms; nothing is added across a break. */
function areaUpTo({ atMs, deviationKPa, joined }: DeviationRows): Float64Array {
  const area = new Float64Array(atMs.length);
  for (let row = 1; row < atMs.length; row++) {
    const spanMs = joined[row] ? atMs[row]! - atMs[row - 1]! : 0;
    area[row] = area[row - 1]! + ((deviationKPa[row]! + deviationKPa[row - 1]!) / 2) * spanMs;
  }
  return area;
}

function stretchFrom(rows: DeviationRows, all: Stretches, at: number, spanMs: number): WorstStretch {
  const startMs = all.startMs[at]!;
  const tail = all.tail[at]!;
  return {
    startMs,
    endMs: startMs + spanMs,
    meanShortfallKPa: all.shortfall[at]!,
    firstRow: rows.atMs[tail] === startMs ? tail : tail + 1,
    lastRow: all.head[at]!,
  };
}

function areaAt({ atMs, deviationKPa }: DeviationRows, area: Float64Array, row: number, t: number): number {
  const beyond = t - atMs[row]!;
  if (beyond <= 0) return area[row]!;
  const spanMs = atMs[row + 1]! - atMs[row]!;
  const slope = (deviationKPa[row + 1]! - deviationKPa[row]!) / spanMs;
  return area[row]! + beyond * (deviationKPa[row]! + (slope * beyond) / 2);
}
