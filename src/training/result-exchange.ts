import { z } from 'zod';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { readJson } from './case-set-exchange.ts';
import { RESULT_FORMAT, TrainingResult } from './training-result.ts';

/** Results of a class as one file. */
const ResultFile = z.strictObject({
  format: z.literal('meniscus-training-results'),
  formatVersion: z.literal(RESULT_FORMAT),
  results: z.array(TrainingResult).max(100_000),
});

/** Results as the text of a JSON file, to be read again by `readResults`, also on another machine. */
export const writeResults = (results: readonly TrainingResult[]): string =>
  `${JSON.stringify({ format: 'meniscus-training-results', formatVersion: RESULT_FORMAT, results }, null, 2)}\n`;

/** The results in the text of a file: all of them, or `training.not-results` with the first place that does not fit. */
export function readResults(text: string): Result<readonly TrainingResult[]> {
  const document = readJson(text);
  if (document === undefined)
    return failed(problem('training.not-results', { detail: 'it is no JSON text' }));
  const parsed = ResultFile.safeParse(document);
  if (parsed.success) return ok(parsed.data.results);
  const [issue] = parsed.error.issues;
  const place = issue?.path.join('.') || 'the whole';
  return failed(problem('training.not-results', { detail: `${place}: ${issue?.message ?? 'unknown form'}` }));
}
