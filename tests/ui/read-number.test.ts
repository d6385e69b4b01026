import { describe, expect, test } from 'vitest';
import { readNumber } from '../../src/ui/read-number.ts';

const range = { min: 0, max: 500, unit: 'mL' };

describe('a typed number', () => {
  test.each([
    ['90', 90],
    [' 90 ', 90],
    ['90.5', 90.5],
    ['90,5', 90.5],
    [',5', 0.5],
    ['90.', 90],
    ['500', 500],
    ['0', 0],
  ])('%j is read as %d', (text, value) => {
    expect(readNumber(text, range)).toEqual({ value });
  });

  test.each([
    '',
    ' ',
    '1,000.5',
    '1.000,5',
    '1e3',
    '+5',
    '.',
    '--1',
    '5 mL',
    'NaN',
    'Infinity',
    '0x10',
    '1 000',
  ])('%j is refused rather than guessed', (text) => {
    expect(readNumber(text, range)).toHaveProperty('refusal');
  });

  test('an open side of the range refuses nothing', () => {
    expect(readNumber('-5', { min: null, max: null, unit: 'mL' })).toEqual({ value: -5 });
    expect(readNumber('1000000', { min: null, max: null, unit: 'mL' })).toEqual({ value: 1e6 });
  });
});
