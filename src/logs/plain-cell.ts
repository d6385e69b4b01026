import { toCanonical } from '../quantities/convert.ts';

/** The character before the fraction of a number. */
export type DecimalMark = '.' | ',';

const ZERO = 48;
const COLON = 58;
const POINT = 46;
const COMMA = 44;
const PLUS = 43;
const MINUS = 45;
/** With so few digits whole number and power of ten are exact, so that their quotient is the nearest number: as `Number` gives it. */
const MOST_DIGITS = 15;
const POWERS = Array.from({ length: MOST_DIGITS + 1 }, (_, i) => 10 ** i);

/**
 * The number in a cell of the usual shape, read by its characters: a sign or none, 1 to 15 digits, `mark` and digits after
 * it or none; no blanks. NaN for any other cell, which may be a number all the same: `parseNumber` knows them all.
 */
export function plainNumber(cell: string, mark: DecimalMark): number {
  const first = cell.charCodeAt(0);
  const isNegative = first === MINUS;
  const size = plainSize(cell, isNegative || first === PLUS ? 1 : 0, mark === '.' ? POINT : COMMA);
  return isNegative ? -size : size;
}

function plainSize(cell: string, start: number, markCode: number): number {
  let whole = 0;
  let markAt = -1;
  for (let i = start; i < cell.length; i++) {
    const code = cell.charCodeAt(i);
    if (isDigit(code)) whole = 10 * whole + code - ZERO;
    else if (code === markCode && markAt < 0 && i > start) markAt = i;
    else return NaN;
  }
  if (markAt < 0) return withinDigits(cell.length - start) ? whole : NaN;
  const decimals = cell.length - 1 - markAt;
  return decimals > 0 && withinDigits(cell.length - 1 - start) ? whole / (POWERS[decimals] ?? NaN) : NaN;
}

const withinDigits = (count: number): boolean => count > 0 && count <= MOST_DIGITS;

const isDigit = (code: number): boolean => code >= ZERO && code < COLON; // the colon follows the nine

/** The two digits at `at` as a number below 60; NaN when they are none. */
const belowSixty = (cell: string, at: number): number => {
  const tens = cell.charCodeAt(at) - ZERO;
  const ones = cell.charCodeAt(at + 1) - ZERO;
  return tens >= 0 && tens <= 5 && ones >= 0 && ones <= 9 ? 10 * tens + ones : NaN;
};

const MS_A_SECOND = toCanonical(1, 's');

/**
 * ms since midnight of a clock time of the usual shape, read by its characters: h:mm:ss or hh:mm:ss, with a point or comma
 * and 1 to 9 digits after it or none; no blanks. `from` is where it begins in the text. NaN for any other text, which
 * may be a clock time all the same: `parseClock` knows them all.
 */
export function plainClock(text: string, from = 0): number {
  const hourEnd = text.charCodeAt(from + 1) === COLON ? from + 1 : from + 2;
  const secondAt = hourEnd + 4;
  if (text.charCodeAt(hourEnd) !== COLON || text.charCodeAt(secondAt - 1) !== COLON) return NaN;
  const tens = hourEnd === from + 1 ? 0 : text.charCodeAt(from) - ZERO;
  const ones = text.charCodeAt(hourEnd - 1) - ZERO;
  if (!(tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9)) return NaN;
  const minutes = 60 * (10 * tens + ones) + belowSixty(text, hourEnd + 1);
  const seconds = 60 * minutes + belowSixty(text, secondAt);
  return MS_A_SECOND * seconds + fractionMs(text, secondAt + 2);
}

/** ms of ".5" or ",500" from `at` to the end of the text; 0 at its end; NaN for anything else. */
function fractionMs(text: string, at: number): number {
  if (text.length === at) return 0;
  const mark = text.charCodeAt(at);
  const count = text.length - at - 1;
  if ((mark !== POINT && mark !== COMMA) || count < 1 || count > 9) return NaN;
  let fraction = 0;
  for (let i = at + 1; i < text.length; i++) {
    const digit = text.charCodeAt(i) - ZERO;
    if (!(digit >= 0 && digit <= 9)) return NaN;
    fraction = 10 * fraction + digit;
  }
  return (fraction / (POWERS[count] ?? NaN)) * MS_A_SECOND;
}
