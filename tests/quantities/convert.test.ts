import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  canonicalUnit,
  convert,
  dimensionOf,
  fromCanonical,
  toCanonical,
} from '../../src/quantities/convert.ts';
import { UNIT_IDS, type UnitId } from '../../src/quantities/unit.ts';

describe('factors of check-values.md section I', () => {
  const values: readonly [number, UnitId, number, string][] = [
    [1, 'psi', 6.894757293168, 'NIST SP 811 B.8, exact from definitions'],
    [1, 'bar', 100, 'NIST SP 811 B.8'],
    [1, 'inHg', 3.38638864, 'NIST SP 811 B.8, conventional inch of mercury at 0 degC'],
    [1, 'mmHg', 0.1333224, 'NIST SP 811 B.8'],
    [1, 'usFlOz', 29.5735295625, 'NIST SP 811 B.8, exact'],
    [1, 'impFlOz', 28.4130625, 'exact from 4.54609 L'],
    [125.6, 'degF', 52, 'check-values.md I'],
    [-40, 'degF', -40, 'check-values.md I'],
    [212, 'degF', 100, 'check-values.md I'],
    [29_000, 'psi', 29_000 * 6.894757, 'NIST SP 811 B.8 factor'],
    [1500, 'mV', 1.5, 'SI prefix'],
    [2, 'L', 2000, 'SI prefix'],
    [2, 'min', 120_000, 'SI brochure table 8'],
  ];
  test.each(values)('%s %s is %s in the canonical unit (%s)', (value, unit, expected) => {
    // Printed to seven digits in SP 811.
    expect(Math.abs(toCanonical(value, unit) - expected)).toBeLessThanOrEqual(Math.abs(expected) * 1e-7);
  });

  test('1 psi agrees with its definition to twelve places', () => {
    expect(toCanonical(1, 'psi')).toBeCloseTo(6.894757293168, 12);
  });

  test('1 bar is 14.503774 psi and 100 MPa are 14503.7738 psi (NIST SP 811 B.8)', () => {
    expect(fromCanonical(100, 'psi')).toBeCloseTo(14.503774, 6);
    expect(fromCanonical(100_000, 'psi')).toBeCloseTo(14503.7738, 4);
  });

  test('29 000 psi is 199.9 MPa within 0.1 (common practice, no source)', () => {
    const converted = convert(29_000, 'psi', 'MPa');
    expect(converted.ok && Math.abs(converted.value - 199.9)).toBeLessThanOrEqual(0.1);
  });

  test('175 psi is 1 207 kPa within 1 (common practice, no source)', () => {
    expect(Math.abs(toCanonical(175, 'psi') - 1207)).toBeLessThanOrEqual(1);
  });
});

describe('convert', () => {
  test('refuses unlike dimensions and names them', () => {
    expect(convert(1, 'psi', 'V')).toEqual({ ok: false, problem: { from: 'pressure', to: 'voltage' } });
    expect(convert(1, 'h', 'ms')).toEqual({ ok: false, problem: { from: 'hours', to: 'span' } });
  });

  test('every unit comes back to itself through the canonical one', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...UNIT_IDS),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (unit, value) => {
          const back = fromCanonical(toCanonical(value, unit), unit);
          expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
        },
      ),
    );
  });

  test('canonical units are their own canonical value', () => {
    for (const unit of UNIT_IDS) {
      const canonical = canonicalUnit(dimensionOf(unit));
      expect(dimensionOf(canonical)).toBe(dimensionOf(unit));
      expect(toCanonical(12.5, canonical)).toBe(12.5);
    }
  });

  test('NaN and infinities pass through', () => {
    expect(toCanonical(NaN, 'psi')).toBeNaN();
    expect(fromCanonical(Infinity, 'degF')).toBe(Infinity);
  });
});
