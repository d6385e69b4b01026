import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalUnit, convert, dimensionOf } from '../../src/quantities/convert.ts';
import { unitSymbol } from '../../src/quantities/format.ts';
import { parseUnit } from '../../src/quantities/parse-unit.ts';
import { QUALITIES, SIGNAL_IDS, NO_ORIGIN } from '../../src/quantities/reading.ts';
import { UNIT_IDS, type UnitId } from '../../src/quantities/unit.ts';

const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const unit = fc.constantFrom(...UNIT_IDS);
const alike = fc
  .tuple(unit, unit, unit)
  .filter(([a, b, c]) => dimensionOf(a) === dimensionOf(b) && dimensionOf(b) === dimensionOf(c));
const must = (number: number, from: UnitId, to: UnitId): number => {
  const conversion = convert(number, from, to);
  if (!conversion.ok) throw new Error(`${from} to ${to} was refused`);
  return conversion.value;
};
const near = (a: number, b: number, scale: number) =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-12 * Math.max(1, scale));

describe('conversions', () => {
  test('there and back is where one was, for every two units of a dimension', () => {
    fc.assert(
      fc.property(alike, value, ([from, to], number) => {
        near(must(must(number, from, to), to, from), number, 1e3 * Math.abs(number) + 1e3);
      }),
    );
  });

  test('by way of a third unit is the same as at once', () => {
    fc.assert(
      fc.property(alike, value, ([from, by, to], number) => {
        const direct = must(number, from, to);
        near(must(must(number, from, by), by, to), direct, 1e3 * Math.abs(direct) + 1e3);
      }),
    );
  });

  test('are refused exactly between unlike dimensions', () => {
    for (const from of UNIT_IDS)
      for (const to of UNIT_IDS) expect(convert(1, from, to).ok).toBe(dimensionOf(from) === dimensionOf(to));
  });

  test('to the same unit change no bit', () => {
    fc.assert(
      fc.property(unit, value, (same, number) => {
        expect(must(number, same, same)).toBe(number);
      }),
    );
  });

  test('keep the order of numbers', () => {
    fc.assert(
      fc.property(alike, value, ([from, to], number) => {
        expect(must(number + 1, from, to)).toBeGreaterThan(must(number, from, to));
      }),
    );
  });

  test('only temperatures have a zero of their own (check-values.md I)', () => {
    for (const from of UNIT_IDS) {
      const zero = must(0, from, canonicalUnit(dimensionOf(from)));
      if (from === 'degF') expect(zero).toBeCloseTo(-160 / 9, 12);
      else expect(zero).toBe(0);
    }
  });
});

test('each symbol that is printed is understood when it is typed; states have none', () => {
  for (const each of UNIT_IDS) expect(parseUnit(unitSymbol(each))).toBe(each === 'state' ? null : each);
});

describe('indexes that columns hold', () => {
  test('qualities keep their places', () => expect(QUALITIES).toEqual(['valid', 'error', 'notAvailable']));
  test('signals are named once each, and fit a byte', () => {
    expect(new Set(SIGNAL_IDS).size).toBe(SIGNAL_IDS.length);
    expect(SIGNAL_IDS.length).toBeLessThan(256);
    expect(SIGNAL_IDS.indexOf('engineSpeed')).toBe(0);
  });
  test('no address of any channel is taken for "no origin"', () => expect(NO_ORIGIN).toBeLessThan(0));
});
