import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHECK_DIGIT_NOTE, vinCheckDigit } from '../../src/j1939/vin-check-digit.ts';

/**
 * The sum of 49 CFR 565.15(c) found another way: the value of a letter is the low half of its EBCDIC code (A to I C1 to C9, J to R D1 to D9,
 * S to Z E2 to E9), which is where the regulation's table has its values from (from memory); and weights counted down from the end.
 */
function sumByEbcdic(vin: string): number {
  const value = (letter: string) => {
    const place = letter.charCodeAt(0) - 65;
    if (place < 0) return Number(letter);
    if (place < 9) return place + 1;
    return place < 18 ? place - 8 : place - 16;
  };
  return [...vin].reduce((sum, letter, i) => {
    if (i === 8) return sum;
    const fromEnd = 18 - i; // 17 characters: the last has weight 2
    const weight = i === 7 ? 10 : i > 8 ? fromEnd : fromEnd - 10;
    return sum + value(letter) * weight;
  }, 0);
}

describe('the check digit of 49 CFR 565.15(c)', () => {
  test('fits the sample of the regulation (products add up to 411, 411 / 11 leaves 4)', () => {
    expect(sumByEbcdic('1G4AH59H45G118341')).toBe(411);
    expect(vinCheckDigit('1G4AH59H45G118341')).toBe('fits');
    for (const wrong of '012356789X') expect(vinCheckDigit(`1G4AH59H${wrong}5G118341`)).toBe('does not fit');
  });

  test('is X where 10 is left (widely published example: the sum is 351)', () => {
    expect(sumByEbcdic('1M8GDM9AXKP042788')).toBe(351);
    expect(vinCheckDigit('1M8GDM9AXKP042788')).toBe('fits');
    expect(vinCheckDigit('1M8GDM9A0KP042788')).toBe('does not fit');
  });

  test('fits seventeen ones (the weights add up to 89, which leaves 1)', () => {
    expect(vinCheckDigit('1'.repeat(17))).toBe('fits');
  });

  // README of ../shared/data/j1939: both invented VINs have a correct check digit.
  test.each(['ZZZTRKAA2RT000001', 'ZZZTRKAA8RT000021'])('fits %s', (vin) => {
    expect(vinCheckDigit(vin)).toBe('fits');
    expect(String(sumByEbcdic(vin) % 11)).toBe(vin[8]);
  });

  test.each([
    ['', 'empty'],
    ['ZZZTRKAA2RT00001', '16 characters'],
    ['ZZZTRKAA2RT0000011', '18 characters'],
    ['ZZZTRKAAZRT000001', 'a ninth character that can be no check digit'],
    ['ZZZTRKAI2RT000001', 'I'],
    ['ZZZTRKAO2RT000001', 'O'],
    ['ZZZTRKAQ2RT000001', 'Q'],
    ['zzztrkaa2rt000001', 'small letters'],
    ['ZZZTRK A2RT000001', 'a space'],
    ['ZZZTRKA\ufffd2RT000001', 'an unreadable byte'],
  ])('"%s" has none: %s', (vin) => expect(vinCheckDigit(vin)).toBe('not applicable'));

  test('agrees with the other derivation on any VIN', () => {
    const letter = fc.constantFrom(...'ABCDEFGHJKLMNPRSTUVWXYZ0123456789');
    const vins = fc.tuple(
      fc.array(letter, { minLength: 16, maxLength: 16 }),
      fc.constantFrom(...'0123456789X'),
    );
    fc.assert(
      fc.property(vins, ([letters, digit]) => {
        const vin = [...letters.slice(0, 8), digit, ...letters.slice(8)].join('');
        const right = '0123456789X'[sumByEbcdic(vin) % 11];
        expect(vinCheckDigit(vin)).toBe(digit === right ? 'fits' : 'does not fit');
        expect(vinCheckDigit(vin.slice(0, 8) + right + vin.slice(9))).toBe('fits');
      }),
    );
  });

  test('comes with the note that it is a North American rule', () => {
    expect(CHECK_DIGIT_NOTE).toMatch(/North American.*49 CFR 565\.15/);
  });
});
