import { describe, expect, it } from 'vitest';
import type { Vessel, VolumeMeasurement } from '../../src/checks/measurement.ts';
import { vesselById, VESSELS } from '../../src/checks/vessels.ts';
import { measureVolume } from '../../src/checks/volume.ts';

function measured(vessel: Vessel, readingsMl: readonly number[], lineResidueMl = 0): VolumeMeasurement {
  const result = measureVolume({ vessel, readingsMl, lineResidueMl });
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

const own = (capacityMl: number, graduationMl: number, halfWidth: number): Vessel => ({
  id: 'own',
  name: 'Own vessel',
  capacityMl,
  graduationMl,
  tolerance: { kind: 'mL', halfWidth },
  measures: true,
});

describe('a volume follows the worked examples of the GUM', () => {
  it('4.3.7 example: bounds of ±0.40 give a standard uncertainty of 0.23', () => {
    // GUM 4.3.7, expansion of copper 16.52e-6 ± 0.40e-6: u² = 0.0533e-12, u = 0.23e-6 (from memory).
    const { parts } = measured(own(100, 1, 0.4), [16.52]);
    expect(parts?.toleranceMl).toBeCloseTo(0.23, 2);
    expect((parts?.toleranceMl ?? NaN) ** 2).toBeCloseTo(0.0533, 4);
  });

  it('F.2.2.1: what can be told apart in steps of d is known to 0.29 d', () => {
    // GUM F.2.2.1 (from memory): u = 0.29 δx, that is d/√12.
    for (const graduation of [1, 2, 5, 10]) {
      expect(measured(own(1000, graduation, 0), [300]).standardUncertaintyMl / graduation).toBeCloseTo(
        0.29,
        2,
      );
    }
  });

  it('5.2.2 example: ten values that share one error of 0.1 have 1, not 0.32', () => {
    // GUM 5.2.2 example (from memory): ten resistors calibrated with one standard of u 100 mΩ have 1 Ω in series; 0.32 Ω is wrong.
    const { parts } = measured(
      own(100, 1, 0.1 * Math.sqrt(3)),
      Array.from({ length: 10 }, () => 50),
    );
    expect(parts?.toleranceMl).toBeCloseTo(1, 12);
    expect(parts?.readingMl).toBeCloseTo(Math.sqrt(10) * (0.5 / Math.sqrt(3)), 12);
  });

  it('5.1.2: independent parts combine as the root of the sum of squares', () => {
    // 3 mL, 4 mL and 12 mL make 13 mL: half-widths 3√3, step 2·4√3, residue 12√3.
    const root = Math.sqrt(3);
    const volume = measured(own(500, 8 * root, 3 * root), [200], 12 * root);
    expect(volume.parts).toMatchObject({
      toleranceMl: expect.closeTo(3, 12) as number,
      readingMl: expect.closeTo(4, 12) as number,
      lineMl: expect.closeTo(12, 12) as number,
    });
    expect(volume.standardUncertaintyMl).toBeCloseTo(13, 12);
  });
});

describe('the classes of graduated cylinders', () => {
  // check-values.md F: size, tolerance ± and division of ASTM E1272-02 class A and B; u = √(a²/3 + d²/12) by hand.
  it.each([
    [25, 0.17, 0.2, 0.1139],
    [25, 0.34, 0.5, 0.2437],
    [50, 0.25, 1, 0.3227],
    [50, 0.5, 1, 0.4082],
    [100, 0.5, 1, 0.4082],
    [100, 1, 1, 0.6455],
    [250, 1, 2, 0.8165],
    [250, 2, 2, 1.291],
    [500, 2, 5, 1.8484],
    [500, 4, 5, 2.7234],
    [1000, 3, 10, 3.3665],
    [1000, 6, 10, 4.5092],
  ])('%i mL ±%f mL with a mark each %f mL is known to %f mL when full', (capacity, tolerance, mark, u) => {
    expect(measured(own(capacity, mark, tolerance), [capacity]).standardUncertaintyMl).toBeCloseTo(u, 4);
  });

  // check-values.md F: ISO 4788 class B (from memory there).
  it.each([
    [250, 2, 2, 1.291],
    [500, 5, 5, 3.2275],
    [1000, 10, 10, 6.455],
  ])('ISO 4788 class B, %i mL ±%f mL, mark %f mL: %f mL', (capacity, tolerance, mark, u) => {
    expect(measured(own(capacity, mark, tolerance), [capacity]).standardUncertaintyMl).toBeCloseTo(u, 4);
  });

  it('a beaker is worse than every cylinder that holds the same volume (check-values.md F: never grade on one)', () => {
    for (const volume of [100, 250, 500]) {
      const doubts = VESSELS.filter(({ capacityMl }) => capacityMl >= volume).map((vessel) => ({
        measures: vessel.measures,
        u: measured(vessel, [volume]).standardUncertaintyMl,
      }));
      const cylinders = doubts.filter(({ measures }) => measures).map(({ u }) => u);
      for (const { u } of doubts.filter(({ measures }) => !measures))
        expect(u).toBeGreaterThan(Math.max(...cylinders));
    }
  });

  it('the smallest vessel that holds it measures a volume best', () => {
    const doubts = ['cylinder-100', 'cylinder-250', 'cylinder-500', 'cylinder-1000'].map((id) => {
      const vessel = vesselById(id);
      return vessel ? measured(vessel, [90]).standardUncertaintyMl : NaN;
    });
    expect(doubts).toEqual([...doubts].sort((a, b) => a - b));
  });

  it('one filling of a large cylinder beats five of a small one', () => {
    // 450 mL: 500 mL cylinder 2.723; five of 90 in the 100 mL: marks 5/√3 = 2.887, readings √5·0.2887 = 0.645, together 2.958.
    const [small, large] = [vesselById('cylinder-100'), vesselById('cylinder-500')];
    if (!small || !large) throw new Error('no cylinders');
    const many = measured(small, [90, 90, 90, 90, 90]);
    expect(many.standardUncertaintyMl).toBeCloseTo(2.958, 3);
    expect(measured(large, [450]).standardUncertaintyMl).toBeLessThan(many.standardUncertaintyMl);
  });

  it('the marks of a beaker err by a share of the whole, however it is filled', () => {
    const beaker = vesselById('beaker-600');
    if (!beaker) throw new Error('no beaker');
    // 5 % of 600 mL, rectangular: 17.32 mL; the two readings add √2·25/√3 = 20.41 mL.
    const twice = measured(beaker, [400, 200]);
    expect(twice.parts?.toleranceMl).toBeCloseTo(17.32, 2);
    expect(twice.parts?.readingMl).toBeCloseTo(20.41, 2);
  });
});
