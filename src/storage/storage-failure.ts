import { problem, type Problem } from '../problems/problem.ts';

/** What a failed request or transaction means to a person. Unknown failures keep the browser's own words. */
export function storageProblem(error: unknown): Problem {
  const name = typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';
  if (name === 'QuotaExceededError') return problem('storage.full');
  // The connection was closed, or cut by the browser: no new transaction can be made.
  if (name === 'InvalidStateError') return problem('storage.closed');
  const detail = error instanceof Error && error.message !== '' ? error.message : name || String(error);
  return problem('storage.failed', { detail });
}
