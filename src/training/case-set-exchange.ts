import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { caseSetMistakes } from './case-set-mistakes.ts';
import { CaseSet } from './case-set.ts';

/** A case set as the text of a file, to be read again by `readCaseSet`. */
export const writeCaseSet = (set: CaseSet): string => `${JSON.stringify(set, null, 2)}\n`;

/**
 * The case set in the text of a file. Problems: `training.not-a-set` with the first place that does not fit, or the first of `caseSetMistakes`.
 */
export function readCaseSet(text: string): Result<CaseSet> {
  const document = readJson(text);
  if (document === undefined) return failed(problem('training.not-a-set', { detail: 'it is no JSON text' }));
  const parsed = CaseSet.safeParse(document);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const place = issue?.path.join('.') || 'the whole';
    return failed(problem('training.not-a-set', { detail: `${place}: ${issue?.message ?? 'unknown form'}` }));
  }
  const [mistake] = caseSetMistakes(parsed.data);
  return mistake ? failed(mistake) : ok(parsed.data);
}

/** Undefined where the text is no JSON. A mark of byte order at the front is passed over. */
export function readJson(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return undefined;
  }
}
