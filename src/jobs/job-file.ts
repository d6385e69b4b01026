import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { Chunk } from '../recordings/chunk.ts';
import { readHeader } from '../recordings/recording-schema.ts';
import type { RecordingHeader } from '../recordings/recording.ts';
import { parseDocument } from '../storage/parse-document.ts';
import { fromExactJson, toExactJson } from './job-file-json.ts';
import type { StoredJob } from './job.ts';
import { StoredPhoto } from './photo.ts';
import { readJob } from './read-job.ts';
import { readRun } from './run-store.ts';
import type { StoredRun } from './run.ts';
import { startSha256 } from './sha-256.ts';

/** Everything of one job. Sheets lie in the runs, the procedure in the job. */
export interface JobFileContents {
  readonly job: StoredJob;
  readonly runs: readonly StoredRun[];
  readonly recordings: readonly RecordingHeader[];
  readonly chunks: readonly Chunk[];
  readonly photos: readonly StoredPhoto[];
}

/** Who wrote the file and when; the file says it in its first line. */
export interface JobFileOrigin {
  readonly program: string;
  readonly writtenAt: string;
}

/** What the first line calls the file, and the version of its form (docs/job-file.md). */
export const JOB_FILE_FORMAT = 'meniscus job';
export const JOB_FILE_VERSION = 1;

/** A file with more, unpacked, is refused: a browser could not hold it, and no job comes near. Bytes. */
export const MOST_JOB_FILE_BYTES = 1_000_000_000;

const LINE_END = Uint8Array.of(10);
const KINDS = ['job', 'run', 'recording', 'chunk', 'photo'] as const;
type Kind = (typeof KINDS)[number];

/** The lines of a job file as bytes, each with its line end: first what it is, then a document a line, last the SHA-256 of all before. */
export function* jobFileLines(contents: JobFileContents, origin: JobFileOrigin): Generator<Uint8Array> {
  const encoder = new TextEncoder();
  const hash = startSha256();
  const line = (text: string): Uint8Array => {
    const bytes = encoder.encode(`${text}\n`);
    hash.update(bytes);
    return bytes;
  };
  const documents = documentsOf(contents);
  const counts = Object.fromEntries(KINDS.map((kind) => [kind, documents[kind].length]));
  const first = {
    format: JOB_FILE_FORMAT,
    version: JOB_FILE_VERSION,
    ...origin,
    jobId: contents.job.id,
    counts,
  };
  yield line(JSON.stringify(first));
  for (const kind of KINDS)
    for (const document of documents[kind])
      yield line(`{"kind":"${kind}","document":${toExactJson(document)}}`);
  yield encoder.encode(`${JSON.stringify({ kind: 'end', sha256: hash.hex() })}\n`);
}

const documentsOf = ({ job, runs, recordings, chunks, photos }: JobFileContents) =>
  ({ job: [job], run: runs, recording: recordings, chunk: chunks, photo: photos }) satisfies Record<
    Kind,
    readonly object[]
  >;

/** Takes the lines of a job file one by one, without their line ends. The first problem ends it; nothing is ever half read. */
export interface JobFileReader {
  /** A problem as soon as the file can be told to be none, newer or damaged. */
  take(line: Uint8Array): Problem | null;
  /** All of it, once the last line was there and its SHA-256 fits. */
  end(): Result<JobFileContents>;
}

/**
 * Starts reading. Problems: `job.not-a-job-file`, `job.newer-job-file`, `job.file-damaged`, and those of its documents (`storage.damaged`,
 * `storage.newer-document`).
 */
export function startJobFileReader(): JobFileReader {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const hash = startSha256();
  const documents: Record<Kind, unknown[]> = { job: [], run: [], recording: [], chunk: [], photo: [] };
  let first: unknown = null;
  let sum: string | null = null;
  const take = (line: Uint8Array): Problem | null => {
    if (sum !== null) return damaged('something follows its last line');
    const read = lineOf(line, decoder, first === null);
    if (!read.ok) return read.problem;
    if (first === null) {
      first = read.value;
      const objection = headerObjection(first);
      if (objection) return objection;
    } else if (read.value.kind === 'end') {
      sum = String(read.value.sha256);
      return sum === hash.hex() ? null : damaged('its check sum does not fit');
    } else {
      const kind = KINDS.find((one) => one === read.value.kind);
      if (!kind) return damaged('it holds something that no job file of its version does');
      documents[kind].push(read.value.document);
    }
    hash.update(line);
    hash.update(LINE_END);
    return null;
  };
  const end = (): Result<JobFileContents> => {
    if (first === null) return failed(problem('job.not-a-job-file'));
    if (sum === null) return failed(damaged('its end is missing'));
    return contentsOf(first, documents);
  };
  return { take, end };
}

const damaged = (detail: string): Problem => problem('job.file-damaged', { detail });

function lineOf(
  line: Uint8Array,
  decoder: TextDecoder,
  isFirst: boolean,
): Result<Readonly<Record<string, unknown>>> {
  try {
    const value = fromExactJson(decoder.decode(line));
    if (typeof value === 'object' && value !== null) return ok(value as Record<string, unknown>);
  } catch {
    // Told below: the words of the JSON reader help nobody.
  }
  return failed(isFirst ? problem('job.not-a-job-file') : damaged('a line of it cannot be read'));
}

function headerObjection(first: unknown): Problem | null {
  const { format, version } = first as { format?: unknown; version?: unknown };
  if (format !== JOB_FILE_FORMAT) return problem('job.not-a-job-file');
  if (typeof version !== 'number') return damaged('it does not say its version');
  return version > JOB_FILE_VERSION ? problem('job.newer-job-file', { version }) : null;
}

/** The documents, each parsed, and whether they belong together. */
function contentsOf(first: unknown, documents: Readonly<Record<Kind, unknown[]>>): Result<JobFileContents> {
  const { counts } = first as { counts?: Partial<Record<string, unknown>> };
  const missing = KINDS.find((kind) => counts?.[kind] !== documents[kind].length);
  if (missing)
    return failed(
      damaged(`it holds ${documents[missing].length} of ${String(counts?.[missing])} (${missing})`),
    );
  const jobs = all(documents.job, readJob);
  if (!jobs.ok) return jobs;
  const [job, ...more] = jobs.value;
  if (!job || more.length > 0) return failed(damaged('it does not hold one job'));
  const runs = all(documents.run, readRun);
  if (!runs.ok) return runs;
  const recordings = all(documents.recording, readHeader);
  if (!recordings.ok) return recordings;
  const chunks = all(documents.chunk, (one) => parseDocument(Chunk, 'Piece of a recording', one));
  if (!chunks.ok) return chunks;
  const photos = all(documents.photo, (one) => parseDocument(StoredPhoto, 'Photograph', one));
  if (!photos.ok) return photos;
  const contents = {
    job,
    runs: runs.value,
    recordings: recordings.value,
    chunks: chunks.value,
    photos: photos.value,
  };
  const stray = strayIn(contents);
  return stray ? failed(damaged(stray)) : ok(contents);
}

function all<T>(documents: readonly unknown[], read: (one: unknown) => Result<T>): Result<readonly T[]> {
  const values: T[] = [];
  for (const document of documents) {
    const one = read(document);
    if (!one.ok) return one;
    values.push(one.value);
  }
  return ok(values);
}

function strayIn({ job, runs, recordings, chunks, photos }: JobFileContents): string | null {
  const heads = new Set(recordings.map(({ id }) => id));
  if (runs.some(({ jobId }) => jobId !== job.id)) return 'a run of it belongs to another job';
  if (chunks.some(({ recordingId }) => !heads.has(recordingId)))
    return 'a piece belongs to no recording of it';
  const keys = [
    ...runs.map(({ id }) => `run ${id}`),
    ...recordings.map(({ id }) => `recording ${id}`),
    ...photos.map(({ id }) => `photo ${id}`),
    ...chunks.map(({ recordingId, sequence }) => `chunk ${sequence} ${recordingId}`),
  ];
  return new Set(keys).size === keys.length ? null : 'it holds something twice';
}
