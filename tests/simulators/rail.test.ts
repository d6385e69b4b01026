import { describe, expect, test } from 'vitest';
import {
  midpointPressurePa,
  railMassKg,
  railPressurePa,
  type RailVolume,
} from '../../simulators/engine/rail.ts';
import { compressionRatio } from '../../simulators/engine/fluid.ts';

/** The rail of check-values.md D: V 30 mL, K 1.4 GPa or K = 1.2 GPa (1 + p / 100 MPa). */
const CONSTANT: RailVolume = {
  volumeM3: 3e-5,
  stiffness: { bulkModulusPa: 1.4e9, stiffeningPa: Infinity },
  densityKgM3: 815,
};
const STIFFENING: RailVolume = { ...CONSTANT, stiffness: { bulkModulusPa: 1.2e9, stiffeningPa: 1e8 } };
const INFLOW_M3S = 5e-6;

/** Pressure in bar after `seconds`; flows are volumes at the density in the rail, as the closed forms have them. */
function barAfter(
  rail: RailVolume,
  [startBar, seconds, dtSeconds = 0.001]: readonly [number, number, number?],
  netM3S: (pressurePa: number) => number,
): number {
  const net = (p: number) => netM3S(p) * rail.densityKgM3 * compressionRatio(p, rail.stiffness);
  let mass = railMassKg(rail, startBar * 1e5);
  const steps = Math.round(seconds / dtSeconds);
  for (let step = 0; step < steps; step += 1) {
    mass += net(midpointPressurePa(rail, mass, net, dtSeconds)) * dtSeconds;
  }
  return railPressurePa(rail, mass) / 1e5;
}

describe('rail pressure against its closed forms (check-values.md D, Rail ODE)', () => {
  test('without a leak 5 mL/s raise it by 2333.33 bar in a second', () => {
    expect(barAfter(CONSTANT, [0, 1], () => INFLOW_M3S)).toBeCloseTo(2333.33, 1);
  });

  test.each([
    [0.5, 932.277],
    [1, 1516.898],
    [2, 2113.404],
    [5, 2476.491],
  ])('with a linear leak of 2e-14 m3/(s Pa) it stands at %d s at %d bar', (seconds, bar) => {
    expect(barAfter(CONSTANT, [0, seconds], (p) => INFLOW_M3S - 2e-14 * p)).toBeCloseTo(bar, 1);
  });

  test.each([
    [0.1, 908.844],
    [0.2, 822.044],
    [0.3, 739.6],
  ])('with a square-root leak and no inflow 1000 bar fall in %d s to %d bar', (seconds, bar) => {
    expect(barAfter(CONSTANT, [1000, seconds], (p) => -2e-10 * Math.sqrt(p))).toBeCloseTo(bar, 2);
  });

  test('with a square-root leak it is empty after 2.142857 s and stays so', () => {
    expect(barAfter(CONSTANT, [1000, 2.2], (p) => -2e-10 * Math.sqrt(p))).toBeLessThan(0.01);
  });

  test.each([
    [0.1, 221.403],
    [0.25, 648.721],
    [0.5, 1718.282],
  ])('with a stiffening fluid and no leak it stands at %d s at %d bar', (seconds, bar) => {
    expect(barAfter(STIFFENING, [0, seconds], () => INFLOW_M3S)).toBeCloseTo(bar, 1);
  });

  test('halving the step quarters the error: the rule is of second order', () => {
    const off = (dt: number) => barAfter(CONSTANT, [0, 1, dt], (p) => INFLOW_M3S - 2e-14 * p) - 1516.898;
    const ratio = off(0.1) / off(0.05);
    expect(ratio).toBeGreaterThan(3.2);
    expect(ratio).toBeLessThan(4.8);
  });
});
