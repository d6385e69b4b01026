import { storedEqual } from '../jobs/stored-equal.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument, readListing, type Listing } from '../storage/parse-document.ts';
import { caseSetMistakes } from './case-set-mistakes.ts';
import { CaseSet } from './case-set.ts';
import { findCase } from './find-case.ts';
import type { TrainingCase } from './draw-case.ts';
import { byEnd, mergeResults, type MergedResults } from './merge-results.ts';
import { TrainingResult } from './training-result.ts';

/** The case sets for choice: the shipped ones first, then those that were brought, by title. */
export interface SetListing {
  readonly sets: readonly CaseSet[];
  readonly damaged: readonly Problem[];
}

/** Case sets and results of this browser. */
export interface TrainingStore {
  sets(): Promise<Result<SetListing>>;
  /** Keeps a set. One that is here already is left as it is; another one under the same id is refused (`training.set-kept`). */
  addSet(set: CaseSet): Promise<Result<void>>;
  /** The case of a job, drawn again from the sets that are here. Problems: those of `findCase`. */
  caseOf(scenarioId: string | null): Promise<Result<TrainingCase>>;
  /** All results, oldest first; damaged ones are named beside them. */
  results(): Promise<Result<Listing<TrainingResult>>>;
  /** The result of a job; null where its truth was not shown yet. */
  resultOf(jobId: string): Promise<Result<TrainingResult | null>>;
  /** Keeps the end of a case. The first end counts: gives what is kept, the given one or one from before. */
  end(result: TrainingResult): Promise<Result<TrainingResult>>;
  /** Puts results of other machines beside those that are here; nothing is replaced. */
  bring(results: readonly TrainingResult[]): Promise<Result<MergedResults>>;
}

const SET_STEPS: readonly FormatStep[] = [];
const RESULT_STEPS: readonly FormatStep[] = [];

/** A stored set: its form, and that its content fits together. */
function readSet(document: unknown): Result<CaseSet> {
  const current = migrate('Case set', document, SET_STEPS);
  const read = current.ok ? parseDocument(CaseSet, 'Case set', current.value) : current;
  if (!read.ok) return read;
  const [mistake] = caseSetMistakes(read.value);
  return mistake ? failed(mistake) : read;
}

function readResult(document: unknown): Result<TrainingResult> {
  const current = migrate('Training result', document, RESULT_STEPS);
  return current.ok ? parseDocument(TrainingResult, 'Training result', current.value) : current;
}

export function trainingStore(database: Database, shipped: readonly CaseSet[]): TrainingStore {
  const sets = () =>
    database.read(['caseSets'], async (tx) => {
      const { items, damaged } = readListing(await tx.list('caseSets'), readSet);
      const own = items.filter(({ id }) => !shipped.some((each) => each.id === id));
      return ok({
        sets: [...shipped, ...own.toSorted((a, b) => a.title.localeCompare(b.title))],
        damaged: damaged.map((each) => each.problem),
      });
    });
  return {
    sets,
    addSet: (set) => addSet(database, shipped, set),
    caseOf: async (scenarioId) => {
      const listed = await sets();
      return listed.ok ? findCase(scenarioId, listed.value.sets) : listed;
    },
    ...resultsIn(database),
  };
}

const addSet = (database: Database, shipped: readonly CaseSet[], set: CaseSet): Promise<Result<void>> =>
  database.write(['caseSets'], async (tx): Promise<Result<void>> => {
    const read = readSet(set);
    if (!read.ok) return read;
    const kept = shipped.find(({ id }) => id === set.id) ?? (await tx.get('caseSets', set.id));
    if (kept === undefined) await tx.put('caseSets', read.value);
    else if (!storedEqual(kept, read.value)) return failed(problem('training.set-kept', { id: set.id }));
    return ok(undefined);
  });

const resultsIn = (database: Database): Pick<TrainingStore, 'results' | 'resultOf' | 'end' | 'bring'> => ({
  results: () =>
    database.read(['trainingResults'], async (tx) => {
      const { items, damaged } = readListing(await tx.list('trainingResults'), readResult);
      return ok({ items: byEnd(items), damaged });
    }),
  resultOf: (jobId) =>
    database.read(['trainingResults'], async (tx): Promise<Result<TrainingResult | null>> => {
      const kept = await tx.get('trainingResults', jobId);
      return kept === undefined ? ok(null) : readResult(kept);
    }),
  end: (result) =>
    database.write(['trainingResults'], async (tx) => {
      const kept = await tx.get('trainingResults', result.id);
      if (kept !== undefined) return readResult(kept);
      await tx.put('trainingResults', result);
      return ok(result);
    }),
  bring: (brought) =>
    database.write(['trainingResults'], async (tx) => {
      const { items } = readListing(await tx.list('trainingResults'), readResult);
      const merged = mergeResults(items, brought);
      for (const result of merged.added) await tx.put('trainingResults', result);
      return ok(merged);
    }),
});
