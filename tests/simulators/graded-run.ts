import type { CrankDelivery } from '../../src/checks/measurement.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { averageSpeed, joinAverages } from '../../src/crank/average-speed.ts';
import { crankTime } from '../../src/crank/crank-time.ts';
import { DEFAULT_CRANK_SETTINGS, type Crank } from '../../src/crank/crank.ts';
import { finishFinder, initialFinder, stepFinder } from '../../src/crank/find-cranks.ts';
import { gradeSpeedChart } from '../../src/grading/grade-speed-chart.ts';
import type { Verdict } from '../../src/grading/verdict.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { readingOf, readLines, speedsOf, type BenchRun } from './bench-runs.ts';

/** The cranks that the product finds in what the bridge said. */
export function cranksIn(run: BenchRun): readonly Crank[] {
  const speeds = speedsOf(readLines(run.text));
  const start = initialFinder(DEFAULT_CRANK_SETTINGS);
  return finishFinder(speeds.reduce((finder, { timeMs, rpm }) => stepFinder(finder, timeMs, rpm), start));
}

/** The verdict that the product gives on them, with the vessel read by an honest eye. */
export function gradeRun(run: BenchRun, chart: SpeedChart): Verdict {
  const speeds = speedsOf(readLines(run.text));
  const trace = {
    length: speeds.length,
    atMs: Float64Array.from(speeds, ({ timeMs }) => timeMs),
    value: Float64Array.from(speeds, ({ rpm }) => rpm),
    quality: new Uint8Array(speeds.length),
  };
  const cranks = cranksIn(run);
  const times = cranks.map((crank) => crankTime(crank, DEFAULT_CRANK_SETTINGS));
  const averages = cranks.map(({ start, end }) =>
    averageSpeed(trace, start.atMs, end.atMs, { resolutionRpm: 0.125 }),
  );
  const volume = measureVolume({ vessel: vesselById('cylinder-500')!, readingsMl: [readingOf(run)!] });
  if (!volume.ok) throw new Error(volume.problem.code);
  const delivery: CrankDelivery = {
    cranks: [],
    crankSeconds: times.reduce((sum, { seconds }) => sum + seconds, 0),
    crankSecondsUncertainty: Math.hypot(
      ...times.map(({ standardUncertaintySeconds }) => standardUncertaintySeconds),
    ),
    targetSeconds: chart.cranks * chart.crankSeconds,
    average: joinAverages(averages),
    volume: volume.value,
    volumeAtTargetMl: null,
    reasons: [],
    warnings: [],
  };
  return gradeSpeedChart(delivery, chart);
}
