import { chooseLimit } from '../limits/choose-limit.ts';
import type { Limit, Window } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { CheckToJudge } from './judged-check.ts';
import { sheetInForce } from './run-entries.ts';

/** The limit of a check as far as there is one. */
export interface FoundLimit {
  readonly limit: Limit | null;
  /** The limit where it is a window, which every kind but crank delivery needs. */
  readonly window: Window | null;
  /** What warns about the sheet. */
  readonly warnings: readonly Problem[];
  /** Why nothing can be judged by it; null where it can. */
  readonly missing: Problem | null;
}

/** Looks the limit of a check up in the sheet that holds for the run; serial number and day decide what warns about the sheet. */
export function limitOfCheck({ check, sheet: began, facts, values }: CheckToJudge): FoundLimit {
  const sheet = sheetInForce(began, values);
  if (!sheet) return withoutLimit(problem('limit.no-sheet', { check }));
  const serial = values.identity.get('serialNumber')?.value;
  const chosen = chooseLimit(sheet, check, {
    ...(serial === undefined ? {} : { serial }),
    ...(facts.onDate === undefined ? {} : { onDate: facts.onDate }),
  });
  if (!chosen.ok) return withoutLimit(chosen.problem);
  const { limit, warnings } = chosen.value;
  if (limit.kind === 'window') return { limit, window: limit, warnings, missing: null };
  const missing = problem('check.limit-not-a-window', { check, sheet: sheet.title });
  return { limit, window: null, warnings, missing };
}

const withoutLimit = (missing: Problem): FoundLimit => ({
  limit: null,
  window: null,
  warnings: [],
  missing,
});
