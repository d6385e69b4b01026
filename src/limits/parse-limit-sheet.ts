import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { LimitSheet } from './limit-sheet.ts';
import { SHEET_FORMAT } from './sheet-format.ts';
import { describeIssue, placeName } from './sheet-place.ts';
import { sheetMistakes } from './sheet-mistakes.ts';

/**
 * Reads a limit sheet of any format from parsed JSON (or anything). Gives the sheet with its defaults filled in, or the first mistake: its place in plain
 * words and what is wrong. Shape first (Zod), then meaning (`sheetMistakes`). Never throws.
 */
export function parseLimitSheet(json: unknown): Result<LimitSheet> {
  const other = notASheet(json);
  if (other) return failed(other);
  const parsed = LimitSheet.safeParse(json, { reportInput: true });
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    const place = placeName(issue?.path ?? [], json);
    const detail = issue ? describeIssue(issue) : 'the entry cannot be read';
    return failed(problem('limit.bad-entry', { place, detail }));
  }
  const mistake = sheetMistakes(parsed.data)[0];
  return mistake ? failed(mistake) : ok(parsed.data);
}

/** What tells a wrong file, or a file of a later version, from a sheet with a mistake in it. */
function notASheet(json: unknown): Problem | null {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return problem('limit.not-a-sheet', { detail: `it holds ${kindOf(json)} where a sheet was expected` });
  }
  const format: unknown = 'formatVersion' in json ? json.formatVersion : undefined;
  if (typeof format === 'number' && format > SHEET_FORMAT) {
    return problem('limit.newer-format', { found: format, known: SHEET_FORMAT });
  }
  if (format === undefined && !('limits' in json)) {
    return problem('limit.not-a-sheet', { detail: 'it has neither a formatVersion nor limits' });
  }
  return null;
}

function kindOf(json: unknown): string {
  if (json === null || json === undefined) return 'nothing';
  if (Array.isArray(json)) return 'a list';
  return typeof json === 'string' ? 'a text' : `a ${typeof json}`;
}
