import { problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import type { StoreReader } from '../storage/database.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument } from '../storage/parse-document.ts';
import { jobValues } from './job-values.ts';
import { StoredJob } from './job.ts';

/** What a job is called in problems. */
export const JOB_WORD = 'Job';

/** Steps of the format of jobs, n to n + 1. Each old version keeps a golden file in tests/jobs. */
const STEPS: readonly FormatStep[] = [];

/** A stored document as a job of the current format. Problems: `storage.damaged`, `storage.newer-document`. */
export function readJob(document: unknown): Result<StoredJob> {
  const current = migrate(JOB_WORD, document, STEPS);
  return current.ok ? parseDocument(StoredJob, JOB_WORD, current.value) : current;
}

/** The job within a transaction; `storage.not-found` where there is none. */
export async function jobIn(tx: StoreReader, id: string): Promise<Result<StoredJob>> {
  const document = await tx.get('jobs', id);
  return document === undefined
    ? failed(problem('storage.not-found', { what: JOB_WORD, id }))
    : readJob(document);
}

/** Whether the job of a run is signed. One that is not there or cannot be read is not known to be: its runs are still kept. */
export async function jobIsSigned(tx: StoreReader, jobId: string | null): Promise<boolean> {
  const job = jobId === null ? null : await jobIn(tx, jobId);
  return job?.ok === true && jobValues(job.value).state === 'signed';
}
