import { describe, expect, test } from 'vitest';
import { decodeRaw, emptyMessage, readRaw, writeSample, type SpnSample } from '../../src/j1939/spn-codec.ts';
import { parameterOf, SPN_TABLE } from '../../src/j1939/spn-table.ts';

const entryOf = (spn: number) => SPN_TABLE[parameterOf(spn)]!;
const bytes = (hex: string) => Uint8Array.from(hex.match(/../g) ?? [], (pair) => parseInt(pair, 16));

/** Computed by hand from the bit places and scales of j1939.md (J1939-71 / J1939DA); the arithmetic stands in `why`. */
const VECTORS: readonly [spn: number, message: string, expected: SpnSample, why: string][] = [
  [190, 'FFFFFF6813FFFFFF', 621, '1368h = 4968, / 8; low byte first'],
  [190, 'FFFFFFFFFAFFFFFF', 8031.875, 'highest valid raw FAFFh = 64255, / 8'],
  [190, 'FFFFFF00FBFFFFFF', 'notAvailable', 'FB00h is an indicator, no number'],
  [190, 'FFFFFF00FDFFFFFF', 'notAvailable', 'FD00h is reserved, no number'],
  [190, 'FFFFFF00FEFFFFFF', 'error', 'FE00h: the top byte decides'],
  [190, 'FFFFFFFFFEFFFFFF', 'error', 'FEFFh is still an error'],
  [190, 'FFFFFF00FFFFFFFF', 'notAvailable', 'FF00h: the top byte decides, not all ones'],
  [513, 'FFFF7DFFFFFFFFFF', 0, '125 - 125'],
  [513, 'FFFF00FFFFFFFFFF', -125, '0 - 125'],
  [1675, 'FFFFFFFFFFFFF2FF', 2, 'low four bits of byte 7'],
  [1675, 'FFFFFFFFFFFFFDFF', 13, '13 is a state (old error code)'],
  [1675, 'FFFFFFFFFFFFFEFF', 'error', 'state 14'],
  [1675, 'FFFFFFFFFFFF0FFF', 'notAvailable', 'state 15, whatever stands above it'],
  [157, 'FFFF0096FFFFFFFF', 150, '9600h = 38400, / 256'],
  [164, '0019FFFFFFFFFFFF', 25, '1900h = 6400, / 256'],
  [1349, 'FFFFFFFFFFFF8000', 0.5, '0080h = 128, / 256'],
  [5313, 'FFFFFFFF0019FFFF', 25, '1900h = 6400, / 256'],
  [94, 'C4FFFFFFFFFFFFFF', 784, '196 * 4'],
  [94, 'FAFFFFFFFFFFFFFF', 1000, 'highest valid raw, 250 * 4'],
  [94, 'FBFFFFFFFFFFFFFF', 'notAvailable', 'FBh is an indicator'],
  [94, 'FEFFFFFFFFFFFFFF', 'error', 'FEh'],
  [100, 'FFFFFF64FFFFFFFF', 400, '100 * 4'],
  [95, 'FFFF19FFFFFFFFFF', 50, '25 * 2'],
  [96, 'FF7DFFFFFFFFFFFF', 50, '125 * 0.4'],
  [1382, 'FFFF0AFFFFFFFFFF', 20, '10 * 2'],
  [168, 'FFFFFFFFF200FFFF', 12.1, '00F2h = 242, * 0.05'],
  [158, 'FFFFFFFFFFFFF001', 24.8, '01F0h = 496, * 0.05'],
  [110, '37FFFFFFFFFFFFFF', 15, '55 - 40'],
  [174, 'FF38FFFFFFFFFFFF', 16, '56 - 40'],
  [175, 'FFFF8025FFFFFFFF', 27, '2580h = 9600, * 0.03125 = 300, - 273'],
  [102, 'FF4BFFFFFFFFFFFF', 150, '75 * 2'],
  [97, 'FDFFFFFFFFFFFFFF', 1, 'low two bits 01: water'],
  [97, 'FCFFFFFFFFFFFFFF', 0, 'low two bits 00: none'],
  [97, 'FEFFFFFFFFFFFFFF', 'error', 'low two bits 10'],
  [97, 'FFFFFFFFFFFFFFFF', 'notAvailable', 'low two bits 11'],
  [247, 'FFFFFFFAFFFFFFFF', 210554060.75, 'FAFFFFFFh = 4211081215, * 0.05: unsigned'],
  [247, '000000FEFFFFFFFF', 'error', 'top byte FE'],
];

describe('hand-computed vectors', () => {
  test.each(VECTORS)('SPN %i of %s is %s (%s)', (spn, message, expected) => {
    const found = decodeRaw(entryOf(spn), readRaw(entryOf(spn), bytes(message)));
    if (typeof expected === 'number') expect(found).toBeCloseTo(expected, 6);
    else expect(found).toBe(expected);
  });

  test('every parameter of the table has a vector', () => {
    const covered = new Set(VECTORS.map(([spn]) => spn));
    expect(SPN_TABLE.filter(({ spn }) => !covered.has(spn))).toEqual([]);
  });
});

describe('writing', () => {
  const message = (spn: number, sample: SpnSample) => {
    const data = emptyMessage();
    writeSample(entryOf(spn), sample, data);
    return Buffer.from(data).toString('hex').toUpperCase();
  };
  test.each([
    [190, 621, 'FFFFFF6813FFFFFF'],
    [190, 'error', 'FFFFFFFFFEFFFFFF'],
    [190, 'notAvailable', 'FFFFFFFFFFFFFFFF'],
    [190, 99_999, 'FFFFFFFFFAFFFFFF'],
    [190, -5, 'FFFFFF0000FFFFFF'],
    [190, NaN, 'FFFFFFFFFFFFFFFF'],
    [1675, 2, 'FFFFFFFFFFFFF2FF'],
    [97, 'error', 'FEFFFFFFFFFFFFFF'],
    [247, 210554060.75, 'FFFFFFFAFFFFFFFF'],
  ] satisfies [number, SpnSample, string][])('SPN %i as %s gives %s', (spn, sample, expected) => {
    expect(message(spn, sample)).toBe(expected);
  });

  test('the other parameters of a message are left as they are', () => {
    const data = bytes('0102030405060708');
    writeSample(entryOf(1675), 15, data);
    expect([...data]).toEqual([1, 2, 3, 4, 5, 6, 0x0d, 8]);
  });
});
