import { isEngineOrigin } from '../j1939/source-addresses.ts';
import { sameCodes } from './code-snapshot.ts';
import type { JobEntry, JobField } from './job-entry.ts';
import { jobValues } from './job-values.ts';
import type { StoredJob } from './job.ts';
import type { IdentityField, RunEntry } from './run-entry.ts';
import type { StoredRun } from './run.ts';

type Heard = Pick<StoredRun, 'entries'>;

/** Where what the bus says of the engine stands in a job. Make and model are not the engine family, and stay in the run. */
const FIELD_OF: Readonly<Partial<Record<IdentityField, JobField>>> = {
  vin: 'vin',
  serialNumber: 'serialNumber',
  unitNumber: 'unitNumber',
  engineHours: 'engineHours',
};

/**
 * The entries by which a job takes over what its runs (oldest first) heard from the engine's own addresses, each value once: none where all of
 * it was taken already, or where the job is signed. A typed field stands against them (job-values.ts).
 */
export function heardInRuns(
  job: Pick<StoredJob, 'entries'>,
  runs: readonly Heard[],
  atIso: string,
): readonly JobEntry[] {
  if (jobValues(job).state === 'signed') return [];
  const codes = heardCodes(job, runs, atIso);
  return [...heardFields(job, runs, atIso), ...(codes ? [codes] : [])];
}

function heardFields(
  { entries }: Pick<StoredJob, 'entries'>,
  runs: readonly Heard[],
  atIso: string,
): readonly JobEntry[] {
  const key = (field: JobField, value: string) => `${field} ${value}`;
  const known = new Set(
    entries.flatMap((entry) =>
      entry.kind === 'field' && entry.from === 'bus' ? [key(entry.field, entry.value)] : [],
    ),
  );
  return runs
    .flatMap((run) => run.entries.filter(isEnginesIdentity))
    .flatMap(({ field: said, value }) => {
      const field = FIELD_OF[said];
      if (!field || value === '' || known.has(key(field, value))) return [];
      known.add(key(field, value));
      return [{ atIso, kind: 'field' as const, field, value, from: 'bus' as const }];
    });
}

type IdentityEntry = Extract<RunEntry, { kind: 'identity' }>;
const isEnginesIdentity = (entry: RunEntry): entry is IdentityEntry =>
  entry.kind === 'identity' && entry.from === 'bus' && entry.origin !== null && isEngineOrigin(entry.origin);

/** The codes that the engine told last, unless the job knows them, or knows something newer. */
function heardCodes(job: Pick<StoredJob, 'entries'>, runs: readonly Heard[], atIso: string): JobEntry | null {
  const last = runs
    .flatMap((run) => run.entries.filter((entry) => entry.kind === 'codes'))
    .map((entry) => ({ ...entry, heardMs: Date.parse(entry.atIso) }))
    .reduce<Noted | null>(
      (newest, noted) => (newest && newest.heardMs > noted.heardMs ? newest : noted),
      null,
    );
  if (!last) return null;
  const ofEngine = (reports: Noted['active']) => reports.filter(({ origin }) => isEngineOrigin(origin));
  const heard = { active: ofEngine(last.active), previous: ofEngine(last.previous) };
  if (heard.active.length + heard.previous.length === 0) return null;
  const known = jobValues(job).busCodes;
  if (known && (Date.parse(known.atIso) >= last.heardMs || sameCodes(known, heard))) return null;
  return { atIso, kind: 'bus-codes', ...heard };
}

type Noted = Extract<RunEntry, { kind: 'codes' }> & { readonly heardMs: number };
