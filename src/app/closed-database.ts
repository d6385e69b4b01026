import type { Problem } from '../problems/problem.ts';
import { failed } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';

/** Stands in where nothing can be kept: every call answers with the reason, and the page goes on without. */
export function closedDatabase(problem: Problem): Database {
  return {
    read: () => Promise.resolve(failed(problem)),
    write: () => Promise.resolve(failed(problem)),
    close: () => undefined,
  };
}
