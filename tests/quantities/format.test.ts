import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatNumber, formatQuantity, NO_VALUE, unitSymbol } from '../../src/quantities/format.ts';

const N = '\u202f';

test.each([
  [0, 0, '0'],
  [999, 0, '999'],
  [1207, 0, `1${N}207`],
  [1234567.25, 1, `1${N}234${N}567.3`],
  [-12.34, 1, '\u221212.3'],
  [-0.04, 1, '0.0'],
  [-0, 0, '0'],
  [0.125, 3, '0.125'],
  [1000.1234, 4, `1${N}000.1234`],
])('%s with %s decimals is shown as %s', (value, decimals, shown) => {
  expect(formatNumber(value, { decimals })).toBe(shown);
});

test.each([null, undefined, NaN, Infinity, -Infinity])('%s is shown as an en dash', (value) => {
  expect(formatNumber(value, { decimals: 1 })).toBe('–');
  expect(formatQuantity(value, 'kPa')).toBe(NO_VALUE);
});

test('a decimal comma is used on request', () => {
  expect(formatNumber(-1234.5, { decimals: 1, decimalMark: ',' })).toBe(`\u22121${N}234,5`);
});

test('a quantity is converted and takes the usual decimals of its unit', () => {
  expect(formatQuantity(199_948, 'MPa')).toBe('199.9');
  expect(formatQuantity(1207, 'kPa')).toBe(`1${N}207`);
  expect(formatQuantity(1206.583, 'psi')).toBe('175'); // 175 psi, NIST SP 811 B.8
  expect(formatQuantity(12.34, 'V')).toBe('12.3');
  expect(formatQuantity(146.149, 'rpm', { decimals: 1 })).toBe('146.1');
});

test('symbols are those printed beside a number', () => {
  expect(unitSymbol('degC')).toBe('°C');
  expect(unitSymbol('kPa')).toBe('kPa');
  expect(unitSymbol('state')).toBe('');
});

test('without its spaces and minus sign the text is the rounded number', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e9, max: 1e9, noNaN: true }),
      fc.integer({ min: 0, max: 4 }),
      (value, decimals) => {
        const back = Number(formatNumber(value, { decimals }).replaceAll(N, '').replace('\u2212', '-'));
        expect(Math.abs(back - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-6);
      },
    ),
  );
});
