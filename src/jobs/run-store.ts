import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database, StoreReader, StoreWriter } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument, readListing, type Listing } from '../storage/parse-document.ts';
import { jobIsSigned } from './read-job.ts';
import type { RunEntry } from './run-entry.ts';
import { StoredRun, type RunSource } from './run.ts';
import { goesOn, storedEqual } from './stored-equal.ts';

/** What judging a run anew may change of it. */
export type RunGrade = Partial<
  Pick<StoredRun, 'verdict' | 'gradingRevision' | 'measurementSummary' | 'valueSummary' | 'state' | 'title'>
>;

export interface RunStore {
  /**
   * Keeps a new run, or a run with more entries. Refuses whatever would lose or change what was kept, and any change of a run whose job is signed
   * (`storage.job-signed`).
   */
  put(run: StoredRun): Promise<Result<void>>;
  /**
   * Adds entries to the run as it lies there: what another tab added stands before them, and nothing is lost. `judge` is given the run with all
   * of its entries and says what becomes of its verdict; it must answer at once. Gives the run as it is kept.
   */
  addEntries(
    id: string,
    entries: readonly RunEntry[],
    judge?: (run: StoredRun) => RunGrade,
  ): Promise<Result<StoredRun>>;
  get(id: string): Promise<Result<StoredRun>>;
  /** All runs, newest first; damaged ones are named beside them. */
  list(): Promise<Result<Listing<StoredRun>>>;
}

const WHAT = 'Run';

/** Steps of the format of runs, n to n + 1. Each old version keeps a golden file in tests/jobs. */
const STEPS: readonly FormatStep[] = [
  // Version 2 knows more entries and more of the source, all of which may be absent: one of version 1 holds as it stands.
  (run) => run,
  // Version 3 knows jobs and other kinds of check; until then every run was a crank delivery on its own.
  (run) => ({ ...run, jobId: null, kind: 'crank delivery', guide: null, valueSummary: null }),
];

/** A stored document as a run of the current format. */
export function readRun(document: unknown): Result<StoredRun> {
  const current = migrate(WHAT, document, STEPS);
  return current.ok ? parseDocument(StoredRun, WHAT, current.value) : current;
}

/** Runs in the database. Nothing here throws: every failure is a `storage.` problem. */
export function runStore(database: Database): RunStore {
  return {
    put: async (run) => {
      const parsed = readRun(run);
      if (!parsed.ok) return parsed;
      return database.write(['runs', 'jobs'], async (tx) => {
        const before = await runIn(tx, run.id);
        // A run that cannot be read is not written over.
        if (!before.ok && before.problem.code !== 'storage.not-found') return before;
        const kept = await keepRun(tx, before.ok ? before.value : null, parsed.value);
        return kept.ok ? ok(undefined) : kept;
      });
    },
    addEntries: (id, entries, judge = () => ({})) =>
      database.write(['runs', 'jobs'], async (tx) => {
        const before = await runIn(tx, id);
        if (!before.ok) return before;
        const longer = { ...before.value, entries: [...before.value.entries, ...entries] };
        const after = readRun({ ...longer, ...judge(longer) });
        return after.ok ? keepRun(tx, before.value, after.value) : after;
      }),
    get: (id) => database.read(['runs'], (tx) => runIn(tx, id)),
    list: () =>
      database.read(['runs'], async (tx) => {
        const listing = readListing(await tx.list('runs'), readRun);
        return ok({ ...listing, items: listing.items.toSorted(newestFirst) });
      }),
  };
}

const newestFirst = (a: StoredRun, b: StoredRun): number => Date.parse(b.createdAt) - Date.parse(a.createdAt);

async function runIn(tx: StoreReader, id: string): Promise<Result<StoredRun>> {
  const document = await tx.get('runs', id);
  return document === undefined
    ? failed(problem('storage.not-found', { what: WHAT, id }))
    : readRun(document);
}

async function keepRun(
  tx: StoreWriter,
  before: StoredRun | null,
  after: StoredRun,
): Promise<Result<StoredRun>> {
  if (before && storedEqual(before, after)) return ok(after); // a write in doubt that is made again
  const objection = before && objectionTo(before, after);
  if (objection) return failed(objection);
  if (await jobIsSigned(tx, after.jobId))
    return failed(problem('storage.job-signed', { id: after.jobId ?? '' }));
  await tx.put('runs', after);
  return ok(after);
}

/** What is fixed from the first moment. */
const FIXED = ['createdAt', 'jobId', 'check', 'kind', 'guide', 'sheet', 'crankSettings', 'vessel'] as const;
/** What may be named later, once. */
const NAMED_ONCE = ['found', 'deviceKey'] as const;

function objectionTo(before: StoredRun, after: StoredRun): Problem | null {
  const { id } = before;
  const changed = FIXED.find((field) => !storedEqual(before[field], after[field]));
  if (changed) return problem('storage.run-fixed', { id, what: changed });
  if (isOtherSource(before.source, after.source)) return problem('storage.run-fixed', { id, what: 'source' });
  if (before.recordingId !== null && before.recordingId !== after.recordingId)
    return problem('storage.run-fixed', { id, what: 'recording' });
  if (!goesOn(before.entries, after.entries)) return problem('storage.entries-dropped', { what: WHAT, id });
  const added = after.entries.length > before.entries.length;
  if (before.verdict !== null && !added && !storedEqual(before.verdict, after.verdict))
    return problem('storage.verdict-fixed', { id });
  return null;
}

/** Another source, or one of which something that was known would be lost or changed. */
function isOtherSource(before: RunSource, after: RunSource): boolean {
  const chosen = ({ adapter, device, scenarioId }: RunSource) => [adapter, device, scenarioId];
  if (!storedEqual(chosen(before), chosen(after))) return true;
  return NAMED_ONCE.some(
    (field) => (before[field] ?? null) !== null && !storedEqual(before[field], after[field]),
  );
}
