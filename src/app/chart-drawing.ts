import { placeOnChart } from '../grading/grade-speed-chart.ts';
import type { JudgedRun } from '../jobs/judge-run.ts';
import { boundaryAt } from '../limits/boundary-curve.ts';
import type { SpeedChart } from '../limits/limit-sheet.ts';
import type { ChartDistance } from '../ui/limit-chart.ts';
import type { Boundaries, ChartPoint, MeasuredPoint } from '../ui/limit-chart-geometry.ts';
import { distanceText } from '../ui/verdict-panel.ts';

const CUBIC_STEPS = 80;
/** Normal distribution: 95 % lie within this many standard uncertainties (check-values.md A3). */
const COVERAGE_95 = 1.96;

/** The chart's curves as polylines: the points themselves for straight joins, a dense line for cubic ones. */
export function drawnBoundaries(chart: SpeedChart): Boundaries {
  const line = (points: readonly ChartPoint[]): readonly ChartPoint[] =>
    chart.join === 'straight' ? points : dense(chart, points);
  return {
    failBelow: line(chart.failBelow),
    passAbove: line(chart.passAbove),
    failAbove: chart.failAbove && line(chart.failAbove),
  };
}

function dense({ join }: SpeedChart, points: readonly ChartPoint[]): readonly ChartPoint[] {
  const from = points[0]![0];
  const span = points.at(-1)![0] - from;
  return Array.from({ length: CUBIC_STEPS + 1 }, (_, i): ChartPoint => {
    const rpm = from + (span * i) / CUBIC_STEPS;
    return [rpm, boundaryAt(points, join, rpm)?.volumeMl ?? NaN];
  });
}

/** The measured point with its 95 % half-widths; null before there is a volume and a speed. */
export function drawnPoint({ delivery, chart }: JudgedRun): MeasuredPoint | null {
  const { average, volume } = delivery;
  const speedRpm = chart.speedAverage === 'samples' ? average?.sampleMeanRpm : average?.meanRpm;
  if (!average || !volume || speedRpm === undefined || !Number.isFinite(speedRpm)) return null;
  const placed = placeOnChart(delivery, chart);
  const ownParts = placed.ok ? placed.value.boundaries[0]?.budget.parts : undefined;
  const volumeMl = placed.ok ? placed.value.value : volume.valueMl;
  const volumeDoubt = ownParts
    ? Math.hypot(...ownParts.filter(({ cause }) => cause !== 'speed').map((part) => part.contribution))
    : volume.standardUncertaintyMl;
  return {
    speedRpm,
    volumeMl,
    speedHalfWidthRpm: COVERAGE_95 * average.standardUncertaintyRpm,
    volumeHalfWidthMl: COVERAGE_95 * volumeDoubt,
    label: `${speedRpm.toFixed(1)} rpm, ${volumeMl.toFixed(0)} mL`,
  };
}

/** The line to the nearest boundary; null without a verdict. */
export function drawnNearest({ verdict }: JudgedRun): ChartDistance | null {
  const nearest = verdict?.nearest;
  return nearest ? { boundaryMl: nearest.atValue, label: distanceText(nearest, 'mL') } : null;
}
