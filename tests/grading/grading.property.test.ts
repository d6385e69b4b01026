import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gradeSpeedChart } from '../../src/grading/grade-speed-chart.ts';
import { gradeCollectedVolume } from '../../src/grading/grade-window.ts';
import type { Verdict, Zone } from '../../src/grading/verdict.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import { sheetMistakes } from '../../src/limits/sheet-mistakes.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { CHART, collectedOf, deliveryOf, RETURN_WINDOW, volumeOf } from './example-delivery.ts';

const RANK: Readonly<Record<Zone, number>> = { 'fail low': 0, marginal: 1, pass: 2, 'fail high': 3 };

/** Charts of sound shape: rising curves one above the other, joined either way, with or without failAbove. */
const charts: fc.Arbitrary<SpeedChart> = fc
  .record({
    steps: fc.array(fc.tuple(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 0, max: 90 })), {
      minLength: 2,
      maxLength: 6,
    }),
    band: fc.integer({ min: 0, max: 60 }),
    high: fc.option(fc.integer({ min: 1, max: 200 })),
    join: fc.constantFrom('straight' as const, 'monotone cubic' as const),
  })
  .map(({ steps, band, high, join }) => {
    let [speed, volume] = [80, 40];
    const base = steps.map(([step, rise]) => [(speed += step), (volume += rise)] as [number, number]);
    const raised = (by: number) => base.map(([at, height]) => [at, height + by] as [number, number]);
    const failAbove = high === null ? null : raised(band + high);
    return { ...CHART, join, failBelow: base, passAbove: raised(band), failAbove };
  });

const volumes = fc.double({ min: 0, max: 1000, noNaN: true });
const parts = fc.double({ min: 0, max: 1, noNaN: true });
const doubts = fc.record({
  standardUncertaintyRpm: fc.double({ min: 0, max: 8, noNaN: true }),
  crankSecondsUncertainty: fc.double({ min: 0, max: 1, noNaN: true }),
});

/** A speed on the chart, at this part of its range. */
const speedOn = ({ failBelow }: SpeedChart, part: number): number => {
  const [from, to] = [failBelow[0]?.[0] ?? NaN, failBelow.at(-1)?.[0] ?? NaN];
  return Math.min(to, from + part * (to - from));
};

const rank = ({ leaning }: Verdict): number => (leaning === null ? NaN : RANK[leaning]);

describe('the verdict on any sound chart', () => {
  it('rises with the volume, and so does every probability to be above a line', () => {
    fc.assert(
      fc.property(charts, fc.tuple(volumes, volumes), parts, doubts, (chart, pair, part, doubt) => {
        const grade = (valueMl: number) =>
          gradeSpeedChart(
            deliveryOf(volumeOf(valueMl, 3), { meanRpm: speedOn(chart, part), ...doubt }, doubt),
            chart,
          );
        const [less, more] = [grade(Math.min(...pair)), grade(Math.max(...pair))];
        expect(rank(more)).toBeGreaterThanOrEqual(rank(less));
        const failLow = (verdict: Verdict) => verdict.probabilities?.['fail low'] ?? NaN;
        const failHigh = (verdict: Verdict) => verdict.probabilities?.['fail high'] ?? NaN;
        expect(failLow(more)).toBeLessThanOrEqual(failLow(less) + 1e-12);
        expect(failHigh(more)).toBeGreaterThanOrEqual(failHigh(less) - 1e-12);
      }),
    );
  });

  it('has probabilities between 0 and 1 that together make 1', () => {
    fc.assert(
      fc.property(charts, volumes, parts, doubts, (chart, valueMl, part, doubt) => {
        const delivery = deliveryOf(volumeOf(valueMl, 3), { meanRpm: speedOn(chart, part), ...doubt }, doubt);
        const { probabilities } = gradeSpeedChart(delivery, chart);
        const all = Object.values(probabilities ?? {});
        expect(all).toHaveLength(4);
        for (const each of all) expect(each).toBeGreaterThanOrEqual(0);
        expect(all.reduce((sum, each) => sum + each, 0)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('is its leaning when that is 95 % likely, else too close to call', () => {
    fc.assert(
      fc.property(charts, volumes, parts, doubts, (chart, valueMl, part, doubt) => {
        const delivery = deliveryOf(volumeOf(valueMl, 3), { meanRpm: speedOn(chart, part), ...doubt }, doubt);
        const { word, leaning, confidence } = gradeSpeedChart(delivery, chart);
        expect(word).toBe((confidence ?? NaN) >= 0.95 ? leaning : 'too close to call');
      }),
    );
  });

  it('has a distance whose sign says on which side of the nearest line it lies', () => {
    fc.assert(
      fc.property(charts, volumes, parts, (chart, valueMl, part) => {
        const verdict = gradeSpeedChart(
          deliveryOf(volumeOf(valueMl, 3), { meanRpm: speedOn(chart, part) }),
          chart,
        );
        const { name, atValue, distance, distancePercent } = verdict.nearest ?? { distance: NaN };
        expect(distance).toBe(valueMl - (atValue ?? NaN));
        expect(Math.sign(distancePercent ?? NaN)).toBe(Math.sign(distance));
        if (name === 'failBelow') expect(distance < 0).toBe(verdict.leaning === 'fail low');
        if (name === 'failAbove') expect(distance > 0).toBe(verdict.leaning === 'fail high');
        if (name === 'passAbove') expect(distance >= 0).toBe(rank(verdict) >= RANK.pass);
      }),
    );
  });

  it('does not exist outside the curves', () => {
    const beyond = fc.double({ min: 1e-6, max: 500, noNaN: true });
    fc.assert(
      fc.property(charts, volumes, beyond, fc.boolean(), (chart, valueMl, by, slow) => {
        const meanRpm = slow ? speedOn(chart, 0) - by : speedOn(chart, 1) + by;
        const verdict = gradeSpeedChart(deliveryOf(volumeOf(valueMl, 3), { meanRpm }), chart);
        expect(verdict).toMatchObject({ word: 'not valid', leaning: null, confidence: null, nearest: null });
        const code = slow ? 'check.too-slow-for-chart' : 'check.too-fast-for-chart';
        expect(verdict.reasons.map((each) => each.code)).toEqual([code]);
      }),
    );
  });

  it('never throws on any numbers at all', () => {
    const any = fc.double();
    fc.assert(
      fc.property(any, any, any, any, (valueMl, meanRpm, standardUncertaintyRpm, crankSeconds) => {
        const volume = { ...volumeOf(1), valueMl };
        const delivery = deliveryOf(volume, { meanRpm, standardUncertaintyRpm }, { crankSeconds });
        const { confidence, word } = gradeSpeedChart(delivery, CHART);
        expect(confidence === null).toBe(word === 'not valid');
        expect(confidence).not.toBeNaN();
      }),
    );
  });

  it('is asked of charts that the reader of sheets would take', () => {
    fc.assert(
      fc.property(charts, (chart) => {
        expect(sheetMistakes({ ...DEMONSTRATION_SHEET, limits: [chart] })).toEqual([]);
      }),
    );
  });
});

describe('the verdict in a window', () => {
  it('rises with the volume and sums its probabilities to 1', () => {
    fc.assert(
      fc.property(volumes, volumes, (a, b) => {
        const grade = (valueMl: number) =>
          gradeCollectedVolume(collectedOf(volumeOf(valueMl, 3), { secondsUncertainty: 0.3 }), RETURN_WINDOW);
        const [less, more] = [grade(Math.min(a, b)), grade(Math.max(a, b))];
        expect(rank(more)).toBeGreaterThanOrEqual(rank(less));
        const sum = Object.values(less.probabilities ?? {}).reduce((total, each) => total + each, 0);
        expect(sum).toBeCloseTo(1, 12);
        expect(less.probabilities?.marginal).toBe(0);
      }),
    );
  });
});
