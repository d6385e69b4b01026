/** The range that a typed number must lie in; null leaves a side open. `unit` is for the words only. */
export interface NumberRange {
  readonly min: number | null;
  readonly max: number | null;
  readonly unit: string;
}

/**
 * Reads what a person typed: digits with at most one decimal point or comma, spaces around it. Grouped digits ("1,000.5"),
 * exponents and signs other than a leading minus are refused rather than guessed.
 * @returns the number, or the reason in plain words
 */
export function readNumber(text: string, range: NumberRange): { value: number } | { refusal: string } {
  const typed = text.trim();
  if (typed === '') return { refusal: 'Type a number first.' };
  if (!/^-?(\d+[.,]?\d*|[.,]\d+)$/.test(typed)) return { refusal: `“${typed}” is not a plain number.` };
  const value = Number(typed.replace(',', '.'));
  if (range.min !== null && value < range.min) {
    return { refusal: `The least that can be entered is ${range.min} ${range.unit}.` };
  }
  if (range.max !== null && value > range.max) {
    return { refusal: `The most that can be entered is ${range.max} ${range.unit}.` };
  }
  return { value };
}
