import { describe, expect, test } from 'vitest';
import { lookAround } from '../../simulators/looks.ts';
import { SCENARIO_BY_ID, type BenchScenario } from '../../simulators/scenarios.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';

const engine = (...defects: readonly Defect[]) => ({ ...SCENARIO_BY_ID['sound-engine'], defects });
const lookAt = (scenario: BenchScenario, seed: number, check: string, point: string) =>
  lookAround(scenario, seed, check)(point);
const POINTS = LOW_RAIL_PRESSURE.checks.flatMap(({ id, settings }) =>
  settings.kind === 'inspection' ? settings.points.map((point) => [id, point.id] as const) : [],
);
const odd = (defect: Defect, seed: number, points = POINTS) =>
  points
    .filter(([check, point]) => !lookAt(engine(defect), seed, check, point).inOrder)
    .map((at) => at.join('/'));

describe('what a look at the bench shows', () => {
  test('a sound engine is in order at every point of the procedure, each said in a sentence', () => {
    for (const [check, point] of POINTS) {
      const look = lookAt(engine(), 1, check, point);
      expect(look.inOrder, `${check}/${point}`).toBe(true);
      expect(look.words).toMatch(/^[A-Z0-9].*\.$/);
    }
  });

  test('a clogged filter is seen at the filters, air in the clear hose, and neither anywhere else', () => {
    expect(odd({ kind: 'clogged filter', severity: 1 }, 1)).toContain('filters/element');
    expect(odd({ kind: 'air leak', severity: 1 }, 1)).toContain('air-in-fuel/bubbles');
    // The batteries are measured on a turning engine each time: enough of that below.
    const looked = POINTS.filter(([check]) => check !== 'batteries');
    for (let seed = 0; seed < 40; seed += 1) {
      const found = odd({ kind: 'clogged filter', severity: 0.7 }, seed, looked);
      expect(found.every((at) => at.startsWith('filters/'))).toBe(true);
    }
  });

  test('the worse, the likelier seen: counted over 300 seeds', () => {
    const seen = (severity: number) =>
      Array.from({ length: 300 }, (_, seed) =>
        lookAt(engine({ kind: 'clogged filter', severity }), seed, 'filters', 'element'),
      ).filter(({ inOrder }) => !inOrder).length / 300;
    // 0.4 + 0.6 · 0.5 = 0.7, give or take three times sqrt(0.7 · 0.3 / 300) = 0.08.
    expect(Math.abs(seen(0.5) - 0.7)).toBeLessThan(0.08);
    expect(seen(1)).toBe(1);
  });

  test('batteries, cable and drag are told apart by voltmeter and speed', () => {
    expect(odd({ kind: 'weak battery', severity: 0.6 }, 1)).toEqual(['batteries/rest', 'batteries/cranking']);
    expect(odd({ kind: 'corroded starter cable', severity: 0.6 }, 1)).toEqual(['batteries/drop']);
    expect(odd({ kind: 'high cranking drag', severity: 0.6 }, 1)).toEqual(['batteries/turns']);
    expect(odd({ kind: 'worn pump elements', severity: 1 }, 1)).toEqual([]);
  });

  test('the same seed shows the same', () => {
    const looked = POINTS.filter(([check]) => check === 'air-in-fuel');
    const look = (seed: number) => odd({ kind: 'air leak', severity: 0.6 }, seed, looked);
    expect(look(5)).toEqual(look(5));
  });
});
