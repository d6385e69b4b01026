import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseNumber } from '../../src/logs/parse-cell.ts';
import { plainClock, plainNumber } from '../../src/logs/plain-cell.ts';
import { parseClock } from '../../src/logs/time-cell.ts';

describe('numbers of the usual shape', () => {
  test('are what the language reads, digit for digit, in either notation', () => {
    const decimal = fc.tuple(fc.constantFrom('', '-', '+'), fc.nat(9_999_999), fc.constantFrom('', '.5', '.25', '.0', '.125', '.1234567')); // prettier-ignore
    fc.assert(
      fc.property(decimal, ([sign, whole, fraction]) => {
        const text = `${sign}${whole}${fraction}`;
        expect(plainNumber(text, '.')).toBe(Number(text));
        expect(plainNumber(text.replace('.', ','), ',')).toBe(Number(text));
      }),
      { numRuns: 2000 },
    );
  });

  test.each(['', '-', '.', '5.', '.5', '1.2.3', '1e3', ' 1', '1 ', '1,5', '1.234,5', 'N/A', '1234567890123456', '--1', '+-1', '/1', ':1'])(
    '"%s" is left to the full reading',
    (text) => expect(plainNumber(text, '.')).toBeNaN(),
  ); // prettier-ignore

  test('the full reading goes on where the short one stops', () => {
    expect(parseNumber('1e3', '.')).toBe(1000);
    expect(parseNumber('-1,5e2', ',')).toBe(-150);
    expect(parseNumber('.5', '.')).toBe(0.5);
    expect(parseNumber('5.', '.')).toBe(5);
    expect(parseNumber('1.234,5', ',')).toBe(1234.5);
    expect(parseNumber('1.234', ',')).toBe(1234);
    expect(parseNumber('1,234', '.')).toBe(1234);
    expect(parseNumber(' 146 ', ',')).toBe(146);
    expect(parseNumber('\u221212,5', ',')).toBe(-12.5);
    expect(parseNumber("1'234.5", '.')).toBe(1234.5);
    expect(parseNumber('1234567890123456', '.')).toBe(1234567890123456);
  });
});

describe('clock times of the usual shape', () => {
  test.each([
    ['00:00:00', 0],
    ['1:02:03', 3_723_000],
    ['23:59:59,999', 86_399_999],
    ['10:00:00.5', 36_000_500],
    ['10:00:00.000000001', 36_000_000],
  ])('%s is %d ms after midnight', (text, ms) => {
    expect(plainClock(text)).toBeCloseTo(ms, 5);
    expect(parseClock(text)).toBeCloseTo(ms, 5);
  });

  test.each(['', '10:00', '10:60:00', '10:00:60', '1:2:3', '10:00:00.', '10:00:00.1234567890', '10:00:00 AM', '10:00:00:500', '100:00:00', 'a0:00:00', '10-00:00', '10:00-00', '10:00:00x5', '10:00:00.5x'])(
    '"%s" is left to the full reading',
    (text) => expect(plainClock(text)).toBeNaN(),
  ); // prettier-ignore

  test('one may stand within a text', () => expect(plainClock('12.03.2024 10:00:01,5', 11)).toBe(36_001_500));
});
