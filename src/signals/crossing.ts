import { rowAt, type CleanRows } from './clean-rows.ts';

/**
 * An instant at which a signal went through a level, found between two rows: standard uncertainty interval / √12 (GUM 4.3.7). Where the signal moves in
 * steps that last longer than its rows are apart, the interval is as long as a step.
 */
export interface Crossing {
  readonly atMs: number;
  readonly standardUncertaintyMs: number;
  /** The first row beyond the level. */
  readonly row: number;
}

/** Where a crossing is looked for, ms: at or after `fromMs`, before `untilMs`. */
export interface LookedFor {
  readonly fromMs?: number;
  readonly untilMs?: number;
}

/**
 * The first rise through a level (from below it to the level or above), on the straight line between the two rows. It must hold for two rows, so
 * that a single spike is none; a last row that is beyond the level alone counts for nothing yet. Null: none.
 */
export const riseThrough = (rows: CleanRows, level: number, where: LookedFor = {}): Crossing | null =>
  crossing(rows, level, where, 1);

/** The first fall through a level (from above it to the level or below), as `riseThrough`. */
export const fallThrough = (rows: CleanRows, level: number, where: LookedFor = {}): Crossing | null =>
  crossing(rows, level, where, -1);

function crossing(
  rows: CleanRows,
  level: number,
  { fromMs = -Infinity, untilMs = Infinity }: LookedFor,
  sign: 1 | -1,
): Crossing | null {
  const { atMs, value, count } = rows;
  const isBeyond = (row: number) => sign * (value[row]! - level) >= 0;
  for (let row = Math.max(1, rowAt(rows, fromMs)); row + 1 < count && atMs[row - 1]! < untilMs; row++) {
    if (isBeyond(row - 1) || !isBeyond(row) || !isBeyond(row + 1)) continue;
    const spanMs = atMs[row]! - atMs[row - 1]!;
    const part = (level - value[row - 1]!) / (value[row]! - value[row - 1]!);
    const foundMs = atMs[row - 1]! + part * spanMs;
    if (foundMs >= fromMs && foundMs < untilMs)
      return { atMs: foundMs, standardUncertaintyMs: (spanMs + stepMs(rows, row)) / Math.sqrt(12), row };
  }
  return null;
}

/**
 * How long each of the two steps around a crossing lasted, the shorter of them; 0 where the signal does not go down or up a staircase there: a pressure
 * that rests and then jumps was at the level when it jumped.
 */
function stepMs({ atMs, value, count }: CleanRows, row: number): number {
  let first = row - 1;
  while (first > 0 && value[first - 1] === value[row - 1]) first--;
  let last = row;
  while (last + 1 < count && value[last + 1] === value[row]) last++;
  if (first === 0 || last + 1 === count) return 0;
  const jump = value[row]! - value[row - 1]!;
  const goesOn = [value[row - 1]! - value[first - 1]!, value[last + 1]! - value[row]!];
  if (!goesOn.every((step) => step * jump > 0)) return 0;
  return Math.min(atMs[row - 1]! - atMs[first]!, atMs[last]! - atMs[row]!);
}
