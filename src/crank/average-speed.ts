import type { TraceColumns } from '../signals/trace.ts';
import type { SpeedAverage } from './crank.ts';
import { coverageOf, spacingOf, type Spacing } from './coverage.ts';
import { meanUncertainty } from './mean-uncertainty.ts';
import { pickSamples, type PickedSamples } from './pick-samples.ts';

export interface AverageOptions {
  /** What one step of the speed is worth, rpm (0.125 for SPN 190): its uncertainty is step / sqrt 12. */
  readonly resolutionRpm: number;
}

/** Correlation is followed over this long: a ripple, and the 160 to 200 ms for which controllers hold a value, fit in several times. */
const CORRELATION_MS = 600;
const LEAST_LAGS = 3;

/**
 * Speed over [startMs, endMs] of a trace: time-weighted mean by trapezoids with interpolated edges (measurement.md 3), the plain mean of the
 * samples as a spreadsheet has it, extremes, coverage and uncertainty. Missing values are skipped, single spikes left out of all but the
 * plain mean. No sample in the stretch, or edges that are no numbers, gives NaN means and coverage 0; never throws.
 */
export function averageSpeed(
  speed: TraceColumns,
  startMs: number,
  endMs: number,
  { resolutionRpm }: AverageOptions,
): SpeedAverage {
  if (!Number.isFinite(endMs - startMs)) return emptyAverage(0, 0);
  const picked = pickSamples(speed, startMs, endMs);
  const durationMs = Math.max(0, endMs - startMs);
  const { inside, all, spikes } = picked;
  if (inside.rpm.length === 0) return emptyAverage(durationMs, spikes);
  const { integralRpmMs, spanMs } = integrate(picked.line);
  const meanRpm = spanMs > 0 ? integralRpmMs / spanMs : inside.rpm[0]!;
  const spacing = spacingOf(inside.atMs);
  const doubt = meanUncertainty(inside.rpm, lagsFor(spacing));
  return {
    meanRpm,
    sampleMeanRpm: all.reduce((sum, rpm) => sum + rpm, 0) / all.length,
    minRpm: inside.rpm.reduce((least, rpm) => Math.min(least, rpm), Infinity),
    maxRpm: inside.rpm.reduce((most, rpm) => Math.max(most, rpm), -Infinity),
    samples: all.length,
    spikes,
    coverage: coverageOf(picked.line.atMs, durationMs, spacing),
    standardUncertaintyRpm: Math.hypot(doubt.standardUncertainty, resolutionRpm / Math.sqrt(12)),
    effectiveSamples: doubt.effectiveSamples,
    // Over the whole stretch, so that several cranks join by their durations even where an edge lies outside the samples.
    integralRpmMs: meanRpm * durationMs,
    durationMs,
  };
}

/**
 * Several cranks as one: Σ∫n dt / ΣT, the plain mean over all samples, and the uncertainties weighted by duration and added in quadrature.
 * An empty list, or one without samples, gives NaN means.
 */
export function joinAverages(averages: readonly SpeedAverage[]): SpeedAverage {
  const known = averages.filter(({ samples }) => samples > 0);
  const total = (of: (average: SpeedAverage) => number) => known.reduce((sum, each) => sum + of(each), 0);
  const durationMs = total((each) => each.durationMs);
  const samples = total((each) => each.samples);
  const spikes = averages.reduce((sum, each) => sum + each.spikes, 0);
  if (samples === 0 || durationMs === 0) return emptyAverage(durationMs, spikes);
  const integralRpmMs = total((each) => each.integralRpmMs);
  const wholeMs = averages.reduce((sum, each) => sum + each.durationMs, 0);
  return {
    meanRpm: integralRpmMs / durationMs,
    sampleMeanRpm: total((each) => each.sampleMeanRpm * each.samples) / samples,
    minRpm: Math.min(...known.map((each) => each.minRpm)),
    maxRpm: Math.max(...known.map((each) => each.maxRpm)),
    samples,
    spikes,
    coverage: total((each) => each.coverage * each.durationMs) / wholeMs,
    standardUncertaintyRpm:
      Math.hypot(...known.map((each) => each.standardUncertaintyRpm * each.durationMs)) / durationMs,
    effectiveSamples: total((each) => each.effectiveSamples),
    integralRpmMs,
    durationMs,
  };
}

const emptyAverage = (durationMs: number, spikes: number): SpeedAverage => ({
  meanRpm: NaN,
  sampleMeanRpm: NaN,
  minRpm: NaN,
  maxRpm: NaN,
  samples: 0,
  spikes,
  coverage: 0,
  standardUncertaintyRpm: NaN,
  effectiveSamples: 0,
  integralRpmMs: 0,
  durationMs,
});

/** Trapezoids along the line: exact for speed that changes in straight lines between samples. */
function integrate({ atMs, rpm }: PickedSamples['line']): { integralRpmMs: number; spanMs: number } {
  let integralRpmMs = 0;
  for (let i = 1; i < atMs.length; i++)
    integralRpmMs += ((rpm[i]! + rpm[i - 1]!) / 2) * (atMs[i]! - atMs[i - 1]!);
  return { integralRpmMs, spanMs: (atMs.at(-1) ?? 0) - (atMs[0] ?? 0) };
}

/** Lags that reach over CORRELATION_MS at the rate of the data. */
const lagsFor = ({ sampleMs }: Spacing): number =>
  Math.max(LEAST_LAGS, sampleMs > 0 ? Math.round(CORRELATION_MS / sampleMs) : 0);
