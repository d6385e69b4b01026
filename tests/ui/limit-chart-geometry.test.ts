import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chartScale,
  coveredSpeeds,
  cutTo,
  labelPlace,
  niceTicks,
  volumeAt,
  zonesOf,
  type Boundaries,
} from '../../src/ui/limit-chart-geometry.ts';
import { BOUNDARIES, POINT } from './samples.ts';

const FRAME = { left: 50, right: 650, top: 20, bottom: 420 };

describe('axis ticks', () => {
  test.each([
    [0, 100, 5, [0, 20, 40, 60, 80, 100]],
    [0, 0.5, 5, [0, 0.1, 0.2, 0.3, 0.4, 0.5]],
    [88, 232, 3, [100, 150, 200]],
  ])('from %d to %d are round', (min, max, count, ticks) => {
    expect(niceTicks(min, max, count)).toEqual(ticks);
  });

  test('always lie within the axis', () => {
    const number = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(number, fc.double({ min: 1e-3, max: 1e4, noNaN: true }), (min, span) => {
        for (const tick of niceTicks(min, min + span, 6)) {
          expect(tick).toBeGreaterThanOrEqual(min - span * 1e-3);
          expect(tick).toBeLessThanOrEqual(min + span * 1.001);
        }
      }),
    );
  });

  test('are none for an empty axis', () => {
    expect(niceTicks(5, 5, 4)).toEqual([]);
    expect(niceTicks(0, NaN, 4)).toEqual([]);
  });
});

describe('boundaries', () => {
  test('are straight between points and hold their ends beyond', () => {
    // Half way between (100, 180) and (150, 290): 235, by hand.
    expect(volumeAt(BOUNDARIES.failBelow, 125)).toBe(235);
    expect(volumeAt(BOUNDARIES.failBelow, 90)).toBe(180);
    expect(volumeAt(BOUNDARIES.failBelow, 300)).toBe(430);
    expect(volumeAt([], 1)).toBeNaN();
  });

  test('cover only the speeds that all of them cover', () => {
    const uneven: Boundaries = {
      failBelow: [
        [90, 1],
        [200, 2],
      ],
      passAbove: [
        [100, 3],
        [220, 4],
      ],
      failAbove: null,
    };
    expect(coveredSpeeds(uneven)).toEqual({ from: 100, to: 200 });
    expect(cutTo(uneven.passAbove, 100, 160)).toEqual([
      [100, 3],
      [160, 3.5],
    ]);
  });
});

describe('zones', () => {
  test('stack from zero to the top without a gap or an overlap', () => {
    const zones = zonesOf(BOUNDARIES, 600);
    expect(zones.map((zone) => zone.name)).toEqual(['fail low', 'marginal', 'pass']);
    for (let index = 1; index < zones.length; index += 1) {
      expect(zones[index]?.lower).toEqual(zones[index - 1]?.upper);
    }
    expect(zones[0]?.lower.every(([, ml]) => ml === 0)).toBe(true);
    expect(zones.at(-1)?.upper.every(([, ml]) => ml === 600)).toBe(true);
  });

  test('end with fail high where there is an upper boundary', () => {
    const over: Boundaries = {
      ...BOUNDARIES,
      failAbove: [
        [100, 500],
        [220, 700],
      ],
    };
    expect(zonesOf(over, 900).map((zone) => zone.name)).toEqual([
      'fail low',
      'marginal',
      'pass',
      'fail high',
    ]);
  });
});

describe('the scale', () => {
  test('shows every point with its bars, even outside the chart', () => {
    const number = fc.double({ min: 0, max: 900, noNaN: true });
    fc.assert(
      fc.property(number, number, (speedRpm, volumeMl) => {
        const point = { ...POINT, speedRpm, volumeMl };
        const scale = chartScale(BOUNDARIES, [point], FRAME);
        expect(scale.x(speedRpm + point.speedHalfWidthRpm)).toBeLessThanOrEqual(FRAME.right);
        expect(scale.x(speedRpm)).toBeGreaterThanOrEqual(FRAME.left);
        expect(scale.y(volumeMl + point.volumeHalfWidthMl)).toBeGreaterThanOrEqual(FRAME.top);
      }),
    );
  });

  test('leaves a strip without limits at both ends when there is no point', () => {
    const scale = chartScale(BOUNDARIES, [], FRAME);
    expect(scale.minRpm).toBeLessThan(100);
    expect(scale.maxRpm).toBeGreaterThan(220);
  });
});

describe('the name of a zone', () => {
  test.each([320, 650, 1200])(
    'stands inside its zone on a drawing %d px wide, clear of the point where it can',
    (right) => {
      const scale = chartScale(BOUNDARIES, [POINT], { ...FRAME, right });
      for (const zone of zonesOf(BOUNDARIES, scale.maxMl)) {
        const [rpm, ml] = labelPlace(zone, scale, POINT.speedRpm);
        expect(ml).toBeGreaterThan(volumeAt(zone.lower, rpm));
        expect(ml).toBeLessThan(volumeAt(zone.upper, rpm));
        const half = (zone.name.length * 13) / 2;
        expect(scale.x(rpm) - half).toBeGreaterThanOrEqual(scale.x(100) - 0.001);
        expect(scale.x(rpm) + half).toBeLessThanOrEqual(scale.x(220) + 0.001);
      }
    },
  );
});
