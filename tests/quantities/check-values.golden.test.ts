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

const SP811 = 'NIST SP 811 Appendix B.8, check-values.md I';
const DEFINED = 'exact by definition, check-values.md I';
const PREFIX = 'SI brochure, prefixes';

/** One of `from` in `to`, with the digits that the source prints; tolerance half a unit of the last digit. */
const ROWS: readonly [
  value: number,
  from: UnitId,
  expected: number,
  to: UnitId,
  digits: number,
  source: string,
][] = [
  [1, 'psi', 6.894757, 'kPa', 6, SP811],
  [1, 'psi', 6.894757293168, 'kPa', 11, DEFINED],
  [1, 'bar', 100, 'kPa', 9, SP811],
  [1, 'bar', 14.503774, 'psi', 6, SP811],
  [100, 'MPa', 14503.7738, 'psi', 4, SP811],
  [1, 'MPa', 145.0377, 'psi', 4, 'j1939.md, PGN 65243'],
  [1, 'MPa', 10, 'bar', 9, 'j1939.md, PGN 65243'],
  [1, 'inHg', 3.386389, 'kPa', 6, SP811],
  [1, 'inHg', 3.38638864, 'kPa', 7, SP811],
  [1, 'mmHg', 133.3224, 'Pa', 4, SP811],
  [1, 'usFlOz', 29.57353, 'mL', 5, SP811],
  [1, 'usFlOz', 29.5735295625, 'mL', 10, DEFINED],
  [1, 'impFlOz', 28.4130625, 'mL', 7, DEFINED],
  [128, 'usFlOz', 3.785411784, 'L', 9, 'US gallon, check-values.md I'],
  [160, 'impFlOz', 4.54609, 'L', 9, 'imperial gallon by definition, from memory'],
  [125.6, 'degF', 52, 'degC', 9, 'check-values.md I'],
  [-40, 'degF', -40, 'degC', 9, 'check-values.md I'],
  [212, 'degF', 100, 'degC', 9, 'check-values.md I'],
  [1000, 'Pa', 1, 'kPa', 9, PREFIX],
  [1, 'MPa', 1000, 'kPa', 9, PREFIX],
  [2500, 'mV', 2.5, 'V', 9, PREFIX],
  [0.125, 'L', 125, 'mL', 9, PREFIX],
  [15, 's', 15_000, 'ms', 9, PREFIX],
  [2, 'min', 120, 's', 9, 'SI brochure, table 8'],
];

describe('published values', () => {
  test.each(ROWS)('%s %s is %s %s (to %i decimals: %s)', (...row) => {
    const [value, from, expected, to, digits] = row;
    const there = convert(value, from, to);
    expect(there.ok && there.value).toBeCloseTo(expected, digits);
  });

  test.each(ROWS)('back again: %s %s from %s %s', (value, from, _expected, to) => {
    const there = convert(value, from, to);
    const back = convert(there.ok ? there.value : NaN, to, from);
    expect(back.ok && back.value).toBeCloseTo(value, 9);
  });

  test('a difference of 18 degF is 10 degC: no offset in differences (check-values.md I)', () => {
    expect(toCanonical(68, 'degF') - toCanonical(50, 'degF')).toBeCloseTo(10, 9);
  });

  test('values that others get wrong by 4e-7 are told apart (check-values.md I)', () => {
    expect(Math.abs(toCanonical(1, 'psi') - 6.89476000045)).toBeGreaterThan(1e-6);
  });
});

describe.each(UNIT_IDS)('%s', (unit) => {
  test('comes back through its canonical unit, over its whole range', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
        const back = fromCanonical(toCanonical(value, unit), unit);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * Math.max(100, Math.abs(value)));
      }),
    );
  });

  test('keeps the order of values', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer(), (a, b) => {
        expect(Math.sign(toCanonical(a, unit) - toCanonical(b, unit))).toBe(Math.sign(a - b));
      }),
    );
  });

  test('has zero at zero, apart from degF', () => {
    if (unit === 'degF') expect(toCanonical(32, unit)).toBe(0);
    else expect(toCanonical(0, unit)).toBe(0);
  });

  test('goes to itself unchanged, bit for bit', () => {
    for (const value of [0.1, 1 / 3, -17.3, 1e300])
      expect(convert(value, unit, unit)).toEqual({ ok: true, value });
  });

  test('is converted to a unit exactly where the dimension is the same', () => {
    for (const other of UNIT_IDS) {
      const { ok } = convert(1, unit, other);
      expect(ok, other).toBe(dimensionOf(unit) === dimensionOf(other));
    }
  });

  test('passes through any other unit of its dimension without loss', () => {
    for (const other of UNIT_IDS.filter((each) => dimensionOf(each) === dimensionOf(unit))) {
      const there = convert(123.456, unit, other);
      const back = there.ok ? convert(there.value, other, unit) : there;
      expect(back.ok && back.value, other).toBeCloseTo(123.456, 9);
    }
  });
});

test.each([
  ['speed', 'rpm'],
  ['pressure', 'kPa'],
  ['voltage', 'V'],
  ['temperature', 'degC'],
  ['volume', 'mL'],
  ['span', 'ms'],
  ['ratio', 'percent'],
  ['hours', 'h'],
  ['state', 'state'],
] as const)('%s is held in %s (canonical units, product.md)', (dimension, unit) => {
  expect(canonicalUnit(dimension)).toBe(unit);
  expect(dimensionOf(unit)).toBe(dimension);
});
