import { describe, expect, it } from 'vitest';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import { collectedArithmetic, deliveryArithmetic } from '../../src/grading/arithmetic.ts';
import { stepText, type ArithmeticStep } from '../../src/grading/arithmetic-step.ts';
import { gradeSpeedChart } from '../../src/grading/grade-speed-chart.ts';
import { gradeCollectedVolume } from '../../src/grading/grade-window.ts';
import { measureVolume } from '../../src/checks/volume.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { averageOf, entryOf } from '../checks/example-cranks.ts';
import { CHART, collectedOf, deliveryOf, RETURN_WINDOW, volumeOf } from './example-delivery.ts';

const DELIVERY = measureCrankDelivery({
  limit: CHART,
  cranks: [entryOf(15.1), entryOf(14.8)],
  average: averageOf(180, 29_900, { sampleMeanRpm: 178.4, standardUncertaintyRpm: 2 }),
  volume: volumeOf(284),
});
const VERDICT = gradeSpeedChart(DELIVERY, CHART);
const STEPS = deliveryArithmetic(DELIVERY, CHART, VERDICT);

function step(label: string, steps: readonly ArithmeticStep[] = STEPS): ArithmeticStep {
  const found = steps.find((each) => each.label.startsWith(label));
  if (!found) throw new Error(`no step "${label}"`);
  return found;
}

const number = ({ numbers }: ArithmeticStep, name: string): number =>
  numbers.find((each) => each.name.startsWith(name))?.value ?? NaN;
const result = ({ result: end }: ArithmeticStep): number => ('value' in end ? end.value : NaN);

describe('the arithmetic of a crank delivery can be repeated by hand', () => {
  it('adds the cranks up to the crank time', () => {
    const time = step('Crank time');
    expect(number(time, 'crank 1') + number(time, 'crank 2')).toBeCloseTo(result(time), 9);
    expect(result(time)).toBeCloseTo(29.9, 9);
  });

  it('divides the area under the trace by the time', () => {
    const weighted = step('Average cranking speed, time-weighted');
    expect(number(weighted, 'area') / number(weighted, 'time')).toBeCloseTo(result(weighted), 9);
  });

  it('shows both averages and which one the sheet asks for', () => {
    expect(result(step('Average cranking speed, plain'))).toBe(178.4);
    expect(step('Speed for the chart').formula).toContain('time-weighted');
    expect(result(step('Speed for the chart'))).toBe(180);
  });

  it('gives both curves at that speed with their slope', () => {
    expect(result(step('Curve failBelow'))).toBeCloseTo(90 + 1.5 * 80, 9);
    expect(result(step('Curve passAbove'))).toBeCloseTo(120 + 2 * 80, 9);
    expect(number(step('Curve passAbove'), 'slope')).toBe(2);
  });

  it('subtracts the nearest boundary from the volume', () => {
    const distance = step('Distance to the nearest');
    expect(result(distance)).toBe(number(distance, 'value') - number(distance, 'boundary'));
    expect(result(distance)).toBeCloseTo(VERDICT.nearest?.distance ?? NaN, 12);
    expect(number(distance, 'distance')).toBeCloseTo(VERDICT.nearest?.distancePercent ?? NaN, 12);
  });

  it('takes the root of the sum of squares of the parts it lists', () => {
    const doubt = step('Standard uncertainty of the distance to passAbove');
    const squares = doubt.numbers.reduce((sum, { value }) => sum + value ** 2, 0);
    expect(Math.sqrt(squares)).toBeCloseTo(result(doubt), 9);
    expect(number(doubt, 'vessel tolerance')).toBeCloseTo(4 / Math.sqrt(3), 9);
    expect(number(doubt, 'reading')).toBeCloseTo(2.5 / Math.sqrt(3), 9);
    expect(number(doubt, 'speed')).toBe(4);
  });

  it('states the distance in standard uncertainties and the probabilities', () => {
    const z = result(step('Distance to passAbove in standard'));
    expect(z * result(step('Standard uncertainty of the distance to passAbove'))).toBeCloseTo(4, 9);
    const areas = step('Probability of each area');
    expect(areas.numbers.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(100, 9);
    expect(result(areas)).toBeCloseTo(100 * (VERDICT.confidence ?? NaN), 9);
  });

  it('ends with the verdict, leaning included', () => {
    expect(STEPS.at(-1)?.result).toEqual({ text: 'too close to call, leaning pass' });
  });

  it('gives every number a name, and every one but counts and ratios a unit', () => {
    for (const { numbers } of STEPS) {
      for (const { name, unit, value } of numbers) {
        expect(name).not.toBe('');
        expect(Number.isFinite(value)).toBe(true);
        if (name !== 'samples') expect(unit).not.toBe('');
      }
    }
  });
});

describe('the arithmetic where there is no verdict', () => {
  it('shows what there is and ends with why it ends', () => {
    const slow = deliveryOf(volumeOf(284), { meanRpm: 90 });
    const steps = deliveryArithmetic(slow, CHART, gradeSpeedChart(slow, CHART));
    expect(steps.map(({ label }) => label)).toContain('Volume');
    expect(steps.some(({ label }) => label.startsWith('Curve'))).toBe(false);
    expect(steps.at(-1)?.result).toEqual({ text: 'not valid' });
  });

  it('has nothing to say on a speed or a volume that is not there', () => {
    const empty = deliveryOf(null, {}, { average: null });
    const labels = deliveryArithmetic(empty, CHART, gradeSpeedChart(empty, CHART)).map(({ label }) => label);
    expect(labels).toEqual(['Crank time', 'Verdict']);
  });
});

describe('the arithmetic of a collected volume', () => {
  it('shows the scaling of an estimate, and both ends of the window', () => {
    const collected = collectedOf(volumeOf(120), { seconds: 20, volumeAtTargetMl: 180 });
    const steps = collectedArithmetic(
      collected,
      RETURN_WINDOW,
      gradeCollectedVolume(collected, RETURN_WINDOW),
    );
    const scaled = step('Volume scaled', steps);
    expect((number(scaled, 'volume') * number(scaled, 'target')) / number(scaled, 'measured')).toBe(
      result(scaled),
    );
    expect(result(step('Limit min', steps))).toBe(125);
    expect(result(step('Limit max', steps))).toBe(525);
    expect(steps.at(-1)?.result).toEqual({ text: 'pass' });
  });

  it('lists each filling of the vessel', () => {
    const volume = {
      ...volumeOf(480),
      parts: { readingsMl: [250, 230], toleranceMl: 1, readingMl: 1, lineMl: 0 },
    };
    const collected = collectedOf(volume);
    const steps = collectedArithmetic(
      collected,
      RETURN_WINDOW,
      gradeCollectedVolume(collected, RETURN_WINDOW),
    );
    const read = step('Volume', steps);
    expect(number(read, 'filling 1') + number(read, 'filling 2')).toBe(result(read));
  });
});

describe('a step as one line of text', () => {
  it('holds label, formula, numbers and result', () => {
    expect(stepText(step('Curve failBelow'))).toBe(
      'Curve failBelow at this speed: between the two points of the curve around the speed [speed 180 rpm; slope there 1.5 mL/rpm] = failBelow 210 mL',
    );
    expect(stepText(step('Verdict'))).toBe(
      'Verdict: a verdict needs 95 % for its area = too close to call, leaning pass',
    );
  });
});

describe('the arithmetic of a volume read off a photograph', () => {
  const measured = measureVolume({
    vessel: vesselById('cylinder-500')!,
    readingsMl: [284],
    photoUncertaintyMl: 0.6,
  });
  if (!measured.ok) throw new Error(measured.problem.code);
  const photographed = { ...DELIVERY, volume: measured.value };
  const verdict = gradeSpeedChart(photographed, CHART);
  const steps = deliveryArithmetic(photographed, CHART, verdict);

  it('names the photograph, with its own uncertainty', () => {
    const volume = step('Volume', steps);
    expect(volume.formula).toBe('read off a photograph of: Graduated cylinder 500 mL');
    expect(number(volume, 'standard uncertainty off the photograph')).toBe(0.6);
  });

  it('lists it among the parts in place of half a mark, and the root still comes out', () => {
    const doubt = step('Standard uncertainty of the distance to passAbove', steps);
    expect(number(doubt, 'reading off the photograph')).toBe(0.6);
    expect(doubt.numbers.map(({ name }) => name)).not.toContain('reading, half a mark (÷ √3)');
    expect(number(doubt, 'vessel tolerance')).toBeCloseTo(4 / Math.sqrt(3), 9);
    expect(Math.sqrt(doubt.numbers.reduce((sum, { value }) => sum + value ** 2, 0))).toBeCloseTo(
      result(doubt),
      9,
    );
  });

  it('says so in the volume alone where none was photographed', () => {
    expect(step('Volume').formula).toContain('read on');
  });
});
