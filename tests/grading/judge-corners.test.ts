import { describe, expect, it } from 'vitest';
import { nearestBoundary, zoneOf, type Boundary, type Placement } from '../../src/grading/boundary.ts';
import { gradeCollectedVolume, gradeWindow } from '../../src/grading/grade-window.ts';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import { judge } from '../../src/grading/judge.ts';
import { compareRepeats } from '../../src/grading/repeats.ts';
import { combine, speedPart, volumeParts } from '../../src/grading/uncertainty.ts';
import { whatSettles } from '../../src/grading/what-settles.ts';
import type { UncertaintyCause } from '../../src/grading/uncertainty.ts';
import { CHART, collectedOf, deliveryOf, RETURN_WINDOW, volumeOf } from './example-delivery.ts';
import { HIGH_CHART } from './graded-high-chart.ts';

const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

/** A placement with one lower line at 100 and these parts. */
function above100(value: number, parts: readonly (readonly [UncertaintyCause, number])[]): Placement {
  const budget = combine(parts.map(([cause, contribution]) => ({ cause, contribution })));
  const line: Boundary = {
    name: 'min',
    atValue: 100,
    slopePerRpm: 0,
    below: 'fail low',
    ownValueIsBelow: false,
    budget,
  };
  return { value, unit: 'mL', speedRpm: null, boundaries: [line], above: 'pass' };
}
const settle = (placement: Placement) => whatSettles(placement, judge(placement, []));

describe('corners of placing', () => {
  it('of two lines equally near the lower one is named', () => {
    const verdict = gradeCollectedVolume(collectedOf(volumeOf(325)), RETURN_WINDOW); // 200 mL from 125 and from 525
    expect(verdict.nearest).toMatchObject({ name: 'min', distance: 200 });
  });

  it('exactly on failAbove it still passes at face value', () => {
    const placed = placeOnChart(deliveryOf(volumeOf(160, 1), { meanRpm: 120 }), HIGH_CHART);
    expect(placed.ok && zoneOf(placed.value)).toBe('pass');
    expect(placed.ok && nearestBoundary(placed.value)?.name).toBe('failAbove');
  });

  it('a speed that failAbove does not reach has no verdict, though the other curves know it', () => {
    const failAbove: [number, number][] = [
      [140, 180],
      [200, 240],
    ];
    const chart = { ...HIGH_CHART, failAbove };
    expect(codes(gradeSpeedChart(deliveryOf(volumeOf(70), { meanRpm: 130 }), chart).reasons)).toEqual([
      'check.too-slow-for-chart',
    ]);
    expect(codes(gradeSpeedChart(deliveryOf(volumeOf(70), { meanRpm: 210 }), chart).reasons)).toEqual([
      'check.too-fast-for-chart',
    ]);
  });

  it('a doubt below zero is no doubt at all but a mistake', () => {
    const delivery = deliveryOf(volumeOf(300), { standardUncertaintyRpm: -1 });
    expect(codes(gradeSpeedChart(delivery, CHART).reasons)).toEqual(['check.speed-doubt-unknown']);
    const time = deliveryOf(volumeOf(300), {}, { crankSecondsUncertainty: -0.1 });
    expect(codes(gradeSpeedChart(time, CHART).reasons)).toEqual(['check.no-value']);
    const volume = { ...volumeOf(300), valueMl: -5 };
    expect(codes(gradeCollectedVolume(collectedOf(volume), RETURN_WINDOW).reasons)).toEqual([
      'check.no-value',
    ]);
  });

  it('a value of endless uncertainty has no verdict', () => {
    const window = { ...RETURN_WINDOW, quantity: 'pressure' } as const;
    const value = { quantity: 'pressure', value: 300, budget: { parts: [], combined: Infinity } } as const;
    expect(codes(gradeWindow(value, window, { reasons: [], warnings: [] }).reasons)).toEqual([
      'check.no-value',
    ]);
  });

  it('an empty vessel after a good time fails low, and so does its estimate', () => {
    const verdict = gradeSpeedChart(deliveryOf(volumeOf(0)), CHART);
    expect(verdict).toMatchObject({ word: 'fail low', nearest: { distance: -210, distancePercent: -100 } });
    const scaled = deliveryOf(volumeOf(0), {}, { crankSeconds: 20, volumeAtTargetMl: 0 });
    expect(gradeSpeedChart(scaled, CHART).word).toBe('fail low');
  });
});

describe('corners of uncertainty', () => {
  it('a falling line makes a doubtful speed as uncertain as a rising one', () => {
    expect(speedPart(-1.5, 2)).toEqual(speedPart(1.5, 2));
    expect(speedPart(-1.5, 2).contribution).toBe(3);
  });

  it('scaling to the target scales tolerance, reading and line alike', () => {
    const parts = { readingsMl: [200], toleranceMl: 3, readingMl: 2, lineMl: 1 };
    const scaled = volumeParts({ ...volumeOf(200), parts }, 1.5, null);
    expect(scaled.map(({ contribution }) => contribution)).toEqual([4.5, 3, 1.5]);
  });

  it('a time of nothing adds no doubt instead of an endless one', () => {
    const causes = (seconds: number) =>
      volumeParts(volumeOf(200), 1, { seconds, standardUncertainty: 0.1 }).map(({ cause }) => cause);
    expect(causes(0)).not.toContain('time');
    expect(causes(30)).toContain('time');
  });

  it('NIST TN 1900 E13: the parts of an expansion coefficient make 1.755e-6 per kelvin', () => {
    // check-values.md A1. (L1 − L0)/(L0·ΔT), L0 1.4999, L1 1.5021, ΔT 84.95. Sensitivities by hand: 1/(L0·ΔT) for L1, L1/(L0²·ΔT) for
    // L0, α/ΔT for either temperature.
    const [l0, l1, span] = [1.4999, 1.5021, 373.1 - 288.15];
    const alpha = (l1 - l0) / (l0 * span);
    const parts = [
      2e-4 / (l0 * span),
      (1e-4 * l1) / (l0 * l0 * span),
      (0.02 * alpha) / span,
      (0.05 * alpha) / span,
    ];
    expect(alpha).toBeCloseTo(1.7266e-5, 9);
    const { combined } = combine(parts.map((contribution) => ({ cause: 'value', contribution })));
    expect(Math.abs(combined / 1.755e-6 - 1)).toBeLessThan(1e-3);
  });

  it('NIST TN 1900 E3: the parts of a viscosity make the first-order 1.03', () => {
    // check-values.md A1: 4.63·61(2217 − 1180)/(36.6(2217 − 810)), relative 1 %, 10 %, 15 %; densities 0.5 each.
    const value = (4.63 * 61 * 1037) / (36.6 * 1407);
    const densities = [0.5 * (1 / 1037 - 1 / 1407), 0.5 / 1037, 0.5 / 1407];
    const parts = [0.01, 0.1, 0.15, ...densities].map((share) => ({
      cause: 'value' as const,
      contribution: value * share,
    }));
    expect(value).toBeCloseTo(5.69, 2);
    expect(combine(parts).combined).toBeCloseTo(1.03, 2);
  });
});

describe('corners of what settles', () => {
  it('six runs are still asked for, seven are not', () => {
    // Distance 1.6449 needs u 1. Nothing fixed, varying variance 6 → 6 runs; 6.5 → 7, which nobody makes.
    const at = (variance: number) =>
      settle(above100(101.64486, [['speed', Math.sqrt(variance)]])).find(({ action }) => action === 'repeat');
    expect(at(5.99)).toMatchObject({ runs: 6, enough: true });
    expect(at(6.5)).toMatchObject({ runs: null, enough: false });
  });

  it('two runs are the least that is called repeating', () => {
    // Needed u is 1.2/1.6449 = 0.7295; u is 0.73: a hair more.
    const steps = settle(above100(101.2, [['speed', 0.73]]));
    expect(steps.find(({ action }) => action === 'repeat')?.runs).toBe(2);
  });

  it('a part of a fifth of the variance is worth naming, one of 15 % is not', () => {
    const named = (share: number) =>
      settle(
        above100(101, [
          ['tolerance', Math.sqrt(1 - share)],
          ['time', Math.sqrt(share)],
        ]),
      ).some(({ action }) => action === 'longer time');
    expect(named(0.21)).toBe(true);
    expect(named(0.15)).toBe(false);
  });

  it('halving the largest part is what is hoped for, not more', () => {
    // Needed u 1. Halving 2.4 leaves 1.2, a third would leave 0.8: not enough by itself. Halving 1.9 leaves 0.95: enough.
    const enough = (u: number) => settle(above100(101.64486, [['tolerance', u]]))[0]?.enough;
    expect(enough(2.4)).toBe(false);
    expect(enough(1.9)).toBe(true);
  });

  it('what stays in the line falls out anew each run, so a mean of runs helps', () => {
    const steps = settle(above100(101, [['line', 1]]));
    expect(steps.find(({ action }) => action === 'repeat')).toMatchObject({ share: 1, enough: true });
    expect(steps[0]?.action).toBe('drain the line');
  });
});

describe('corners of repeats', () => {
  const run = (value: number, graduation = 5) => ({ value, word: 'pass' as const, graduation });

  it('suction below zero is held to a tenth of its size, not to less than nothing', () => {
    expect(compareRepeats([run(-300, 1), run(-310, 1)], null, 'kPa')).toMatchObject({
      limit: 30.5,
      repeatable: true,
    });
  });

  it('where a tenth of the mean equals two marks the tenth is named', () => {
    expect(compareRepeats([run(100), run(100)], null)).toMatchObject({
      limit: 10,
      limitFrom: '10 % of the mean',
    });
  });

  it('a range exactly at the limit is repeatable in spite of binary rounding', () => {
    // 0.3 − 0.1 is 0.19999999999999998 and 1.1 − 0.8 is 0.30000000000000004 in doubles.
    expect(compareRepeats([run(0.8), run(1.1)], 0.3).repeatable).toBe(true);
    expect(compareRepeats([run(0.8), run(1.1001)], 0.3).repeatable).toBe(false);
  });

  it('a limit from the sheet is told in its unit', () => {
    const { reasons } = compareRepeats([run(500), run(560)], 20, 'kPa');
    expect(reasons[0]?.context).toEqual({ range: '60 kPa', limit: '20 kPa', from: 'from the limit sheet' });
  });
});
