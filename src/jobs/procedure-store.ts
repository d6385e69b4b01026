import { procedureMistakes } from '../procedures/procedure-mistakes.ts';
import { PROCEDURE_FORMAT, Procedure } from '../procedures/procedure.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument, readListing } from '../storage/parse-document.ts';
import { storedEqual } from './stored-equal.ts';

/** The procedures for choice. */
export interface ProcedureListing {
  /** The shipped ones first, then the copies by title and revision. */
  readonly items: readonly Procedure[];
  readonly damaged: readonly { readonly id: string; readonly problem: Problem }[];
}

export interface ProcedureStore {
  list(): Promise<Result<ProcedureListing>>;
  /**
   * Keeps a copy, or a new revision of one, under an id of its own. Refuses what has mistakes (the first of `procedureMistakes`), a shipped
   * id (`job.procedure-shipped`), and an id that is kept already with other content (`job.procedure-kept`): a revision never changes.
   */
  put(procedure: unknown): Promise<Result<Procedure>>;
  /** Takes a copy away. Jobs hold copies of their own and are not touched. */
  remove(id: string): Promise<Result<void>>;
}

const WHAT = 'Procedure';

/** Steps of the format of procedures, n to n + 1. */
const STEPS: readonly FormatStep[] = [];

/** A document as a procedure of the current format. Problems: `storage.damaged`, `storage.newer-document`. */
export function readProcedure(document: unknown): Result<Procedure> {
  const current = migrate(WHAT, document, STEPS);
  return current.ok ? parseDocument(Procedure, WHAT, current.value) : current;
}

/** The copies in the database beside the procedures that Meniscus ships, which nobody can change. */
export function procedureStore(database: Database, shipped: readonly Procedure[]): ProcedureStore {
  const isShipped = (id: string) => shipped.some((one) => one.id === id);
  return {
    list: () =>
      database.read(['procedures'], async (tx) => {
        const { items, damaged } = readListing(await tx.list('procedures'), readProcedure);
        return ok({ items: [...shipped, ...items.toSorted(byTitle)], damaged });
      }),
    put: async (document) => {
      const read = readProcedure(document);
      if (!read.ok) return read;
      const procedure = read.value;
      if (isShipped(procedure.id)) return failed(problem('job.procedure-shipped', { id: procedure.id }));
      const [mistake] = procedureMistakes(procedure);
      if (mistake) return failed(mistake);
      return database.write(['procedures'], async (tx) => {
        const kept = await tx.get('procedures', procedure.id);
        if (kept !== undefined && !storedEqual(kept, procedure))
          return failed(problem('job.procedure-kept', { id: procedure.id }));
        await tx.put('procedures', procedure);
        return ok(procedure);
      });
    },
    remove: async (id) => {
      if (isShipped(id)) return failed(problem('job.procedure-shipped', { id }));
      return database.write(['procedures'], async (tx) => ok(await tx.remove('procedures', id)));
    },
  };
}

/** A copy for editing: the same content under a new id and revision. */
export const copyOfProcedure = (procedure: Procedure, id: string, revision: string): Procedure => ({
  ...procedure,
  formatVersion: PROCEDURE_FORMAT,
  id,
  revision,
});

const byTitle = (a: Procedure, b: Procedure): number =>
  a.title.localeCompare(b.title) || a.revision.localeCompare(b.revision, undefined, { numeric: true });
