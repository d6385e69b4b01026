import { describe, expect, it } from 'vitest';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import type { UncertaintyCause } from '../../src/grading/uncertainty.ts';
import { chooseLimit } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { averageOf, entryOf } from '../checks/example-cranks.ts';
import { CUBIC_CHART, GRADED_CUBIC } from './graded-cubic-chart.ts';
import { GRADED_DEMONSTRATION } from './graded-demonstration.ts';
import { GRADED_HIGH, HIGH_CHART } from './graded-high-chart.ts';
import { rowsOf, type GradedRow } from './graded-rows.ts';

/** The chart as it comes out of a sheet that was read from JSON: the path a real sheet takes. */
function throughASheet(chart: SpeedChart): SpeedChart {
  const sheet = JSON.parse(JSON.stringify({ ...DEMONSTRATION_SHEET, limits: [chart] })) as unknown;
  const parsed = parseLimitSheet(sheet);
  if (!parsed.ok) throw new Error(parsed.problem.code);
  const chosen = chooseLimit(parsed.value, chart.check);
  if (!chosen.ok || chosen.value.limit.kind !== 'speed chart') throw new Error('no chart in the sheet');
  return chosen.value.limit;
}

/** The delivery of a row, from what was read off the vessel and the cranks; a wrong time is always argued away. */
function deliveryOf(row: GradedRow, chart: SpeedChart) {
  const vessel = vesselById(row.vessel);
  const volume = vessel && measureVolume({ vessel, readingsMl: [row.volumeMl] });
  if (!volume?.ok) throw new Error(`no such volume: ${row.line}`);
  const spanMs = 1000 * (row.crankSeconds[0] + row.crankSeconds[1]);
  // The average that the chart does not ask for is far off, so that taking it would show.
  const wrong = row.speedRpm + 25;
  const means = chart.speedAverage === 'samples' ? { meanRpm: wrong, sampleMeanRpm: row.speedRpm } : {};
  const average = averageOf(row.speedRpm, spanMs, {
    sampleMeanRpm: wrong,
    standardUncertaintyRpm: row.speedDoubtRpm,
    ...means,
  });
  const overrides = [{ code: 'check.time-outside', reason: 'batteries did not last' } as const];
  const cranks = row.crankSeconds.map((seconds) => entryOf(seconds));
  return measureCrankDelivery({ limit: chart, cranks, average, volume: volume.value, overrides });
}

const tables: readonly (readonly [string, SpeedChart | undefined, string, number])[] = [
  [
    'demonstration sheet',
    DEMONSTRATION_SHEET.limits.find((limit) => limit.kind === 'speed chart'),
    GRADED_DEMONSTRATION,
    43,
  ],
  ['invented sheet with failAbove', HIGH_CHART, GRADED_HIGH, 24],
  ['invented sheet of monotone cubics and plain means', CUBIC_CHART, GRADED_CUBIC, 24],
];

describe.each(tables)('the table worked by hand for the %s', (_, source, table, count) => {
  if (!source) throw new Error('no chart');
  const chart = throughASheet(source);
  const rows = rowsOf(table);

  it('holds all of its rows', () => {
    expect(rows).toHaveLength(count);
  });

  it.each(rows.map((row) => [row.line, row] as const))('%s: area, distance and word', (__, row) => {
    const verdict = gradeSpeedChart(deliveryOf(row, chart), chart);
    expect(verdict.leaning).toBe(row.leaning);
    expect(verdict.word).toBe(row.called ? row.leaning : 'too close to call');
    expect(verdict.nearest?.name).toBe(row.nearest);
    // The table is rounded to four decimals.
    expect(Math.abs((verdict.nearest?.atValue ?? NaN) - row.lineMl)).toBeLessThan(6e-5);
    expect(Math.abs((verdict.nearest?.distance ?? NaN) - row.distanceMl)).toBeLessThan(6e-5);
    const percent = (100 * row.distanceMl) / row.lineMl;
    expect(Math.abs((verdict.nearest?.distancePercent ?? NaN) - percent)).toBeLessThan(1e-4);
    expect(Math.abs((verdict.confidence ?? NaN) - row.probability)).toBeLessThan(6e-5);
  });

  it.each(rows.map((row) => [row.line, row] as const))('%s: parts of the uncertainty', (__, row) => {
    const placed = placeOnChart(deliveryOf(row, chart), chart);
    const boundary = placed.ok ? placed.value.boundaries.find(({ name }) => name === row.nearest) : undefined;
    const part = (...causes: readonly UncertaintyCause[]) =>
      Math.hypot(
        ...(boundary?.budget.parts ?? [])
          .filter(({ cause }) => causes.includes(cause))
          .map(({ contribution }) => contribution),
      );
    expect(Math.abs(part('tolerance', 'reading', 'line') - row.vesselPartMl)).toBeLessThan(6e-5);
    expect(Math.abs(part('time') - row.timePartMl)).toBeLessThan(6e-5);
    expect(Math.abs(part('speed') - row.speedPartMl)).toBeLessThan(6e-5);
    expect(Math.abs((boundary?.budget.combined ?? NaN) - row.combinedMl)).toBeLessThan(6e-5);
  });
});
