import type { ProblemCode } from '../problems/catalogue.ts';
import type { Problem } from '../problems/problem.ts';

/** Warnings of a limit sheet that leave a verdict open, with what is said beside it. The first that is met counts. */
const WORDS: readonly (readonly [ProblemCode, string])[] = [
  ['limit.serial-not-covered', 'Not final: the sheet does not hold for this serial number'],
  ['limit.not-yet-valid', 'Not final: the sheet does not hold yet on the day of the run'],
  ['limit.not-confirmed', 'Not final until the sheet is confirmed'],
  ['limit.confirm-again', 'Not final until the sheet is confirmed again'],
];

/**
 * Why a verdict with these warnings is not final yet, in one line for beside its word; null where nothing about the sheet keeps it open. The
 * warnings themselves say more, each with its remedy.
 */
export function notFinalWords(warnings: readonly Pick<Problem, 'code'>[]): string | null {
  const codes = new Set(warnings.map(({ code }) => code));
  return WORDS.find(([code]) => codes.has(code))?.[1] ?? null;
}
