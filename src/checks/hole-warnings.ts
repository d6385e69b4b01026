import { problem, type Problem } from '../problems/problem.ts';
import type { SignalId } from '../quantities/reading.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import { rowAt, type CleanRows } from '../signals/clean-rows.ts';
import { rounded } from './rounded.ts';
import type { Stretch } from './value-measurement.ts';

/**
 * `check.signal-hole` with the longest hole of a signal that reaches into the stretch: what the signal did meanwhile is not known (measurement.md 1).
 * Nothing where its rows follow each other closely enough.
 */
export function holeWarnings(
  rows: CleanRows,
  signal: SignalId,
  { startMs, endMs }: Stretch,
): readonly Problem[] {
  let longestMs = 0;
  for (let row = Math.max(1, rowAt(rows, startMs) + 1); row < rows.count; row++) {
    const beforeMs = rows.atMs[row - 1]!;
    if (beforeMs >= endMs) break;
    longestMs = Math.max(longestMs, rows.atMs[row]! - beforeMs);
  }
  if (longestMs <= rows.holeMs) return [];
  const label = SIGNALS[signal].label.toLowerCase();
  return [problem('check.signal-hole', { signal: label, seconds: rounded(longestMs / 1000, 1) })];
}
