import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gradeSpeedChart, placeOnChart } from '../../src/grading/grade-speed-chart.ts';
import { whatSettles, type SettlingStep } from '../../src/grading/what-settles.ts';
import type { CrankDelivery } from '../../src/checks/measurement.ts';
import { CHART, deliveryOf, volumeOf } from './example-delivery.ts';

function settle(delivery: CrankDelivery): readonly SettlingStep[] {
  const placed = placeOnChart(delivery, CHART);
  if (!placed.ok) throw new Error(placed.problem.code);
  return whatSettles(placed.value, gradeSpeedChart(delivery, CHART));
}

const actions = (steps: readonly SettlingStep[]) => steps.map(({ action }) => action);
const SHARP = { standardUncertaintyRpm: 0.1 };
const TIMED = { crankSecondsUncertainty: 0.01 };

describe('what would settle a verdict that is too close to call', () => {
  it('is asked of no other verdict', () => {
    expect(settle(deliveryOf(volumeOf(350)))).toEqual([]);
    expect(settle(deliveryOf(volumeOf(100)))).toEqual([]);
  });

  it('is a finer vessel first where a beaker is the largest doubt', () => {
    const steps = settle(deliveryOf(volumeOf(300, 4), SHARP, TIMED));
    expect(steps[0]).toMatchObject({ action: 'finer vessel', enough: true });
    expect(steps[0]?.share).toBeGreaterThan(0.9);
  });

  it('is better logging of speed where speed is the largest doubt', () => {
    const steps = settle(deliveryOf(volumeOf(288), { standardUncertaintyRpm: 4 }, TIMED));
    expect(steps[0]?.action).toBe('log speed better');
    expect(steps[0]?.text).toContain('batteries');
  });

  it('is a sharper or longer time where the edges of the cranks are the largest doubt', () => {
    const steps = settle(deliveryOf(volumeOf(288), SHARP, { crankSecondsUncertainty: 1 }));
    expect(steps[0]?.action).toBe('longer time');
  });

  it('counts the runs whose mean would be clear enough', () => {
    // By hand: distance 8, needed u 8/1.645 = 4.864. Marks 2.309 stay; the rest: reading 1.443, time 288/30*0.01 = 0.096,
    // speed 2*3 = 6, together 6.172 in quadrature. Room 4.864^2 - 2.309^2 = 18.33, so 38.09/18.33 = 2.08 -> 3 runs.
    const steps = settle(deliveryOf(volumeOf(288), { standardUncertaintyRpm: 3 }, TIMED));
    const repeat = steps.find(({ action }) => action === 'repeat');
    expect(repeat).toMatchObject({ runs: 3, enough: true });
    expect(repeat?.text).toContain('mean of 3');
  });

  it('does not promise that repeating helps against the marks of one vessel', () => {
    const steps = settle(deliveryOf(volumeOf(282), SHARP, TIMED));
    const repeat = steps.find(({ action }) => action === 'repeat');
    expect(repeat).toMatchObject({ runs: null, enough: false });
  });

  it('says so where the result simply lies on the line', () => {
    const steps = settle(deliveryOf(volumeOf(280)));
    expect(actions(steps)).toContain('on the line');
    expect(steps.every(({ enough }) => !enough)).toBe(true);
  });

  it('always has something to say, in order of weight, for every close result', () => {
    const near = fc.double({ min: -12, max: 12, noNaN: true });
    const rpm = fc.double({ min: 0, max: 5, noNaN: true });
    fc.assert(
      fc.property(near, rpm, fc.constantFrom(2, 3, 4), (by, standardUncertaintyRpm, vessel) => {
        const delivery = deliveryOf(volumeOf(280 + by, vessel), { standardUncertaintyRpm });
        const steps = settle(delivery);
        const close = gradeSpeedChart(delivery, CHART).word === 'too close to call';
        expect(steps.length > 0).toBe(close);
        const shares = steps
          .filter(({ runs, action }) => runs === null && action !== 'repeat')
          .map(({ share }) => share);
        expect(shares).toEqual([...shares].sort((a, b) => b - a));
      }),
    );
  });
});
