import { readNumber } from './read-number.ts';

/**
 * Reads a time as a stopwatch shows it: plain seconds ("30", "30,4") or minutes and seconds ("1:30", "1:30.4"); the seconds after
 * a colon have two digits and stay below 60.
 * @param range seconds that the time must lie in
 * @returns seconds, or the reason in plain words
 */
export function readSpan(
  text: string,
  range: { readonly min: number; readonly max: number },
): { value: number } | { refusal: string } {
  const typed = text.trim().replace(/\s*s$/i, '');
  const parts = /^(\d{1,3}):([0-5]\d(?:[.,]\d+)?)$/.exec(typed);
  const limits = { ...range, unit: 's' };
  if (parts) {
    const seconds = Number(parts[1]) * 60 + Number((parts[2] ?? '').replace(',', '.'));
    return readNumber(String(Number(seconds.toFixed(3))), limits);
  }
  if (typed.includes(':'))
    return { refusal: `“${text.trim()}” is no time: write 1:30 for a minute and a half.` };
  return readNumber(typed, limits);
}
