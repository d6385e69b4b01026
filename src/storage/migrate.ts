import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** Brings a document from format version n to n + 1. */
export type FormatStep = (document: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;

/**
 * Brings a stored document to the current format version, which is 1 + the number of steps: step 0 makes 2 of 1.
 * A version above the current one is `storage.newer-document`; something without a version passes through unchanged,
 * for the schema to say what is wrong with it.
 */
export function migrate(what: string, document: unknown, steps: readonly FormatStep[]): Result<unknown> {
  if (typeof document !== 'object' || document === null || !('formatVersion' in document))
    return ok(document);
  const version = document.formatVersion;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return ok(document);
  const id = 'id' in document ? String(document.id) : '?';
  if (version > steps.length + 1) return failed(problem('storage.newer-document', { what, id }));
  let current = document as Readonly<Record<string, unknown>>;
  steps.slice(version - 1).forEach((step, index) => {
    current = { ...step(current), formatVersion: version + index + 1 };
  });
  return ok(current);
}
