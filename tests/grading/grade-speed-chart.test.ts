import { describe, expect, it } from 'vitest';
import { measureCrankDelivery } from '../../src/checks/crank-delivery.ts';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { describeProblem, problem } from '../../src/problems/problem.ts';
import { averageOf, entryOf } from '../checks/example-cranks.ts';
import { CHART, deliveryOf, volumeOf, withoutParts } from './example-delivery.ts';

const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

describe('a point well inside an area', () => {
  it.each([
    [150, 'fail low', 'failBelow', -60],
    [244, 'marginal', 'failBelow', 34],
    [250, 'marginal', 'passAbove', -30],
    [350, 'pass', 'passAbove', 70],
  ])('%i mL at 180 rpm: %s, nearest %s by %f mL', (valueMl, word, name, distance) => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(valueMl)), CHART);
    expect(verdict.word).toBe(word);
    expect(verdict.leaning).toBe(word);
    expect(verdict.nearest?.name).toBe(name);
    expect(verdict.nearest?.distance).toBeCloseTo(distance, 9);
    expect(verdict.nearest?.distancePercent).toBeCloseTo(
      (100 * distance) / (name === 'failBelow' ? 210 : 280),
      9,
    );
    expect(verdict.confidence).toBeGreaterThan(0.95);
    expect(verdict.reasons).toEqual([]);
  });

  it('above failAbove, where the chart has one, it fails high', () => {
    const chart: SpeedChart = {
      ...CHART,
      failAbove: [
        [100, 200],
        [260, 520],
      ],
    };
    expect(gradeSpeedChart(deliveryOf(volumeOf(320)), chart).word).toBe('pass');
    expect(gradeSpeedChart(deliveryOf(volumeOf(420)), chart).word).toBe('fail high');
  });
});

describe('the uncertainty of the distance to a curve', () => {
  const placed = placeOnChart(deliveryOf(volumeOf(260)), CHART);
  const boundaries = placed.ok ? placed.value.boundaries : [];

  it('joins vessel, reading, time and speed by their sensitivities', () => {
    // By hand: vessel and reading 2.723 (check-values.md F); time 260/30 * 0.3 = 2.6; speed 1.5 * 2 = 3 and 2 * 2 = 4.
    expect(boundaries.map(({ budget }) => budget.combined)).toEqual([
      expect.closeTo(Math.sqrt(2.723 ** 2 + 2.6 ** 2 + 3 ** 2), 3),
      expect.closeTo(Math.sqrt(2.723 ** 2 + 2.6 ** 2 + 4 ** 2), 3),
    ]);
  });

  it('names what each part comes from', () => {
    const causes = boundaries[0]?.budget.parts.map(({ cause }) => cause);
    expect(causes).toEqual(['tolerance', 'reading', 'line', 'time', 'speed']);
  });

  it('takes a volume without parts as one part', () => {
    const bare = withoutParts(volumeOf(260));
    const place = placeOnChart(deliveryOf(bare), CHART);
    expect(place.ok && place.value.boundaries[0]?.budget.combined).toBeCloseTo(
      boundaries[0]?.budget.combined ?? NaN,
      9,
    );
  });
});

describe('a point near a line', () => {
  it('is too close to call below 95 %, with the area it leans to and how likely that is', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(284)), CHART);
    expect(verdict.word).toBe('too close to call');
    expect(verdict.leaning).toBe('pass');
    expect(verdict.confidence).toBeGreaterThan(0.5);
    expect(verdict.confidence).toBeLessThan(0.95);
    expect(verdict.probabilities?.marginal).toBeCloseTo(1 - (verdict.confidence ?? NaN), 9);
  });

  it('becomes a verdict where 1.645 standard uncertainties are reached (JCGM 106 table 1)', () => {
    // A volume of fixed uncertainty 3 mL, time and speed exact: the line is 280 mL, so the verdict starts at 284.935 mL.
    const exact = { standardUncertaintyRpm: 0 };
    const at = (valueMl: number) => {
      const volume = { ...withoutParts(volumeOf(280)), valueMl, standardUncertaintyMl: 3 };
      return gradeSpeedChart(deliveryOf(volume, exact, { crankSecondsUncertainty: 0 }), CHART).word;
    };
    expect(at(280 + 3 * 1.644)).toBe('too close to call');
    expect(at(280 + 3 * 1.645)).toBe('pass');
  });

  it('exactly on it belongs to the better side but is even odds', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(280)), CHART);
    expect(verdict.leaning).toBe('pass');
    expect(verdict.confidence).toBeCloseTo(0.5, 9);
    expect(gradeSpeedChart(deliveryOf(volumeOf(210)), CHART).leaning).toBe('marginal');
  });
});

describe('a speed off the chart has no verdict', () => {
  it('too slow says how slow, where the chart starts and what to do', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(300), { meanRpm: 92.4 }), CHART);
    expect(verdict).toMatchObject({ word: 'not valid', leaning: null, confidence: null, nearest: null });
    const text = verdict.reasons.map(describeProblem)[0];
    expect(text?.message).toBe('Cranking too slow for this chart (92.4 rpm, chart starts at 100 rpm).');
    expect(text?.remedy).toBe('Charge the batteries and repeat.');
  });

  it('too fast says so too', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(300), { meanRpm: 260.1 }), CHART);
    expect(codes(verdict.reasons)).toEqual(['check.too-fast-for-chart']);
  });

  it('on the very ends there is one', () => {
    for (const meanRpm of [100, 260]) {
      expect(gradeSpeedChart(deliveryOf(volumeOf(500), { meanRpm }), CHART).word).toBe('pass');
    }
  });

  it('counts as off the chart where only some of the curves are known', () => {
    const chart: SpeedChart = {
      ...CHART,
      passAbove: [
        [150, 220],
        [260, 440],
      ],
    };
    expect(codes(gradeSpeedChart(deliveryOf(volumeOf(20), { meanRpm: 120 }), chart).reasons)).toEqual([
      'check.too-slow-for-chart',
    ]);
  });
});

describe('the average that the sheet asks for', () => {
  it('decides where the chart is entered', () => {
    const delivery = deliveryOf(volumeOf(260), { meanRpm: 180, sampleMeanRpm: 140 });
    const bySamples: SpeedChart = { ...CHART, speedAverage: 'samples' };
    const place = placeOnChart(delivery, bySamples);
    expect(place.ok && place.value.speedRpm).toBe(140);
    expect(gradeSpeedChart(delivery, CHART).word).toBe('marginal');
    expect(gradeSpeedChart(delivery, bySamples).word).toBe('pass');
  });
});

describe('what keeps a verdict from being', () => {
  it('reasons of the measurement pass through untouched', () => {
    const reasons = [problem('check.engine-started', { number: 2 })];
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(300), {}, { reasons }), CHART);
    expect(verdict.word).toBe('not valid');
    expect(verdict.reasons).toEqual(reasons);
    expect(verdict.probabilities).toBeNull();
  });

  it.each([
    ['no volume', deliveryOf(null), 'check.no-volume'],
    ['no speed', deliveryOf(volumeOf(300), {}, { average: null }), 'check.no-speed'],
    ['a speed that is no number', deliveryOf(volumeOf(300), { meanRpm: NaN }), 'check.no-speed'],
    [
      'a speed of unknown doubt',
      deliveryOf(volumeOf(300), { standardUncertaintyRpm: NaN }),
      'check.speed-doubt-unknown',
    ],
    ['a volume that is no number', deliveryOf({ ...volumeOf(300), valueMl: NaN }), 'check.no-value'],
    [
      'a time of unknown doubt',
      deliveryOf(volumeOf(300), {}, { crankSecondsUncertainty: NaN }),
      'check.no-value',
    ],
  ])('%s', (_, delivery, code) => {
    const verdict = gradeSpeedChart(delivery, CHART);
    expect(verdict.word).toBe('not valid');
    expect(codes(verdict.reasons)).toEqual([code]);
  });

  it('no crank at all is said once, not as a missing speed as well', () => {
    const delivery = measureCrankDelivery({ limit: CHART, cranks: [], average: null, volume: volumeOf(300) });
    expect(codes(gradeSpeedChart(delivery, CHART).reasons)).toEqual(['check.no-cranks']);
  });
});

describe('what only warns', () => {
  it('a beaker', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(500, 4)), CHART);
    expect(verdict.word).toBe('pass');
    expect(codes(verdict.warnings)).toEqual(['check.beaker']);
  });

  it('an overridden time is graded on the scaled volume, labelled an estimate', () => {
    const cranks = [entryOf(12), entryOf(12)];
    const overrides = [{ code: 'check.time-outside', reason: 'starter hot' } as const];
    const average = averageOf(180, 24_000);
    const volume = volumeOf(250); // 250 mL in 24 s is 312.5 mL in 30 s
    const verdict = gradeSpeedChart(
      measureCrankDelivery({ limit: CHART, cranks, average, volume, overrides }),
      CHART,
    );
    expect(verdict.word).toBe('pass');
    expect(verdict.nearest?.distance).toBeCloseTo(312.5 - 280, 9);
    expect(codes(verdict.warnings)).toEqual([
      'check.time-outside',
      'check.overridden',
      'check.scaled-estimate',
    ]);
    const texts = verdict.warnings.map((each) => describeProblem(each).message);
    expect(texts[2]).toBe('Graded on an estimate: 250 mL in 24 s, scaled to 312.5 mL in 30 s.');
    const without = gradeSpeedChart(measureCrankDelivery({ limit: CHART, cranks, average, volume }), CHART);
    expect(without.word).toBe('not valid');
  });

  it('an estimate scales its uncertainty with it', () => {
    const place = placeOnChart(
      deliveryOf(volumeOf(250), {}, { crankSeconds: 24, volumeAtTargetMl: 312.5 }),
      CHART,
    );
    // By hand: 2.723 * 30/24 and 312.5/24 * 0.3 and 1.5 * 2.
    const expected = Math.hypot(2.723 * 1.25, (312.5 / 24) * 0.3, 3);
    expect(place.ok && place.value.boundaries[0]?.budget.combined).toBeCloseTo(expected, 3);
  });
});
