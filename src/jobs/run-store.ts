import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument, readListing, type Listing } from '../storage/parse-document.ts';
import { StoredRun, type RunSource } from './run.ts';

export interface RunStore {
  /** Keeps a new run, or a run with more entries. Refuses whatever would lose or change what was kept. */
  put(run: StoredRun): Promise<Result<void>>;
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
      return database.write(['runs'], async (tx) => {
        const stored = await tx.get('runs', run.id);
        const before = stored === undefined ? null : readRun(stored);
        if (before && !before.ok) return before; // a run that cannot be read is not written over
        const objection = before ? objectionTo(before.value, parsed.value) : null;
        if (objection) return failed(objection);
        await tx.put('runs', parsed.value);
        return ok(undefined);
      });
    },
    get: (id) =>
      database.read(['runs'], async (tx) => {
        const document = await tx.get('runs', id);
        return document === undefined
          ? failed(problem('storage.not-found', { what: WHAT, id }))
          : readRun(document);
      }),
    list: () =>
      database.read(['runs'], async (tx) => {
        const listing = readListing(await tx.list('runs'), readRun);
        return ok({ ...listing, items: listing.items.toSorted(newestFirst) });
      }),
  };
}

const newestFirst = (a: StoredRun, b: StoredRun): number => Date.parse(b.createdAt) - Date.parse(a.createdAt);

/** What is fixed from the first moment. */
const FIXED = ['createdAt', 'jobId', 'check', 'kind', 'guide', 'sheet', 'crankSettings', 'vessel'] as const;
/** What may be named later, once. */
const NAMED_ONCE = ['found', 'deviceKey'] as const;

function objectionTo(before: StoredRun, after: StoredRun): Problem | null {
  const { id } = before;
  const changed = FIXED.find((field) => !same(before[field], after[field]));
  if (changed) return problem('storage.run-fixed', { id, what: changed });
  if (isOtherSource(before.source, after.source)) return problem('storage.run-fixed', { id, what: 'source' });
  if (before.recordingId !== null && before.recordingId !== after.recordingId)
    return problem('storage.run-fixed', { id, what: 'recording' });
  const kept = after.entries.slice(0, before.entries.length);
  if (!same(before.entries, kept)) return problem('storage.entries-dropped', { id });
  const added = after.entries.length > before.entries.length;
  if (before.verdict !== null && !added && !same(before.verdict, after.verdict))
    return problem('storage.verdict-fixed', { id });
  return null;
}

/** Another source, or one of which something that was known would be lost or changed. */
function isOtherSource(before: RunSource, after: RunSource): boolean {
  const chosen = ({ adapter, device, scenarioId }: RunSource) => [adapter, device, scenarioId];
  if (!same(chosen(before), chosen(after))) return true;
  return NAMED_ONCE.some((field) => (before[field] ?? null) !== null && !same(before[field], after[field]));
}

/** Equal as stored. Both went through the same schema, so their keys stand in the same order. */
function same(a: unknown, b: unknown): boolean {
  const plain = (_key: string, value: unknown) =>
    typeof value === 'number' && !Number.isFinite(value) ? `${value}` : value;
  return JSON.stringify(a, plain) === JSON.stringify(b, plain);
}
