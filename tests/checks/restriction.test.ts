import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SteadyPressureSettings } from '../../src/checks/check-settings.ts';
import { STANDARD_ATMOSPHERE_KPA, referenceOf, restrictionKPa } from '../../src/checks/restriction.ts';
import { measureSteadyPressure } from '../../src/checks/steady-pressure.ts';
import type { SignalId } from '../../src/quantities/reading.ts';
import { codesOf, sampled, signalsFrom } from './example-signals.ts';

const settings = (signal: SignalId): SteadyPressureSettings => ({
  kind: 'steady pressure',
  signal,
  speed: null,
  leastSeconds: 5,
  steadyWithinKPa: 5,
  vacuum: true,
});
const heldAt = (signal: SignalId, kPa: number) =>
  measureSteadyPressure({
    settings: settings(signal),
    signals: signalsFrom({ [signal]: sampled(20_000, 100, () => kPa) }),
    typed: null,
    chosen: null,
  });
const typed = (value: number) =>
  measureSteadyPressure({
    settings: settings('supplyPressure'),
    signals: {},
    typed: { value, tolerance: 1, halfStep: 0.5 },
    chosen: null,
  });

describe('restrictionKPa', () => {
  // The standard atmosphere is 101.325 kPa (ISO 2533; NIST SP 811 B.8: 1 atm = 101.325 kPa).
  it.each([
    [-20, 'gauge', 20],
    [20, 'gauge', -20],
    [81.325, 'absolute', 20],
    [101.325, 'absolute', 0],
    [20, 'differential', 20],
  ] as const)('%f kPa (%s) is a restriction of %f kPa', (reading, reference, restriction) => {
    expect(restrictionKPa(reading, reference)).toBeCloseTo(restriction, 9);
  });

  it('takes the atmosphere that was read where the place lies high', () => {
    expect(restrictionKPa(60, 'absolute', 80)).toBe(20);
    expect(STANDARD_ATMOSPHERE_KPA).toBe(101.325);
  });

  it('is the same pressure however the instrument counts', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 70, max: 108, noNaN: true }),
        (r, b) => {
          expect(restrictionKPa(b - r, 'absolute', b)).toBeCloseTo(r, 9);
          expect(restrictionKPa(-r, 'gauge')).toBeCloseTo(r, 9);
        },
      ),
    );
  });
});

describe('a restriction', () => {
  it('of a gauge signal is its reading with the sign turned: SPN 94 is gauge', () => {
    expect(referenceOf('supplyPressure')).toBe('gauge');
    expect(heldAt('supplyPressure', -22)).toMatchObject({ value: 22, reasons: [] });
  });

  it('of a filter differential pressure is its reading: SPN 95 and 1382 grow with the restriction', () => {
    expect(heldAt('suctionFilterDifferentialPressure', 22)).toMatchObject({ value: 22, reasons: [] });
    expect(heldAt('filterDifferentialPressure', 30)).toMatchObject({ value: 30, reasons: [] });
  });

  it('turns lowest and highest as well, so that the highest is the strongest suction', () => {
    const found = measureSteadyPressure({
      settings: settings('supplyPressure'),
      signals: signalsFrom({
        supplyPressure: sampled(20_000, 100, (s) => -20 - 2 * (Math.round(s * 10) % 2)),
      }),
      typed: null,
      chosen: null,
    });
    const named = Object.fromEntries(found.facts.map(({ name, value }) => [name, value]));
    expect(named).toMatchObject({ lowest: 20, highest: 22 });
  });

  it('that is a pressure above the atmosphere is none', () => {
    const found = heldAt('supplyPressure', 80);
    expect(codesOf(found.reasons)).toEqual(['check.restriction-negative']);
    expect(found.reasons[0]?.context).toMatchObject({ pressure: 80 });
  });

  it('of nothing at all is in order', () => {
    expect(heldAt('supplyPressure', 0)).toMatchObject({ value: 0, reasons: [] });
    expect(heldAt('suctionFilterDifferentialPressure', 0).reasons).toEqual([]);
  });

  it('beyond the atmosphere cannot be, from the data or typed', () => {
    expect(codesOf(heldAt('supplyPressure', -130).reasons)).toEqual(['check.restriction-impossible']);
    expect(codesOf(typed(130).reasons)).toEqual(['check.restriction-impossible']);
  });

  it('is typed as a positive number; the reading of a gauge, below zero, means the same', () => {
    expect(typed(25)).toMatchObject({ value: 25, reasons: [] });
    expect(typed(-25)).toMatchObject({ value: 25, reasons: [] });
  });
});
