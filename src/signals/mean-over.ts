import type { TraceColumns } from './trace.ts';

/** From when to when, ms, both included. */
interface Span {
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * The plain mean of the valid values within the spans; where there is none (slow groups send nothing in so short a time) the last valid value
 * before the end of the last span. Null where nothing was heard.
 */
export function meanOver(trace: TraceColumns, spans: readonly Span[]): number | null {
  const lastEndMs = spans.at(-1)?.endMs ?? Infinity;
  let sum = 0;
  let count = 0;
  let before: number | null = null;
  for (let row = 0; row < trace.length; row++) {
    const atMs = trace.atMs[row]!;
    const value = trace.value[row]!;
    if (Number.isNaN(value) || atMs > lastEndMs) continue;
    before = value;
    if (!spans.some(({ startMs, endMs }) => atMs >= startMs && atMs <= endMs)) continue;
    sum += value;
    count++;
  }
  return count > 0 ? sum / count : before;
}
