/** Value of each letter, table III of 49 CFR 565.15(c); I, O and Q do not occur in a VIN. Digits stand for themselves. */
const LETTERS = 'ABCDEFGH JKLMN P R STUVWXYZ';
const LETTER_VALUES = '12345678 12345 7 9 23456789';
/** Weight of each position, table IV of 49 CFR 565.15(c). */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
const CHECK_PLACE = 8;
const SHAPE = /^[A-HJ-NPR-Z0-9]{8}[0-9X][A-HJ-NPR-Z0-9]{8}$/;

export type CheckDigit = 'fits' | 'does not fit' | 'not applicable';

/** Shown beside the outcome. */
export const CHECK_DIGIT_NOTE =
  'The check digit is a North American rule (49 CFR 565.15). A vehicle made for another market may have none, and then it need not fit.';

/**
 * Whether the ninth character of a VIN is the check digit that 49 CFR 565.15(c) asks for: the sum of value times weight modulo 11, X for 10.
 * `not applicable` where the text is no 17 characters of a VIN, or the ninth can be no check digit. Capital letters only: a VIN has no others.
 */
export function vinCheckDigit(vin: string): CheckDigit {
  if (!SHAPE.test(vin)) return 'not applicable';
  const sum = WEIGHTS.reduce((total, weight, place) => total + weight * valueOf(vin[place]!), 0);
  return vin[CHECK_PLACE] === '0123456789X'[sum % 11] ? 'fits' : 'does not fit';
}

const valueOf = (character: string): number =>
  character >= '0' && character <= '9'
    ? Number(character)
    : Number(LETTER_VALUES[LETTERS.indexOf(character)]);
