import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { readHeader } from '../recordings/recording-schema.ts';
import type { Database, StoreReader, StoreWriter } from '../storage/database.ts';
import { chunksOf } from './collect-job.ts';
import type { JobFileContents } from './job-file.ts';
import { jobObjection, keepJob } from './job-store.ts';
import type { StoredJob } from './job.ts';
import { jobIn } from './read-job.ts';
import { readRun } from './run-store.ts';
import type { StoredRun } from './run.ts';
import { goesOn, storedEqual } from './stored-equal.ts';

/** How what a file holds stands to what lies here. `longer`: the file goes on where ours ends; `conflicting`: both went on. */
export type Standing = 'new' | 'same' | 'longer' | 'shorter' | 'conflicting';

/** What an import would do, to be shown before it is done. */
export interface WeighedImport {
  readonly standing: Standing;
  /** In plain sentences, what is different; empty where nothing is. */
  readonly differences: readonly string[];
  /** What can be done: `bring` a new job, `extend` ours by the file, or keep the file beside ours as a `copy`. Empty: nothing to do, or refused. */
  readonly choices: readonly ImportChoice[];
  /** A recording or photograph that lies here under the same id with other content: then nothing can be brought. */
  readonly refused: Problem | null;
}
export type ImportChoice = 'bring' | 'extend' | 'copy';

const STORES = ['jobs', 'jobSummaries', 'runs', 'recordings', 'chunks', 'photos'] as const;

/** Compares a file with what lies here and changes nothing. */
export const weighImport = (database: Database, contents: JobFileContents): Promise<Result<WeighedImport>> =>
  database.read(STORES, (tx) => weighIn(tx, contents));

/**
 * Brings a file in, wholly or not at all, in one transaction. It is weighed once more within it: `job.import-moved` where the choice does not stand
 * any more. A copy gets a job id of its own, and so does each of its runs whose id is taken here; recordings and photographs keep theirs.
 * Gives the job as it is kept.
 */
export function importJob(
  database: Database,
  contents: JobFileContents,
  choice: ImportChoice,
  newId: () => string,
): Promise<Result<StoredJob>> {
  return database.write(STORES, async (tx) => {
    const weighed = await weighIn(tx, contents);
    if (!weighed.ok) return weighed;
    if (weighed.value.refused) return failed(weighed.value.refused);
    if (!weighed.value.choices.includes(choice)) return failed(problem('job.import-moved'));
    const brought = choice === 'copy' ? await copied(tx, contents, newId) : contents;
    const objection = jobObjection(null, brought.job);
    if (objection) return failed(objection);
    for (const run of brought.runs) await tx.put('runs', run);
    for (const header of brought.recordings) await tx.put('recordings', header);
    for (const chunk of brought.chunks) await tx.put('chunks', chunk);
    for (const photo of brought.photos) await tx.put('photos', photo);
    return keepJob(tx, brought.job);
  });
}

async function weighIn(tx: StoreReader, contents: JobFileContents): Promise<Result<WeighedImport>> {
  const stored = await jobIn(tx, contents.job.id);
  if (!stored.ok && stored.problem.code !== 'storage.not-found') return stored;
  const refused = await fixedContentObjection(tx, contents);
  const differences: string[] = [];
  const standings = [standingOfJob(stored.ok ? stored.value : null, contents.job, differences)];
  for (const run of contents.runs) {
    const standing = await standingOfRun(tx, run);
    if (!standing.ok) return standing;
    standings.push(standing.value);
    if (standing.value !== 'same')
      differences.push(`Run "${run.title}" of ${run.createdAt}: ${WORDS[standing.value]}.`);
  }
  for (const run of stored.ok ? await onlyHere(tx, contents) : []) {
    standings.push('shorter');
    differences.push(`Run "${run.title}" of ${run.createdAt}: only here.`);
  }
  const standing = joint(standings, stored.ok);
  return ok({ standing, differences, choices: refused ? [] : CHOICES[standing], refused });
}

const WORDS: Readonly<Record<Standing, string>> = {
  new: 'only in the file',
  same: 'the same',
  longer: 'the file has more of it',
  shorter: 'here is more of it',
  conflicting: 'it went on both here and in the file, or is another one',
};

const CHOICES: Readonly<Record<Standing, readonly ImportChoice[]>> = {
  new: ['bring'],
  same: [],
  longer: ['extend', 'copy'],
  shorter: ['copy'],
  conflicting: ['copy'],
};

/** What the parts come to together. Something more on both sides is a conflict. */
function joint([job, ...runs]: readonly Standing[], isHere: boolean): Standing {
  if (!isHere) return runs.some((standing) => standing !== 'new') ? 'conflicting' : 'new';
  const all = [job!, ...runs];
  const more = all.some((standing) => standing === 'longer' || standing === 'new');
  const less = all.includes('shorter');
  if (all.includes('conflicting') || (more && less)) return 'conflicting';
  return more ? 'longer' : less ? 'shorter' : 'same';
}

function standingOfJob(before: StoredJob | null, after: StoredJob, differences: string[]): Standing {
  if (!before) return 'new';
  const { entries: here } = before;
  const { entries: there } = after;
  const fixed = (['createdAt', 'scenarioId', 'procedure'] as const).find(
    (field) => !storedEqual(before[field], after[field]),
  );
  if (fixed) differences.push(`The ${fixed === 'createdAt' ? 'date' : fixed} of the job is another one.`);
  const shared = sharedLength(here, there);
  const kinds = (entries: StoredJob['entries']) =>
    entries
      .slice(shared)
      .map(({ kind }) => kind)
      .join(', ');
  if (there.length > shared) differences.push(`Only in the file: ${kinds(there)}.`);
  if (here.length > shared) differences.push(`Only here: ${kinds(here)}.`);
  return fixed ? 'conflicting' : growth(here, there);
}

function growth(here: readonly unknown[], there: readonly unknown[]): Standing {
  if (goesOn(here, there)) return there.length > here.length ? 'longer' : 'same';
  return goesOn(there, here) ? 'shorter' : 'conflicting';
}

const sharedLength = (a: readonly unknown[], b: readonly unknown[]): number => {
  const end = a.findIndex((entry, place) => !storedEqual(entry, b[place]));
  return end < 0 ? a.length : end;
};

async function standingOfRun(tx: StoreReader, run: StoredRun): Promise<Result<Standing>> {
  const document = await tx.get('runs', run.id);
  if (document === undefined) return ok('new');
  const stored = readRun(document);
  if (!stored.ok) return stored;
  const standing = growth(stored.value.entries, run.entries);
  if (!storedEqual(fixedOf(stored.value), fixedOf(run))) return ok('conflicting');
  return ok(standing === 'same' && !storedEqual(stored.value, run) ? 'conflicting' : standing);
}

const fixedOf = ({ createdAt, jobId, check, kind, guide, sheet, vessel, recordingId }: StoredRun) => ({
  createdAt,
  jobId,
  check,
  kind,
  guide,
  sheet,
  vessel,
  recordingId,
});

/** Runs that lie here and the file does not know. */
async function onlyHere(tx: StoreReader, { job, runs }: JobFileContents): Promise<readonly StoredRun[]> {
  const known = new Set(runs.map(({ id }) => id));
  return (await tx.listRunsOf(job.id)).flatMap((document) => {
    const run = readRun(document);
    return run.ok && !known.has(run.value.id) ? [run.value] : [];
  });
}

/** Recordings and photographs never change: the same id with other content is refused. */
async function fixedContentObjection(tx: StoreReader, contents: JobFileContents): Promise<Problem | null> {
  for (const header of contents.recordings) {
    const document = await tx.get('recordings', header.id);
    if (document === undefined) continue;
    const here = readHeader(document);
    const chunks = contents.chunks.filter(({ recordingId }) => recordingId === header.id);
    const same =
      here.ok && storedEqual(here.value, header) && storedEqual(await chunksOf(tx, header.id), chunks);
    if (!same) return problem('job.other-content', { what: 'Recording', id: header.id });
  }
  for (const photo of contents.photos) {
    const here = await tx.get('photos', photo.id);
    if (here !== undefined && !storedEqual(here, photo))
      return problem('job.other-content', { what: 'Photograph', id: photo.id });
  }
  return null;
}

/** The contents under a new job id. Runs whose id is taken here get a new one, and the entries that name them follow. */
async function copied(
  tx: StoreWriter,
  contents: JobFileContents,
  newId: () => string,
): Promise<JobFileContents> {
  const jobId = newId();
  const ids = new Map<string, string>();
  for (const { id } of contents.runs) ids.set(id, (await tx.get('runs', id)) === undefined ? id : newId());
  const entries = contents.job.entries.map((entry) =>
    entry.kind === 'run-left-out' ? { ...entry, runId: ids.get(entry.runId) ?? entry.runId } : entry,
  );
  return {
    ...contents,
    job: { ...contents.job, id: jobId, entries },
    runs: contents.runs.map((run) => ({ ...run, jobId, id: ids.get(run.id) ?? run.id })),
  };
}
