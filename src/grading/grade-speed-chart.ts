import type { CrankDelivery } from '../checks/measurement.ts';
import { rounded } from '../checks/rounded.ts';
import type { SpeedAverage } from '../crank/crank.ts';
import { boundaryAt, commonRange } from '../limits/boundary-curve.ts';
import type { SpeedChart } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Boundary, Placement } from './boundary.ts';
import { gradedVolume, type TimedVolume } from './graded-volume.ts';
import { judge, notValid } from './judge.ts';
import { combine, speedPart, tracingParts } from './uncertainty.ts';
import type { Verdict, Zone } from './verdict.ts';

/**
 * The verdict on a crank delivery against its chart of boundary curves. Reasons of the delivery pass through; a speed outside the curves is
 * not valid, never extrapolated. On a boundary itself: failBelow is marginal, passAbove passes, failAbove passes.
 */
export function gradeSpeedChart(delivery: CrankDelivery, chart: SpeedChart): Verdict {
  const volume = gradedVolume(timedVolume(delivery));
  const warnings = [...delivery.warnings, ...(volume.ok ? volume.value.warnings : [])];
  const placed = placeOnChart(delivery, chart);
  if (!placed.ok) return notValid(withProblem(delivery.reasons, placed.problem), warnings);
  if (delivery.reasons.length > 0) return notValid(delivery.reasons, warnings);
  return judge(placed.value, warnings);
}

/**
 * Where the delivery lies on the chart: the volume graded, the speed it is entered at (the average that the chart asks for), and each curve there
 * with the uncertainty of (volume minus curve). Fails with the reason when there is no such place.
 */
export function placeOnChart(delivery: CrankDelivery, chart: SpeedChart): Result<Placement> {
  const volume = gradedVolume(timedVolume(delivery));
  const speed = chartSpeed(delivery, chart);
  if (!speed.ok) return speed;
  if (!volume.ok) return volume;
  const { rpm, standardUncertaintyRpm } = speed.value;
  const boundaries = CURVES.flatMap((curve): readonly Boundary[] => {
    const at = boundaryAt(chart[curve.name] ?? [], chart.join, rpm);
    if (!at) return [];
    const budget = combine([
      ...volume.value.parts,
      speedPart(at.slopeMlPerRpm, standardUncertaintyRpm),
      ...tracingParts(chart.tracing, at.slopeMlPerRpm),
    ]);
    return [{ ...curve, atValue: at.volumeMl, slopePerRpm: at.slopeMlPerRpm, budget }];
  });
  const above = chart.failAbove ? 'fail high' : 'pass';
  return ok({ value: volume.value.valueMl, unit: 'mL', speedRpm: rpm, boundaries, above });
}

const CURVES: readonly {
  readonly name: 'failBelow' | 'passAbove' | 'failAbove';
  readonly below: Zone;
  readonly ownValueIsBelow: boolean;
}[] = [
  { name: 'failBelow', below: 'fail low', ownValueIsBelow: false },
  { name: 'passAbove', below: 'marginal', ownValueIsBelow: false },
  { name: 'failAbove', below: 'pass', ownValueIsBelow: true },
];

interface ChartSpeed {
  readonly rpm: number;
  readonly standardUncertaintyRpm: number;
}

/** The average of the kind that the chart was made for, when it lies on the chart and its doubt is known. */
function chartSpeed({ average }: CrankDelivery, chart: SpeedChart): Result<ChartSpeed> {
  const rpm = averageFor(average, chart);
  if (!average || !Number.isFinite(rpm)) return failed(problem('check.no-speed'));
  const curves = [chart.failBelow, chart.passAbove, ...(chart.failAbove ? [chart.failAbove] : [])];
  const range = commonRange(curves);
  if (!range) return failed(problem('limit.no-common-speeds', { place: chart.title }));
  const context = { speed: rounded(rpm, 1), starts: range.fromRpm, ends: range.toRpm };
  if (rpm < range.fromRpm) return failed(problem('check.too-slow-for-chart', context));
  if (rpm > range.toRpm) return failed(problem('check.too-fast-for-chart', context));
  const { standardUncertaintyRpm } = average;
  const known = Number.isFinite(standardUncertaintyRpm) && standardUncertaintyRpm >= 0;
  return known ? ok({ rpm, standardUncertaintyRpm }) : failed(problem('check.speed-doubt-unknown'));
}

const averageFor = (average: SpeedAverage | null, { speedAverage }: SpeedChart): number =>
  (speedAverage === 'samples' ? average?.sampleMeanRpm : average?.meanRpm) ?? NaN;

const timedVolume = (delivery: CrankDelivery): TimedVolume => ({
  volume: delivery.volume,
  volumeAtTargetMl: delivery.volumeAtTargetMl,
  seconds: delivery.crankSeconds,
  secondsUncertainty: delivery.crankSecondsUncertainty,
  targetSeconds: delivery.targetSeconds,
});

/** Without a crank there is no speed either: that need not be said twice. */
const withProblem = (reasons: readonly Problem[], found: Problem): readonly Problem[] =>
  found.code === 'check.no-speed' && reasons.length > 0 ? reasons : [...reasons, found];
