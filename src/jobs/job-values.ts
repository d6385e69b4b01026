import { problem, type Problem } from '../problems/problem.ts';
import type { JobEntry, JobField } from './job-entry.ts';
import type { JobState, StoredJob } from './job.ts';
import type { StoredRun } from './run.ts';

type EntryOf<K extends JobEntry['kind']> = Extract<JobEntry, { kind: K }>;
export type ConclusionEntry = EntryOf<'conclusion'>;
export type WorkEntry = EntryOf<'work'>;

/** One field of the job, and who said it when. */
export type JobFieldValue = Pick<EntryOf<'field'>, 'value' | 'from' | 'atIso'>;

/** Work that stands, and when the fuel path was primed after it; null where it was not. */
export interface JobWork extends WorkEntry {
  readonly primedAtIso: string | null;
}

/** What a revision of the job ended in before it was opened again. */
export interface ClosedRevision {
  readonly revision: number;
  readonly conclusion: ConclusionEntry;
  /** Null where it was concluded but not signed. */
  readonly signed: EntryOf<'signed'> | null;
  readonly reopened: EntryOf<'reopened'>;
}

/** What holds in a job now, after all of its entries. */
export interface JobValues {
  readonly state: JobState;
  /** From 1; one more each time that the job was opened again. */
  readonly revision: number;
  /** Typed where something was typed, else what the bus said last. */
  readonly fields: ReadonlyMap<JobField, JobFieldValue>;
  /** What the bus said last, also where something else was typed. */
  readonly heardFields: ReadonlyMap<JobField, JobFieldValue>;
  readonly typedCodes: EntryOf<'typed-codes'>['codes'];
  /** The codes that the bus told last; null where it never did. */
  readonly busCodes: EntryOf<'bus-codes'> | null;
  /** Checks that are left out, by id, with the reason. */
  readonly skipped: ReadonlyMap<string, string>;
  /** Work that stands, in the order in which it was done. */
  readonly works: readonly JobWork[];
  readonly withdrawnWorks: readonly { readonly work: JobWork; readonly reason: string }[];
  /** Runs that do not count, by id, with the reason. */
  readonly leftOutRuns: ReadonlyMap<string, string>;
  readonly notes: readonly EntryOf<'note'>[];
  /** Of this revision; null while the job is open. */
  readonly conclusion: ConclusionEntry | null;
  /** Something that it rests on was entered, or a run was graded, after the conclusion. */
  readonly conclusionOutdated: boolean;
  readonly signed: EntryOf<'signed'> | null;
  readonly earlier: readonly ClosedRevision[];
}

/** The values of a job in which nothing was entered yet. */
export const STARTING_JOB_VALUES: JobValues = {
  state: 'open',
  revision: 1,
  fields: new Map(),
  heardFields: new Map(),
  typedCodes: [],
  busCodes: null,
  skipped: new Map(),
  works: [],
  withdrawnWorks: [],
  leftOutRuns: new Map(),
  notes: [],
  conclusion: null,
  conclusionOutdated: false,
  signed: null,
  earlier: [],
};

/**
 * Folds the entries of a job, in the order in which they were added, to what holds now. With its runs, a verdict that was formed after the
 * conclusion makes that one outdated as well. An entry that cannot be (`whyRefused`) changes nothing: the store refuses it.
 */
export function jobValues(
  { entries }: Pick<StoredJob, 'entries'>,
  runs: readonly Pick<StoredRun, 'createdAt' | 'entries' | 'verdict'>[] = [],
): JobValues {
  const values = entries.reduce(nextJobValues, STARTING_JOB_VALUES);
  const { conclusion } = values;
  if (!conclusion || values.conclusionOutdated) return values;
  const concludedMs = Date.parse(conclusion.atIso);
  return { ...values, conclusionOutdated: runs.some((run) => gradedAtMs(run) > concludedMs) };
}

/** When a run came to the verdict that it has, ms since 1970: its last entry. -Infinity without a verdict. */
function gradedAtMs(run: Pick<StoredRun, 'createdAt' | 'entries' | 'verdict'>): number {
  if (run.verdict === null) return -Infinity;
  return Math.max(Date.parse(run.createdAt), ...run.entries.map(({ atIso }) => Date.parse(atIso)));
}

/**
 * Why a job that stands like this cannot take the entry: signed already (`storage.job-signed`), nothing to sign or to open again
 * (`job.not-concluded`, `job.not-closed`), or an entry for work that is not there (`job.no-such-work`). Null where it can.
 */
export function whyRefused(values: JobValues, entry: JobEntry, id: string): Problem | null {
  if (values.state === 'signed' && entry.kind !== 'reopened') return problem('storage.job-signed', { id });
  if (entry.kind === 'signed')
    return values.state === 'concluded' ? null : problem('job.not-concluded', { id });
  if (entry.kind === 'reopened') return values.state === 'open' ? problem('job.not-closed', { id }) : null;
  const isForWork = entry.kind === 'primed' || entry.kind === 'work-withdrawn';
  const isKnown = isForWork && values.works.some(({ workId }) => workId === entry.workId);
  return isForWork && !isKnown ? problem('job.no-such-work') : null;
}

/** What holds after one more entry; unchanged where `whyRefused` objects. */
export function nextJobValues(values: JobValues, entry: JobEntry): JobValues {
  if (whyRefused(values, entry, '')) return values;
  const change = CHANGES[entry.kind] as (values: JobValues, entry: JobEntry) => Partial<JobValues>;
  const next = { ...values, ...change(values, entry) };
  return values.state === 'concluded' && OUTDATES.has(entry.kind)
    ? { ...next, conclusionOutdated: true }
    : next;
}

/** Entries that a conclusion rests on. Fields, codes and notes may be completed without moving it. */
const OUTDATES: ReadonlySet<JobEntry['kind']> = new Set(['skip', 'work', 'work-withdrawn', 'run-left-out']);

/** What each kind of entry changes. */
const CHANGES: {
  readonly [K in JobEntry['kind']]: (values: JobValues, entry: EntryOf<K>) => Partial<JobValues>;
} = {
  field: withField,
  'typed-codes': (_, { codes }) => ({ typedCodes: codes }),
  'bus-codes': (_, entry) => ({ busCodes: entry }),
  skip: ({ skipped }, { checkId, skipped: out, reason }) => ({
    skipped: withKey(skipped, checkId, out ? reason : null),
  }),
  work: ({ works }, work) => ({
    works: [...works.filter(({ workId }) => workId !== work.workId), { ...work, primedAtIso: null }],
  }),
  primed: ({ works }, { workId, atIso }) => ({
    works: works.map((work) => (work.workId === workId ? { ...work, primedAtIso: atIso } : work)),
  }),
  'work-withdrawn': ({ works, withdrawnWorks }, { workId, reason }) => ({
    works: works.filter((work) => work.workId !== workId),
    withdrawnWorks: [
      ...withdrawnWorks,
      ...works.filter((work) => work.workId === workId).map((work) => ({ work, reason })),
    ],
  }),
  'run-left-out': ({ leftOutRuns }, { runId, leftOut, reason }) => ({
    leftOutRuns: withKey(leftOutRuns, runId, leftOut ? reason : null),
  }),
  note: ({ notes }, entry) => ({ notes: [...notes, entry] }),
  conclusion: (_, entry) => ({ state: 'concluded', conclusion: entry, conclusionOutdated: false }),
  signed: (_, entry) => ({ state: 'signed', signed: entry }),
  reopened: ({ revision, earlier, conclusion, signed }, entry) => ({
    state: 'open',
    revision: revision + 1,
    conclusion: null,
    conclusionOutdated: false,
    signed: null,
    earlier: conclusion ? [...earlier, { revision, conclusion, signed, reopened: entry }] : earlier,
  }),
};

/** What was typed stands against all that the bus says later, until it is typed anew or taken back. */
function withField(
  { fields, heardFields }: JobValues,
  { field, value, from, atIso }: EntryOf<'field'>,
): Pick<JobValues, 'fields' | 'heardFields'> {
  const said = value === '' ? null : { value, from, atIso };
  const heard = from === 'bus' ? withKey(heardFields, field, said) : heardFields;
  const held = fields.get(field);
  const typed = from === 'typed' ? said : held?.from === 'typed' ? held : null;
  return { fields: withKey(fields, field, typed ?? heard.get(field) ?? null), heardFields: heard };
}

/** A copy of the map with one key set, or taken out where the value is null. */
function withKey<K, V>(map: ReadonlyMap<K, V>, key: K, value: V | null): ReadonlyMap<K, V> {
  const copy = new Map(map);
  if (value === null) copy.delete(key);
  else copy.set(key, value);
  return copy;
}
