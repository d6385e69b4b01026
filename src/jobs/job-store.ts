import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database, StoreReader, StoreWriter } from '../storage/database.ts';
import { readListing, type Listing } from '../storage/parse-document.ts';
import { engineHistory, type EngineIdentity, type PastJob } from './engine-history.ts';
import { heardInRuns } from './heard-in-runs.ts';
import type { JobEntry } from './job-entry.ts';
import { nextJobValues, STARTING_JOB_VALUES, whyRefused } from './job-values.ts';
import type { StoredJob } from './job.ts';
import { mendedRows, putRow, wholeRows } from './job-rows.ts';
import { summaryOf, type JobSummary } from './job-summary.ts';
import { JOB_WORD, jobIn, readJob } from './read-job.ts';
import { readRun } from './run-store.ts';
import type { StoredRun } from './run.ts';
import { goesOn, storedEqual } from './stored-equal.ts';

/** A job with its runs, oldest first, as they stood together at one moment. */
export interface JobWithRuns {
  readonly job: StoredJob;
  readonly runs: Listing<StoredRun>;
}

export interface JobStore {
  /**
   * Keeps a new job, or one with more entries. Refuses whatever would lose or change what was kept: `storage.entries-dropped` where another tab has
   * added something since, `storage.job-fixed`, `storage.job-signed`. Gives the job as it is kept.
   */
  put(job: StoredJob): Promise<Result<StoredJob>>;
  /**
   * Adds entries to the job as it lies there: what another tab added stands before them, and nothing is lost. All of them or, with the first
   * one that the job cannot take, none. Gives the job as it stands then.
   */
  addEntries(id: string, entries: readonly JobEntry[]): Promise<Result<StoredJob>>;
  /**
   * Adds what the job's runs heard on the bus and the job does not know yet (heard-in-runs.ts), in one transaction: two tabs that do it at the
   * same moment enter it once. Gives the job as it stands then.
   */
  enterHeard(id: string, atIso: string): Promise<Result<StoredJob>>;
  get(id: string): Promise<Result<StoredJob>>;
  /** The rows of all jobs, last worked on first; damaged jobs are named beside them. A row that is damaged or missing is made again from its job. */
  summaries(): Promise<Result<Listing<JobSummary>>>;
  /** The runs of a job, oldest first; damaged ones are named beside them. */
  runsOf(jobId: string): Promise<Result<Listing<StoredRun>>>;
  withRuns(id: string): Promise<Result<JobWithRuns>>;
  /** Other jobs on the same engine or vehicle, last worked on first. */
  historyOf(engine: EngineIdentity, exceptJobId: string): Promise<Result<readonly PastJob[]>>;
}

const JOB_STORES = ['jobs', 'jobSummaries'] as const;

/** Jobs in the database. Nothing here throws: every failure is a problem. */
export function jobStore(database: Database): JobStore {
  const summaries = () => allSummaries(database);
  return {
    put: async (job) => {
      const parsed = readJob(job);
      if (!parsed.ok) return parsed;
      return database.write(JOB_STORES, async (tx) => {
        const stored = await jobIn(tx, job.id);
        if (!stored.ok && stored.problem.code !== 'storage.not-found') return stored;
        const objection = jobObjection(stored.ok ? stored.value : null, parsed.value);
        return objection ? failed(objection) : keepJob(tx, parsed.value);
      });
    },
    addEntries: (id, entries) =>
      database.write(JOB_STORES, async (tx) => {
        const stored = await jobIn(tx, id);
        if (!stored.ok) return stored;
        const added = readJob({ ...stored.value, entries: [...stored.value.entries, ...entries] });
        if (!added.ok) return added;
        const objection = jobObjection(stored.value, added.value);
        return objection ? failed(objection) : keepJob(tx, added.value);
      }),
    enterHeard: (id, atIso) => database.write([...JOB_STORES, 'runs'], (tx) => keepHeard(tx, id, atIso)),
    get: (id) => database.read(['jobs'], (tx) => jobIn(tx, id)),
    summaries,
    runsOf: (jobId) => database.read(['runs'], async (tx) => ok(await runsIn(tx, jobId))),
    withRuns: (id) =>
      database.read(['jobs', 'runs'], async (tx) => {
        const job = await jobIn(tx, id);
        return job.ok ? ok({ job: job.value, runs: await runsIn(tx, id) }) : job;
      }),
    historyOf: async (engine, exceptJobId) => {
      const all = await summaries();
      return all.ok ? ok(engineHistory(all.value.items, engine, exceptJobId)) : all;
    },
  };
}

async function keepHeard(tx: StoreWriter, id: string, atIso: string): Promise<Result<StoredJob>> {
  const stored = await jobIn(tx, id);
  if (!stored.ok) return stored;
  const { items } = await runsIn(tx, id);
  const heard = heardInRuns(stored.value, items, atIso);
  if (heard.length === 0) return stored;
  return keepJob(tx, { ...stored.value, entries: [...stored.value.entries, ...heard] });
}

/** Writes the job and its row. The time of the last change is always that of its last entry. */
export async function keepJob(tx: StoreWriter, job: StoredJob): Promise<Result<StoredJob>> {
  const kept = { ...job, updatedAt: job.entries.at(-1)?.atIso ?? job.createdAt };
  await tx.put('jobs', kept);
  await putRow(tx, summaryOf(kept));
  return ok(kept);
}

/** What is fixed from the first moment. */
const FIXED = ['createdAt', 'scenarioId', 'procedure'] as const;

/** Why a job may not be kept in place of what lies there; null where it may. */
export function jobObjection(before: StoredJob | null, after: StoredJob): Problem | null {
  const { id } = after;
  const changed = before && FIXED.find((field) => !storedEqual(before[field], after[field]));
  if (changed) return problem('storage.job-fixed', { id, what: changed });
  if (before && !goesOn(before.entries, after.entries))
    return problem('storage.entries-dropped', { what: JOB_WORD, id });
  const held = before?.entries.length ?? 0;
  let values = after.entries.slice(0, held).reduce(nextJobValues, STARTING_JOB_VALUES);
  for (const entry of after.entries.slice(held)) {
    const refused = whyRefused(values, entry, id);
    if (refused) return refused;
    values = nextJobValues(values, entry);
  }
  return null;
}

async function runsIn(tx: StoreReader, jobId: string): Promise<Listing<StoredRun>> {
  const listing = readListing(await tx.listRunsOf(jobId), readRun);
  return { ...listing, items: oldestFirst(listing.items, ({ createdAt }) => createdAt) };
}

async function allSummaries(database: Database): Promise<Result<Listing<JobSummary>>> {
  const whole = await database.read(JOB_STORES, async (tx) => ok(await wholeRows(tx)));
  if (!whole.ok) return whole;
  if (whole.value) return ok({ items: newestFirst(whole.value), damaged: [] });
  const written = await database.write(JOB_STORES, async (tx) => {
    const rows = await mendedRows(tx);
    for (const pack of rows.packs) await tx.put('jobSummaries', pack);
    return ok(rows);
  });
  // Where there is no room to write, the list is still shown.
  const rows = written.ok ? written : await database.read(JOB_STORES, async (tx) => ok(await mendedRows(tx)));
  return rows.ok ? ok({ items: newestFirst(rows.value.items), damaged: rows.value.damaged }) : rows;
}

const newestFirst = (rows: readonly JobSummary[]): readonly JobSummary[] =>
  oldestFirst(rows, ({ updatedAt }) => updatedAt).toReversed();

/** Oldest first. Instants are compared, not texts: they may have different offsets. Each is read once, not at each comparison. */
const oldestFirst = <T>(items: readonly T[], instant: (item: T) => string): readonly T[] =>
  items
    .map((item) => ({ item, ms: Date.parse(instant(item)) }))
    .toSorted((a, b) => a.ms - b.ms)
    .map(({ item }) => item);
