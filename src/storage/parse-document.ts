import type { ZodType } from 'zod';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** What could be read of a list, and what is damaged in it. One never hides the other. */
export interface Listing<T> {
  readonly items: readonly T[];
  readonly damaged: readonly { readonly id: string; readonly problem: Problem }[];
}

/**
 * A stored document as its type, or `storage.damaged` with the first place that does not fit. `what` is the word for it
 * on screen ("Recording", "Run").
 */
export function parseDocument<T>(schema: ZodType<T>, what: string, document: unknown): Result<T> {
  const parsed = schema.safeParse(document);
  if (parsed.success) return ok(parsed.data);
  const issue = parsed.error.issues[0];
  const detail = issue ? `${issue.path.join('.') || 'document'}: ${issue.message}` : 'unknown form';
  return failed(problem('storage.damaged', { what, id: idOf(document), detail }));
}

/** Reads a whole list, keeping what can be read and naming what cannot. */
export function readListing<T>(
  documents: readonly unknown[],
  read: (document: unknown) => Result<T>,
): Listing<T> {
  const items: T[] = [];
  const damaged: { id: string; problem: Problem }[] = [];
  for (const document of documents) {
    const outcome = read(document);
    if (outcome.ok) items.push(outcome.value);
    else damaged.push({ id: idOf(document), problem: outcome.problem });
  }
  return { items, damaged };
}

function idOf(document: unknown): string {
  return typeof document === 'object' && document !== null && 'id' in document ? String(document.id) : '?';
}
