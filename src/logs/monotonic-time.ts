import { MS_A_DAY, MS_A_HOUR, type TimeKind } from './time-cell.ts';

/** Where time is not continuous. `backwards`: the stamps fell; `pause`: they jumped ahead by more than the stale limit. */
export interface TimeBreak {
  readonly kind: 'backwards' | 'pause';
  readonly line: number;
  /** Of the first row after the break, in the log's own time. */
  readonly atMs: number;
  readonly spanMs: number;
}

export interface MonotonicTime {
  readonly atMs: Float64Array;
  readonly breaks: readonly TimeBreak[];
  /** Usual interval: the median of the steps. NaN for fewer than two rows. */
  readonly intervalMs: number;
  /** Rows whose stamp repeated the one before and were spread within the stamp's resolution; null when there were none. */
  readonly spread: { readonly rows: number; readonly resolutionMs: number } | null;
}

const LEAST_STALE_MS = 1000; // measurement.md 1: three usual intervals, at least 1 s

/**
 * Makes stamps that never fall out of stamps as written.
 * - A clock past midnight goes on by 24 h (a 12 h clock without AM/PM by 12 h, mm:ss past the hour by 1 h).
 * - Equal stamps (a clock without fraction at 2 rows a second) are spread evenly within their second: the j-th of k rows
 *   stands j/k into it. The first second of the log may be cut: with fewer rows than usual they stand at its end; the
 *   last one fills from its beginning. The resolution is the smallest step between unlike stamps.
 * - Where stamps fall, the rest is moved to a hole of more than the stale limit after the last row: a break, never a
 *   negative interval.
 * @param rawMs stamps as parsed, in row order; @param lines the line of each row.
 */
export function monotonicTime(rawMs: Float64Array, lines: ArrayLike<number>, kind: TimeKind): MonotonicTime {
  const steps = positiveSteps(rawMs);
  const resolutionMs = steps.smallestMs;
  const rowIntervalMs = (steps.medianMs * steps.count) / Math.max(1, rawMs.length - 1 - steps.falls);
  const holeMs = Math.max(LEAST_STALE_MS, 3 * rowIntervalMs);
  const breaks: TimeBreak[] = [];
  const note = (breakKind: TimeBreak['kind'], row: number, atMs: number, spanMs: number) =>
    breaks.push({ kind: breakKind, line: lines[row] ?? 0, atMs, spanMs });
  let offset = 0;
  const atMs = rawMs.slice();
  for (let i = 1; i < rawMs.length; i++) {
    const raw = at(rawMs, i);
    const fallsBy = at(rawMs, i - 1) - raw;
    const wrap = fallsBy > 0 ? wrapOf(fallsBy, kind) : 0;
    offset += wrap;
    if (fallsBy > 0 && wrap === 0) {
      offset = at(atMs, i - 1) + holeMs + rowIntervalMs - raw;
      note('backwards', i, raw + offset, fallsBy);
    }
    atMs[i] = raw + offset;
    if (-fallsBy > Math.max(holeMs, 1.5 * resolutionMs)) note('pause', i, raw + offset, -fallsBy);
  }
  const rows = spreadEqualStamps(atMs, resolutionMs);
  const intervalMs = rows > 0 ? positiveSteps(atMs).medianMs : steps.medianMs;
  return { atMs, breaks, intervalMs, spread: rows > 0 ? { rows, resolutionMs } : null };
}

const at = (column: Float64Array, row: number): number => column[row] ?? NaN;

interface Wrap {
  readonly spanMs: number;
  readonly leastFallMs: number;
}
const MINUTE = MS_A_HOUR / 60;
const WRAPS: Readonly<Partial<Record<TimeKind, readonly Wrap[]>>> = {
  // A clock may rest over midnight for an hour; the shorter wraps must follow on at once, or they are guesses.
  clock: [
    { spanMs: MS_A_DAY, leastFallMs: MS_A_DAY - MS_A_HOUR },
    { spanMs: MS_A_DAY / 2, leastFallMs: MS_A_DAY / 2 - MINUTE },
  ],
  minuteSecond: [{ spanMs: MS_A_HOUR, leastFallMs: MS_A_HOUR - MINUTE }],
};

const wrapOf = (fallsByMs: number, kind: TimeKind): number =>
  WRAPS[kind]?.find(({ spanMs, leastFallMs }) => fallsByMs < spanMs && fallsByMs >= leastFallMs)?.spanMs ?? 0;

function positiveSteps(stamps: Float64Array) {
  const steps: number[] = [];
  let falls = 0;
  let smallestMs = Infinity;
  let count = 0;
  const stride = Math.max(1, Math.floor(stamps.length / 20_000)); // the median of some 20,000 steps is as good
  for (let i = 1; i < stamps.length; i++) {
    const step = (stamps[i] ?? NaN) - (stamps[i - 1] ?? NaN);
    if (step < 0) falls++;
    if (!(step > 0)) continue;
    if (step < smallestMs) smallestMs = step;
    if (count++ % stride === 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const medianMs = steps[steps.length >> 1] ?? NaN;
  return { medianMs, smallestMs: count > 0 ? smallestMs : NaN, count, falls };
}

/** Spreads runs of equal stamps in place. @returns how many rows were moved. */
function spreadEqualStamps(atMs: Float64Array, resolutionMs: number): number {
  if (!(resolutionMs > 0)) return 0;
  const usual = usualRun(atMs);
  let moved = 0;
  for (let start = 0, end = 0; start < atMs.length; start = end) {
    end = runEnd(atMs, start);
    const count = end - start;
    const isCut = start === 0 || end === atMs.length;
    const parts = isCut ? Math.max(count, usual) : count;
    const skipped = start === 0 && end < atMs.length ? parts - count : 0;
    if (parts === 1) continue;
    moved += skipped > 0 ? count : count - 1;
    spreadRun(
      atMs.subarray(start, end),
      Math.min(resolutionMs, (atMs[end] ?? Infinity) - at(atMs, start)),
      parts,
      skipped,
    );
  }
  return moved;
}

function spreadRun(run: Float64Array, widthMs: number, parts: number, skipped: number): void {
  const stamp = at(run, 0);
  for (let j = 0; j < run.length; j++) run[j] = stamp + ((skipped + j) / parts) * widthMs;
}

function runEnd(atMs: Float64Array, start: number): number {
  let end = start + 1;
  while (end < atMs.length && atMs[end] === atMs[start]) end++;
  return end;
}

/** The most frequent number of equal stamps in a row, leaving out the first and the last run, which may be cut. */
function usualRun(atMs: Float64Array): number {
  const counts = new Map<number, number>();
  for (let start = runEnd(atMs, 0); start < atMs.length;) {
    const end = runEnd(atMs, start);
    if (end < atMs.length) counts.set(end - start, (counts.get(end - start) ?? 0) + 1);
    start = end;
  }
  let best = 1;
  for (const [length, times] of counts) if (times > (counts.get(best) ?? 0)) best = length;
  return best;
}
