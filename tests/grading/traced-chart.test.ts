import { describe, expect, it } from 'vitest';
import { deliveryArithmetic } from '../../src/grading/arithmetic.ts';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import { tracingParts } from '../../src/grading/uncertainty.ts';
import { whatSettles } from '../../src/grading/what-settles.ts';
import type { Tracing } from '../../src/limits/limit-sheet.ts';
import { CHART, deliveryOf, volumeOf } from './example-delivery.ts';

const TRACING: Tracing = { uVolumeMl: 3, uSpeedRpm: 2, note: 'traced by hand' };
const traced = (tracing: Tracing) => ({ ...CHART, tracing });
/** At 180 rpm passAbove is 280 mL with a slope of 2 mL/rpm, failBelow 210 mL with 1.5 (example-delivery.ts). */
const DELIVERY = deliveryOf(volumeOf(290));

function budgetOf(chart: typeof CHART, name: string) {
  const placed = placeOnChart(DELIVERY, chart);
  if (!placed.ok) throw new Error(placed.problem.code);
  const found = placed.value.boundaries.find((each) => each.name === name);
  if (!found) throw new Error(`no ${name}`);
  return found.budget;
}

describe('a curve traced off a picture', () => {
  it('adds its own doubt to that of the distance, in quadrature', () => {
    const plain = budgetOf(CHART, 'passAbove').combined;
    // By hand: 3 mL in volume, 2 mL/rpm times 2 rpm = 4 mL in speed; together 5 mL (GUM 5.1.2).
    expect(budgetOf(traced(TRACING), 'passAbove').combined).toBeCloseTo(Math.hypot(plain, 5), 9);
    // The flatter curve: 1.5 mL/rpm times 2 rpm = 3 mL.
    const low = budgetOf(CHART, 'failBelow').combined;
    expect(budgetOf(traced(TRACING), 'failBelow').combined).toBeCloseTo(Math.hypot(low, 3, 3), 9);
  });

  it('has one part where its doubt in speed is in that of volume already', () => {
    expect(tracingParts({ uVolumeMl: 3, note: '' }, 2)).toEqual([{ cause: 'tracing', contribution: 3 }]);
    expect(tracingParts(TRACING, -2).map(({ contribution }) => contribution)).toEqual([3, 4]);
    expect(tracingParts(undefined, 2)).toEqual([]);
  });

  it('has lines of its own in the arithmetic, which still adds up', () => {
    const chart = traced(TRACING);
    const steps = deliveryArithmetic(DELIVERY, chart, gradeSpeedChart(DELIVERY, chart));
    const doubt = steps.find(({ label }) => label.endsWith('distance to passAbove'));
    const lines = doubt?.numbers.filter(({ name }) => name.startsWith('tracing of the curve'));
    expect(lines?.map(({ value, unit }) => `${value} ${unit}`)).toEqual(['3 mL', '4 mL']);
    const squares = doubt?.numbers.reduce((sum, { value }) => sum + value ** 2, 0) ?? NaN;
    expect(doubt?.result).toMatchObject({ value: expect.closeTo(Math.sqrt(squares), 9) as number });
  });

  it('makes a verdict near the line less certain, never more', () => {
    const near = deliveryOf(volumeOf(290), { standardUncertaintyRpm: 0.5 });
    const certain = gradeSpeedChart(near, CHART);
    const doubtful = gradeSpeedChart(near, traced({ uVolumeMl: 12, note: 'a blurred picture' }));
    expect(certain.word).toBe('pass');
    expect(doubtful).toMatchObject({ word: 'too close to call', leaning: 'pass' });
    expect(doubtful.confidence).toBeLessThan(certain.confidence ?? NaN);
  });

  it('asks for a better picture where its tracing is what makes it too close to call', () => {
    const chart = traced({ uVolumeMl: 12, note: 'a blurred picture' });
    const placed = placeOnChart(DELIVERY, chart);
    if (!placed.ok) throw new Error(placed.problem.code);
    const [first] = whatSettles(placed.value, gradeSpeedChart(DELIVERY, chart));
    expect(first).toMatchObject({ action: 'trace better', text: expect.stringContaining('sharper picture') });
  });
});

describe('a chart whose points were given as numbers', () => {
  it('has no part for a tracing', () => {
    const causes = budgetOf(CHART, 'passAbove').parts.map(({ cause }) => cause);
    expect(causes).toEqual(['tolerance', 'reading', 'line', 'time', 'speed']);
  });

  it('is judged the same with a tracing of no doubt', () => {
    const exact = gradeSpeedChart(DELIVERY, traced({ uVolumeMl: 0, uSpeedRpm: 0, note: 'exact' }));
    expect(exact).toEqual(gradeSpeedChart(DELIVERY, CHART));
  });
});
