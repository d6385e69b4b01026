import type { Problem } from '../problems/problem.ts';
import { problem } from '../problems/problem.ts';
import { ok, type Result } from '../problems/result.ts';
import { Chunk } from '../recordings/chunk.ts';
import { readHeader } from '../recordings/recording-schema.ts';
import type { RecordingHeader } from '../recordings/recording.ts';
import type { Database, StoreReader } from '../storage/database.ts';
import { parseDocument, readListing } from '../storage/parse-document.ts';
import type { JobFileContents } from './job-file.ts';
import type { StoredJob } from './job.ts';
import { StoredPhoto } from './photo.ts';
import { jobIn } from './read-job.ts';
import { readRun } from './run-store.ts';
import type { StoredRun } from './run.ts';

/** Everything of a job, and what of it is not there or cannot be read: the file lacks that, and the person must know before it is handed over. */
export interface CollectedJob {
  readonly contents: JobFileContents;
  readonly missing: readonly Problem[];
}

/** Reads a whole job in one transaction, so that it is of one moment. */
export function collectJob(database: Database, jobId: string): Promise<Result<CollectedJob>> {
  return database.read(['jobs', 'runs', 'recordings', 'chunks', 'photos'], async (tx) => {
    const job = await jobIn(tx, jobId);
    if (!job.ok) return job;
    const missing: Problem[] = [];
    const runs = readListing(await tx.listRunsOf(jobId), readRun);
    missing.push(...runs.damaged.map(({ problem: found }) => found));
    const recordings: RecordingHeader[] = [];
    const chunks: Chunk[] = [];
    for (const id of recordingIds(runs.items)) {
      const header = await headerOf(tx, id);
      if (!header.ok) missing.push(header.problem);
      else {
        recordings.push(header.value);
        chunks.push(...(await chunksOf(tx, id, missing)));
      }
    }
    const photos: StoredPhoto[] = [];
    for (const id of photoIds(job.value, runs.items)) {
      const photo = await photoOf(tx, id);
      if (photo.ok) photos.push(photo.value);
      else missing.push(photo.problem);
    }
    return ok({ contents: { job: job.value, runs: runs.items, recordings, chunks, photos }, missing });
  });
}

const recordingIds = (runs: readonly StoredRun[]): readonly string[] => [
  ...new Set(runs.flatMap(({ recordingId }) => (recordingId === null ? [] : [recordingId]))),
];

/** The photographs that a job and its runs name. */
export function photoIds(job: StoredJob, runs: readonly StoredRun[]): readonly string[] {
  const ofJob = job.entries.flatMap((entry) => (entry.kind === 'note' ? entry.photoIds : []));
  const ofRuns = runs.flatMap(({ entries }) =>
    entries.flatMap((entry): readonly string[] => {
      if (entry.kind === 'photo') return [entry.photoId];
      if (entry.kind === 'observation') return entry.photoIds;
      return entry.kind === 'volume' && entry.photo ? [entry.photo.photoId] : [];
    }),
  );
  return [...new Set([...ofJob, ...ofRuns])];
}

const notFound = (what: string, id: string): Result<never> => ({
  ok: false,
  problem: problem('storage.not-found', { what, id }),
});

async function headerOf(tx: StoreReader, id: string): Promise<Result<RecordingHeader>> {
  const document = await tx.get('recordings', id);
  return document === undefined ? notFound('Recording', id) : readHeader(document);
}

async function photoOf(tx: StoreReader, id: string): Promise<Result<StoredPhoto>> {
  const document = await tx.get('photos', id);
  return document === undefined
    ? notFound('Photograph', id)
    : parseDocument(StoredPhoto, 'Photograph', document);
}

/** The pieces of a recording, in order. */
export async function chunksOf(
  tx: StoreReader,
  id: string,
  missing: Problem[] = [],
): Promise<readonly Chunk[]> {
  const documents = await tx.list('chunks', { from: [id, 0], to: [id, Number.MAX_SAFE_INTEGER] });
  const { items, damaged } = readListing(documents, (one) =>
    parseDocument(Chunk, 'Piece of a recording', one),
  );
  if (damaged.length > 0) missing.push(problem('storage.chunk-missing', { id }));
  return items;
}
