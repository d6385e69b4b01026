import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatNumber, formatQuantity } from '../../src/quantities/format.ts';

const MINUS = '\u2212';

/**
 * Sums of halves, so that the double is the number written: ties are real ties. They go away from zero
 * (ECMA-262, Number.prototype.toFixed: of two equally near, the larger; the sign is set apart before).
 */
const TIES: readonly [value: number, decimals: number, shown: string][] = [
  [0.5, 0, '1'],
  [1.5, 0, '2'],
  [2.5, 0, '3'],
  [0.25, 1, '0.3'],
  [0.75, 1, '0.8'],
  [0.125, 2, '0.13'],
  [0.375, 2, '0.38'],
  [0.625, 2, '0.63'],
  [12.375, 2, '12.38'],
  [1023.0625, 3, '1\u202f023.063'],
];

describe('a tie goes away from zero', () => {
  test.each(TIES)('%s with %i decimals is %s', (value, decimals, shown) => {
    expect(formatNumber(value, { decimals })).toBe(shown);
  });
  test.each(TIES)('and so it does below zero: minus %s with %i decimals', (value, decimals, shown) => {
    expect(formatNumber(-value, { decimals })).toBe(MINUS + shown);
  });
});

describe('one step of a double beside a tie decides', () => {
  test.each([
    [0.5 - 2 ** -54, 0, '0'],
    [2.5 - 2 ** -51, 0, '2'],
    [0.125 - 2 ** -56, 2, '0.12'],
    [0.125 + 2 ** -55, 2, '0.13'],
    [1.005, 2, '1.00'], // the double below: 1.00499999999999989…
    [-0.5 + 2 ** -54, 0, '0'], // rounds to zero, so it has no sign
  ])('%s with %i decimals is %s', (value, decimals, shown) => {
    expect(formatNumber(value, { decimals })).toBe(shown);
  });
});

test('whole numbers up to 2^53 are shown to the digit', () => {
  expect(formatNumber(2 ** 53, { decimals: 0 })).toBe('9\u202f007\u202f199\u202f254\u202f740\u202f992');
});

test('numbers in sixteenths are shown whole with four decimals', () => {
  fc.assert(
    fc.property(fc.integer({ min: -160_000, max: 160_000 }), (sixteenths) => {
      const shown = formatNumber(sixteenths / 16, { decimals: 4 });
      expect(Number(shown.replaceAll('\u202f', '').replace(MINUS, '-'))).toBe(sixteenths / 16 + 0);
    }),
  );
});

test('a larger number is never shown as a smaller one', () => {
  const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const read = (value: number) =>
    Number(formatQuantity(value, 'V').replaceAll('\u202f', '').replace(MINUS, '-'));
  fc.assert(
    fc.property(number, number, (a, b) => {
      expect(read(Math.min(a, b))).toBeLessThanOrEqual(read(Math.max(a, b)));
    }),
  );
});
