import { describe, expect, it } from 'vitest';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import { normalBelow } from '../../src/grading/normal-distribution.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { averageOf, entryOf } from '../checks/example-cranks.ts';
import { CHART } from './example-delivery.ts';
import { CUBIC_CHART } from './graded-cubic-chart.ts';
import { HIGH_CHART } from './graded-high-chart.ts';
import { seededDraws, spreadOfDraws, type Draws } from './seeded-draws.ts';

/** One delivery to be drawn many times. The lines are written out here once more, as plain functions of speed. */
interface Trial {
  readonly name: string;
  readonly chart: SpeedChart;
  readonly speedRpm: number;
  readonly speedDoubtRpm: number;
  readonly volumeMl: number;
  readonly vessel: string;
  /** Half-width of the marks and distance of two marks, mL (check-values.md F). */
  readonly halfWidthMl: number;
  readonly graduationMl: number;
  readonly residueMl: number;
  readonly eachSeconds: number;
  readonly eachDoubtSeconds: number;
  readonly lines: readonly ((rpm: number) => number)[];
}

/** The cubic of CUBIC_CHART between 140 and 180 rpm: Hermite, slopes 4/3 and 1 at its ends (worked in graded-cubic-chart.ts). */
const cubicPassAbove = (rpm: number): number => {
  const t = (rpm - 140) / 40;
  return (
    (2 * t ** 3 - 3 * t ** 2 + 1) * 210 +
    (t ** 3 - 2 * t ** 2 + t) * 40 * (4 / 3) +
    (3 * t ** 2 - 2 * t ** 3) * 250 +
    (t ** 3 - t ** 2) * 40
  );
};

const TRIALS: readonly Trial[] = [
  {
    name: 'a cylinder, straight lines, all parts of like size',
    chart: CHART,
    speedRpm: 180,
    speedDoubtRpm: 2,
    volumeMl: 283,
    vessel: 'cylinder-500',
    halfWidthMl: 4,
    graduationMl: 5,
    residueMl: 4,
    eachSeconds: 15,
    eachDoubtSeconds: 0.2,
    lines: [(rpm) => 90 + 1.5 * (rpm - 100), (rpm) => 120 + 2 * (rpm - 100)],
  },
  {
    name: 'a doubtful speed over two narrow areas',
    chart: HIGH_CHART,
    speedRpm: 140,
    speedDoubtRpm: 4,
    volumeMl: 92,
    vessel: 'cylinder-250',
    halfWidthMl: 2,
    graduationMl: 2,
    residueMl: 0,
    eachSeconds: 10,
    eachDoubtSeconds: 0.1,
    lines: [(rpm) => rpm - 60, (rpm) => rpm - 40, (rpm) => rpm + 40],
  },
  {
    name: 'a bent line, where first order is not exact',
    chart: CUBIC_CHART,
    speedRpm: 160,
    speedDoubtRpm: 3,
    volumeMl: 234,
    vessel: 'cylinder-250',
    halfWidthMl: 2,
    graduationMl: 2,
    residueMl: 2,
    eachSeconds: 7.5,
    eachDoubtSeconds: 0.05,
    lines: [cubicPassAbove],
  },
];

const DRAWS = 40_000;

/** The product's own working of the trial. */
function worked(trial: Trial) {
  const { speedRpm, speedDoubtRpm, eachSeconds, eachDoubtSeconds } = trial;
  const vessel = vesselById(trial.vessel);
  const volume =
    vessel && measureVolume({ vessel, readingsMl: [trial.volumeMl], lineResidueMl: trial.residueMl });
  if (!volume?.ok) throw new Error('no volume');
  // Edges set by hand: then the whole doubt of a crank time falls out anew for each crank.
  const setEdges = { startMs: 0, endMs: 1000 * eachSeconds, reason: 'as drawn' };
  const time = { spanMs: 1000 * eachSeconds, standardUncertaintyMs: 1000 * eachDoubtSeconds };
  const entry = entryOf(eachSeconds, { time, setEdges });
  const average = averageOf(speedRpm, 2000 * eachSeconds, { standardUncertaintyRpm: speedDoubtRpm });
  const delivery = measureCrankDelivery({
    limit: trial.chart,
    cranks: [entry, entry],
    average,
    volume: volume.value,
  });
  const placed = placeOnChart(delivery, trial.chart);
  if (!placed.ok) throw new Error(placed.problem.code);
  return { placement: placed.value, verdict: gradeSpeedChart(delivery, trial.chart) };
}

/** What may truly have been: volume in the asked time, less each line at the true speed. One draw (JCGM 101:2008, 5.9). */
function draw(trial: Trial, { flat, normal }: Draws): { readonly volumeMl: number; readonly rpm: number } {
  const marks = trial.halfWidthMl * flat();
  const reading = (trial.graduationMl / 2) * flat();
  const residue = trial.residueMl * flat();
  const measured = 2 * trial.eachSeconds;
  const truly = measured + trial.eachDoubtSeconds * (normal() + normal());
  const volumeMl = ((trial.volumeMl + marks + reading + residue) * measured) / truly;
  return { volumeMl, rpm: trial.speedRpm + trial.speedDoubtRpm * normal() };
}

describe.each(TRIALS)('$name', (trial) => {
  const source = seededDraws(20_261_125);
  const drawn = Array.from({ length: DRAWS }, () => draw(trial, source));
  const { placement, verdict } = worked(trial);
  const boundaries = placement.boundaries.slice(-trial.lines.length);

  it('draws scatter about each line as much as the first order says', () => {
    expect(boundaries).toHaveLength(trial.lines.length);
    boundaries.forEach(({ budget, atValue }, index) => {
      const line = trial.lines[index] ?? (() => NaN);
      expect(atValue).toBeCloseTo(line(trial.speedRpm), 9);
      const { mean, sd } = spreadOfDraws(drawn.map(({ volumeMl, rpm }) => volumeMl - line(rpm)));
      // The standard deviation of n draws is itself known to 1/√(2n) = 0.35 %; four of those, and 0.6 % for what first order leaves out
      // (the largest second-order term here, (u(T)/T)·u(V), is below 1 % of one part).
      expect(Math.abs(sd / budget.combined - 1)).toBeLessThan(0.02);
      // The mean of n draws is known to u/√n = 0.005 u; second-order terms shift it by (u(T)/T)²·V and half the bend times u(n)²: < 0.06 u.
      expect(Math.abs(mean - (trial.volumeMl - atValue)) / budget.combined).toBeLessThan(0.06);
    });
  });

  it('draws fall into each area as often as the normal distribution says', () => {
    const counted = boundaries.map((_, index) => {
      const line = trial.lines[index] ?? (() => NaN);
      return drawn.filter(({ volumeMl, rpm }) => volumeMl < line(rpm)).length / DRAWS;
    });
    boundaries.forEach(({ atValue, budget }, index) => {
      const stated = normalBelow((atValue - placement.value) / budget.combined);
      // √(p(1 − p)/n) is at most 0.0025; four of those. Sums with rectangular parts differ from the normal by less than 0.01 here: the
      // largest rectangular part has at most 85 % of the variance in none of the trials.
      expect(Math.abs((counted[index] ?? NaN) - stated)).toBeLessThan(0.02);
    });
    const passes =
      'fail high' === placement.above ? (counted[2] ?? 1) - (counted[1] ?? 0) : 1 - (counted.at(-1) ?? 0);
    expect(Math.abs(passes - (verdict.probabilities?.pass ?? NaN))).toBeLessThan(0.02);
  });

  it('would notice a part that is left out', () => {
    // The check has teeth: without its largest part the stated uncertainty would miss the draws by more than the 2 % allowed.
    boundaries.forEach(({ budget }, index) => {
      const line = trial.lines[index] ?? (() => NaN);
      const { sd } = spreadOfDraws(drawn.map(({ volumeMl, rpm }) => volumeMl - line(rpm)));
      const largest = Math.max(...budget.parts.map(({ contribution }) => contribution));
      expect(sd / Math.sqrt(budget.combined ** 2 - largest ** 2)).toBeGreaterThan(1.1);
    });
  });
});

describe('the generator of draws', () => {
  it('has the spread of its distributions: 1/√3 for the flat one, 1 for the normal one', () => {
    const source = seededDraws(7);
    const flat = spreadOfDraws(Array.from({ length: DRAWS }, () => source.flat()));
    const normal = spreadOfDraws(Array.from({ length: DRAWS }, () => source.normal()));
    expect(Math.abs(flat.sd * Math.sqrt(3) - 1)).toBeLessThan(0.015);
    expect(Math.abs(normal.sd - 1)).toBeLessThan(0.015);
    expect(Math.abs(flat.mean)).toBeLessThan(0.0125); // four times 0.577 / √40000
    expect(Math.abs(normal.mean)).toBeLessThan(0.02);
  });

  it('gives the same draws for the same seed', () => {
    const first = seededDraws(99);
    const second = seededDraws(99);
    for (let count = 0; count < 10; count += 1) expect(second.flat()).toBe(first.flat());
  });
});
