import type { CheckFinding } from '../../src/procedures/finding.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';

/** A finding that stands firm unless the change says otherwise. */
export function finding(
  checkId: string,
  word: CheckFinding['word'],
  change: Partial<CheckFinding> = {},
): CheckFinding {
  const runsNeeded = LOW_RAIL_PRESSURE.checks.find(({ id }) => id === checkId)?.runsNeeded ?? 1;
  return {
    checkId,
    word,
    confidence: 0.99,
    runs: word === null ? 0 : runsNeeded,
    runsNeeded,
    skipped: null,
    repeatBecause: null,
    causes: [],
    ...change,
  };
}

/** Every check of the procedure with the word given, pass where none is. */
export const findings = (words: Readonly<Record<string, CheckFinding['word']>>): CheckFinding[] =>
  LOW_RAIL_PRESSURE.checks.map(({ id }) => finding(id, words[id] ?? 'pass'));
