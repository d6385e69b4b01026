import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import type { StoreReader, StoreWriter } from '../storage/database.ts';
import type { Listing } from '../storage/parse-document.ts';
import { JobSummary, readSummary, summaryOf } from './job-summary.ts';
import { jobIn } from './read-job.ts';

/**
 * The rows of some jobs in one document, as the text of a JSON list in which each row is the list of its values: the browser hands over 256 short
 * texts in a third of the time that it takes for ten thousand documents. A job's row lies in the pack that its id says. Where the fields or their
 * order change, the version goes up: packs of another version are made again from the jobs.
 */
const Pack = z.strictObject({ id: z.string(), formatVersion: z.literal(1), rows: z.string() });
type Pack = z.infer<typeof Pack>;

const FIELDS = Object.keys(JobSummary.shape) as readonly (keyof JobSummary)[];

/** Few enough for a quick list, enough that a pack of ten thousand jobs is some kilobytes and quickly written. */
const PACKS = 256;

/** The pack of a job: FNV-1a of its id (offset basis and prime of 32 bits, draft-eastlake-fnv), which spreads ids of any form evenly. */
export function packIdOf(jobId: string): string {
  let hash = 0x811c9dc5;
  for (let place = 0; place < jobId.length; place++)
    hash = Math.imul(hash ^ jobId.charCodeAt(place), 0x01000193);
  return String((hash >>> 0) % PACKS);
}

/** Puts the row into its pack; belongs into the transaction that puts the job. What cannot be read of the pack is made again with the next list. */
export async function putRow(tx: StoreWriter, row: JobSummary): Promise<void> {
  const id = packIdOf(row.id);
  const others = rowsOf(await tx.get('jobSummaries', id)).filter((other) => other.id !== row.id);
  await tx.put('jobSummaries', packOf(id, [...others, row]));
}

/** All rows, where as many can be read as there are jobs; null where one is damaged, missing or too many. */
export async function wholeRows(tx: StoreReader): Promise<readonly JobSummary[] | null> {
  const [documents, jobs] = await Promise.all([tx.list('jobSummaries'), tx.count('jobs')]);
  const rows = rowsById(documents);
  return rows.size === jobs ? [...rows.values()] : null;
}

/** The rows of all jobs, the jobs that cannot be read, and the packs that should be put because they are not as they ought to be. */
export interface MendedRows extends Listing<JobSummary> {
  readonly packs: readonly Pack[];
}

/** A row for each job that lies there: what is missing is made again from its job, and what belongs to no job is left out. */
export async function mendedRows(tx: StoreReader): Promise<MendedRows> {
  const documents = await tx.list('jobSummaries');
  const known = rowsById(documents);
  const ids = (await tx.keys('jobs')).map(String);
  const rows = new Map(ids.flatMap((id) => (known.has(id) ? [[id, known.get(id)!] as const] : [])));
  const damaged: { id: string; problem: Problem }[] = [];
  const missing = ids.filter((id) => !rows.has(id));
  // Some hundreds at once: one by one the browser answers far slower, and all together would lie in memory.
  for (let from = 0; from < missing.length; from += 500) {
    const some = missing.slice(from, from + 500);
    const jobs = await Promise.all(some.map((id) => jobIn(tx, id)));
    for (const [place, job] of jobs.entries())
      if (job.ok) rows.set(some[place]!, summaryOf(job.value));
      else damaged.push({ id: some[place]!, problem: job.problem });
  }
  const items = [...rows.values()];
  return { items, damaged, packs: changedPacks(documents, items) };
}

/** The packs of these rows, where the documents that lie there are not the same. */
function changedPacks(documents: readonly unknown[], rows: readonly JobSummary[]): readonly Pack[] {
  const stored = new Map<string, string>();
  for (const document of documents) {
    const pack = Pack.safeParse(document);
    if (pack.success) stored.set(pack.data.id, pack.data.rows);
  }
  const wanted = new Map([...stored.keys()].map((id): [string, JobSummary[]] => [id, []]));
  for (const row of rows) {
    const id = packIdOf(row.id);
    const pack = wanted.get(id);
    if (pack) pack.push(row);
    else wanted.set(id, [row]);
  }
  return [...wanted].map(([id, some]) => packOf(id, some)).filter(({ id, rows }) => stored.get(id) !== rows);
}

const rowsById = (documents: readonly unknown[]): ReadonlyMap<string, JobSummary> =>
  new Map(documents.flatMap(rowsOf).map((row) => [row.id, row]));

const packOf = (id: string, rows: readonly JobSummary[]): Pack => ({
  id,
  formatVersion: 1,
  rows: JSON.stringify(rows.map((row) => FIELDS.map((field) => row[field]))),
});

/** The rows of a pack that can be read and belong into it. */
function rowsOf(document: unknown): JobSummary[] {
  const pack = Pack.safeParse(document);
  if (!pack.success) return [];
  return listIn(pack.data.rows).flatMap((values) => {
    const row = readSummary(rowOf(values));
    return row.ok && packIdOf(row.value.id) === pack.data.id ? [row.value] : [];
  });
}

function rowOf(values: unknown): unknown {
  if (!Array.isArray(values) || values.length !== FIELDS.length) return values;
  const row: Record<string, unknown> = {};
  for (const [place, field] of FIELDS.entries()) row[field] = values[place];
  return row;
}

function listIn(text: string): readonly unknown[] {
  try {
    const list: unknown = JSON.parse(text);
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}
