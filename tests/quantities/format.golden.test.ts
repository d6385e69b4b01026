import { describe, expect, test } from 'vitest';
import { formatNumber, formatQuantity, unitSymbol, usualDecimals } from '../../src/quantities/format.ts';
import { UNIT_IDS, type UnitId } from '../../src/quantities/unit.ts';

const N = '\u202f';

/** Chosen for reading on the run page: as many decimals as the instruments resolve, and the SI symbol (SI brochure 5). */
const SHOWN: Readonly<Record<UnitId, readonly [symbol: string, decimals: number]>> = {
  rpm: ['rpm', 0],
  kPa: ['kPa', 0],
  MPa: ['MPa', 1],
  bar: ['bar', 0],
  psi: ['psi', 0],
  Pa: ['Pa', 0],
  inHg: ['inHg', 1],
  mmHg: ['mmHg', 0],
  V: ['V', 1],
  mV: ['mV', 0],
  degC: ['°C', 0],
  degF: ['°F', 0],
  mL: ['mL', 0],
  L: ['L', 2],
  usFlOz: ['US fl oz', 1],
  impFlOz: ['imp fl oz', 1],
  ms: ['ms', 0],
  s: ['s', 1],
  min: ['min', 1],
  percent: ['%', 0],
  h: ['h', 1],
  state: ['', 0],
};

test.each(UNIT_IDS)('%s has its symbol and its usual decimals', (unit) => {
  expect([unitSymbol(unit), usualDecimals(unit)]).toEqual(SHOWN[unit]);
});

describe('canonical values as each unit shows them', () => {
  test.each([
    [621, 'rpm', '621'],
    [150_000, 'MPa', '150.0'], // 150 MPa, SI prefix
    [150_000, 'bar', `1${N}500`], // 10 bar a MPa, j1939.md
    [100_000, 'psi', `14${N}504`], // 14503.7738, NIST SP 811 B.8
    [101.325, 'Pa', `101${N}325`], // atm, check-values.md I
    [3.38638864, 'inHg', '1.0'], // NIST SP 811 B.8
    [0.1333224, 'mmHg', '1'], // NIST SP 811 B.8
    [12.05, 'mV', `12${N}050`],
    [52, 'degF', '126'], // 125.6, check-values.md I
    [-40, 'degF', '\u221240'], // check-values.md I
    [125, 'L', '0.13'], // 0.125 is exact in binary: half away from zero
    [29.5735295625, 'usFlOz', '1.0'], // exact, check-values.md I
    [28.4130625, 'impFlOz', '1.0'], // exact, check-values.md I
    [15_000, 's', '15.0'],
    [90_000, 'min', '1.5'],
    [99.6, 'percent', '100'],
    [210_554_060.75, 'h', `210${N}554${N}060.8`], // SPN 247 at its highest, j1939.md
    [15, 'state', '15'],
  ] as const)('%s in %s is %s', (canonical, unit, shown) => {
    expect(formatQuantity(canonical, unit)).toBe(shown);
  });
});

describe('thousands', () => {
  test.each([
    [9, '9'],
    [99, '99'],
    [100, '100'],
    [1000, `1${N}000`],
    [12_345, `12${N}345`],
    [123_456, `123${N}456`],
    [999_999.6, `1${N}000${N}000`],
    [-1000, `\u22121${N}000`],
  ])('%s is grouped as %s', (value, shown) => expect(formatNumber(value, { decimals: 0 })).toBe(shown));

  test('decimals are never grouped', () => {
    expect(formatNumber(0.123456, { decimals: 6 })).toBe('0.123456');
    expect(formatNumber(1234.123456, { decimals: 6 })).toBe(`1${N}234.123456`);
  });
});

describe('signs', () => {
  test.each([
    [-0.4, 0, '0'],
    [-0.6, 0, '\u22121'],
    [-0.05, 1, '\u22120.1'],
    [-0.001, 2, '0.00'],
    [-10, 0, '\u221210'],
  ])('%s with %i decimals is %s', (value, decimals, shown) => {
    expect(formatNumber(value, { decimals })).toBe(shown);
  });
});

test('decimals and decimal mark asked for take the place of the usual ones', () => {
  // 12.375 is 99/8, exact in binary: half goes away from zero.
  expect(formatQuantity(12.375, 'V', { decimals: 2, decimalMark: ',' })).toBe('12,38');
  expect(formatQuantity(1_500_000, 'MPa', { decimals: 0 })).toBe(`1${N}500`);
});
