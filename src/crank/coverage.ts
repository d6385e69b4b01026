/** How far apart the samples of a stretch lie, ms; 0 where they do not tell. */
export interface Spacing {
  /** Time for each sample, whether they come evenly or in bunches. */
  readonly sampleMs: number;
  /** Usual time between instants: samples that came together in a bunch are one instant. */
  readonly instantMs: number;
}

/** An interval longer than this many usual ones is a hole: one sample was missed, or more. Half an interval is left for jitter. */
const HOLE_INTERVALS = 1.5;
/** Samples closer than this part of their usual distance came in one bunch. */
const BUNCH_PART = 0.5;
/** The rate is seen over this part of the samples at a time, so that a bunch is seen with its pause, and a hole spoils few places. */
const WINDOW_PART = 8;

/**
 * Usual spacing of sample times (ms, never falling). The time for each sample is the median over windows of an eighth of the samples; the time
 * between instants is the median of those intervals that are not within a bunch. Neither moves with a few holes. Fewer than two instants give 0.
 */
export function spacingOf(atMs: readonly number[]): Spacing {
  const reach = Math.max(1, Math.floor(atMs.length / WINDOW_PART));
  const sampleMs = median(atMs.slice(reach).map((t, i) => (t - atMs[i]!) / reach));
  const intervals = atMs.slice(1).map((t, i) => t - atMs[i]!);
  const between = intervals.filter((dt) => dt > 0 && dt >= BUNCH_PART * sampleMs);
  return { sampleMs, instantMs: median(between) };
}

/**
 * Fraction 0 to 1 of a stretch of `durationMs` that the sample times of `lineMs` cover. Of a hole (longer than 1.5 usual intervals) one
 * usual interval counts as covered, so one missed sample costs one interval; what lies beyond the line is not covered.
 * Our rule: measurement.md 2 says only that a shorter hole counts against coverage. A stretch without length gives 0.
 */
export function coverageOf(lineMs: readonly number[], durationMs: number, { instantMs }: Spacing): number {
  if (durationMs <= 0) return 0;
  let coveredMs = 0;
  for (let i = 1; i < lineMs.length; i++) {
    const dt = lineMs[i]! - lineMs[i - 1]!;
    coveredMs += instantMs > 0 && dt > HOLE_INTERVALS * instantMs ? instantMs : dt;
  }
  return Math.min(1, coveredMs / durationMs);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
