import { describe, expect, test } from 'vitest';
import {
  bulkModulusPa,
  compressionRatio,
  densityKgM3,
  DIESEL_STIFFNESS,
  gapLeakM3S,
  kinematicViscosityM2S,
  pressureAtRatioPa,
  stiffnessAt,
  thickening,
  thinnedDropPa,
  viscosityPaS,
} from '../../simulators/engine/fluid.ts';

describe('density against temperature', () => {
  // check-values.md D, computed from API MPMS 11.1 table 54B; 832 lies in the 787.5 to 839 band
  test.each([
    [832, 20, 0.9957],
    [832, 40, 0.978396],
    [832, 60, 0.960938],
    [832, 0, 1.012832],
    [820, 40, 0.977755],
  ])('fuel of %d kg/m3 at %d degC has volume correction factor %d', (density15, temperatureC, factor) => {
    expect(densityKgM3(temperatureC, density15) / density15).toBeCloseTo(factor, 6);
  });
});

describe('viscosity against temperature', () => {
  // check-values.md D, ASTM D341 through 2.9 mm2/s at 40 degC and 1.16 at 100 degC
  test.each([
    [0, 8.8226],
    [20, 4.6803],
    [40, 2.9],
    [60, 1.9958],
    [80, 1.4799],
    [100, 1.16],
  ])('at %d degC it is %d mm2/s', (temperatureC, mm2S) => {
    expect(kinematicViscosityM2S(temperatureC) * 1e6).toBeCloseTo(mm2S, 3);
  });

  test('a gap leaks 1.96 times as much at 80 degC as at 40 (check-values.md D)', () => {
    expect(kinematicViscosityM2S(40) / kinematicViscosityM2S(80)).toBeCloseTo(1.96, 2);
  });

  test('dynamic viscosity is kinematic viscosity times density', () => {
    // 2.9 mm2/s (as above) * 832 kg/m3 * 0.978396 (table 54B, as above) = 2.36067 mPa s
    expect(viscosityPaS(40) * 1e3).toBeCloseTo(2.36067, 4);
  });
});

describe('gap leakage', () => {
  const gap = { diameterM: 0.008, clearanceM: 2.5e-6, lengthM: 0.01 };

  test('8 mm, 2.5 um, 10 mm, 100 MPa and 2.378 mPa s leak 0.137615 mL/s (Rabie eq. 2.19, check-values.md D)', () => {
    expect(gapLeakM3S(gap, 1e8, 2.378e-3) * 1e6).toBeCloseTo(0.137615, 6);
    expect(gapLeakM3S(gap, 1e8, 2.378e-3) * 60e6).toBeCloseTo(8.2569, 4);
  });

  test('twice the clearance leaks eight times as much: 66.055 mL/min (check-values.md D)', () => {
    expect(gapLeakM3S({ ...gap, clearanceM: 5e-6 }, 1e8, 2.378e-3) * 60e6).toBeCloseTo(66.055, 3);
  });
});

describe('stiffness', () => {
  test('diesel stiffens from 12000 bar to 24000 bar at 1000 bar (K = 12000 (1 + 0.001 p) bar, check-values.md D)', () => {
    expect(bulkModulusPa(0, DIESEL_STIFFNESS)).toBe(1.2e9);
    expect(bulkModulusPa(1e8, DIESEL_STIFFNESS)).toBe(2.4e9);
  });

  test.each([0, 1e5, 25e6, 80e6, 180e6])(
    'squeezing to %d Pa and asking for the pressure gives it back',
    (pa) => {
      for (const stiffness of [DIESEL_STIFFNESS, { bulkModulusPa: 1.4e9, stiffeningPa: Infinity }]) {
        expect(pressureAtRatioPa(compressionRatio(pa, stiffness), stiffness)).toBeCloseTo(pa, 0);
      }
    },
  );

  test('the slope of pressure over the log of density is the bulk modulus', () => {
    const p = 60e6;
    const step = 1e4;
    const logs = [p - step, p + step].map((at) => Math.log(compressionRatio(at, DIESEL_STIFFNESS)));
    expect((2 * step) / (logs[1]! - logs[0]!) / bulkModulusPa(p, DIESEL_STIFFNESS)).toBeCloseTo(1, 6);
  });

  test('a volume that is not full has no pressure, never a negative one', () => {
    expect(pressureAtRatioPa(0.99, DIESEL_STIFFNESS)).toBe(0);
  });
});

describe('what pressure and warmth do to it', () => {
  // n-dodecane at 40 degC from a reference equation of state (check-values.md D): a surrogate, for the trend
  test.each([
    [25, 1.4111],
    [100, 2.7665],
    [180, 5.1472],
  ])('at %d MPa it is about as much thicker as n-dodecane (%d against 1.0610 mPa s)', (mPa, viscosity) => {
    expect(thickening(mPa * 1e6) / (viscosity / 1.061)).toBeGreaterThan(0.9);
    expect(thickening(mPa * 1e6) / (viscosity / 1.061)).toBeLessThan(1.1);
  });

  test('a leak is driven by the drop over the thickness on its way: the integral of dp / thickening', () => {
    for (const endPa of [1e5, 4e7, 1.1e8, 1.8e8]) {
      const pieces = 20_000;
      let sum = 0;
      for (let piece = 0; piece < pieces; piece += 1) sum += 1 / thickening(((piece + 0.5) * endPa) / pieces);
      expect(thinnedDropPa(endPa) / ((sum * endPa) / pieces)).toBeCloseTo(1, 6);
    }
  });

  test('it is softer when warm, and never without stiffness', () => {
    expect(stiffnessAt(DIESEL_STIFFNESS, 20)).toEqual(DIESEL_STIFFNESS);
    expect(stiffnessAt(DIESEL_STIFFNESS, 60).bulkModulusPa).toBeCloseTo(0.8 * 1.2e9, 0);
    expect(stiffnessAt(DIESEL_STIFFNESS, 500).bulkModulusPa).toBeGreaterThan(0);
  });
});
