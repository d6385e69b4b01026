import { z } from 'zod';
import { parseDocument } from '../storage/parse-document.ts';
import { ok, type Result } from '../problems/result.ts';
import { DECISIONS } from './job-entry.ts';
import { jobValues, type JobValues } from './job-values.ts';
import { JOB_STATES, type StoredJob } from './job.ts';

const iso = z.iso.datetime({ offset: true });

/**
 * What the list of jobs and its search need of a job: a small row, written with the job in one transaction. It can always be made again from the
 * job, so it has no steps from version to version.
 */
export const JobSummary = z.strictObject({
  formatVersion: z.literal(1),
  id: z.string().min(1),
  createdAt: iso,
  updatedAt: iso,
  scenarioId: z.string().nullable(),
  state: z.enum(JOB_STATES),
  revision: z.number().int().positive(),
  decision: z.enum(DECISIONS).nullable(),
  unitNumber: z.string(),
  vin: z.string(),
  engineFamily: z.string(),
  serialNumber: z.string(),
  customer: z.string(),
  complaint: z.string(),
  technician: z.string(),
  /** Each as `SPN/FMI`, e.g. `157/18`, typed and from the bus, without repeats. */
  codes: z.array(z.string()),
});
export type JobSummary = z.infer<typeof JobSummary>;

const TEXT_FIELDS = [
  'unitNumber',
  'vin',
  'engineFamily',
  'serialNumber',
  'customer',
  'complaint',
  'technician',
] as const;

/** The row of a job. */
export function summaryOf(job: StoredJob): JobSummary {
  const values = jobValues(job);
  const texts = Object.fromEntries(
    TEXT_FIELDS.map((field) => [field, values.fields.get(field)?.value ?? '']),
  ) as Record<(typeof TEXT_FIELDS)[number], string>;
  return {
    formatVersion: 1,
    id: job.id,
    createdAt: job.createdAt,
    updatedAt: job.updatedAt,
    scenarioId: job.scenarioId,
    state: values.state,
    revision: values.revision,
    decision: values.conclusion?.decision ?? null,
    ...texts,
    codes: codesOf(values),
  };
}

function codesOf({ typedCodes, busCodes }: JobValues): string[] {
  const heard = [...(busCodes?.active ?? []), ...(busCodes?.previous ?? [])].flatMap(({ codes }) => codes);
  return [...new Set([...typedCodes, ...heard].map(({ spn, fmi }) => `${spn}/${fmi}`))];
}

/**
 * A stored row, or `storage.damaged`. Ten thousand are read when the list opens: what is plainly a row is taken as it is, and only the rest goes through
 * the schema, which says what is wrong.
 */
export const readSummary = (document: unknown): Result<JobSummary> =>
  isPlainlyRow(document) ? ok(document) : parseDocument(JobSummary, 'Job summary', document);

const FIELDS = Object.keys(JobSummary.shape).length;
const TEXTS = [...TEXT_FIELDS, 'id'] as const;
const INSTANT = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|1\d|2[0-8])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{3}Z$/;

/** Holds for rows as this program writes them; may be false for other rows that the schema takes, never true for one that it refuses. */
function isPlainlyRow(document: unknown): document is JobSummary {
  if (typeof document !== 'object' || document === null) return false;
  const row = document as Record<string, unknown>;
  const { codes } = row;
  return (
    row['formatVersion'] === 1 &&
    row['id'] !== '' &&
    Object.keys(row).length === FIELDS &&
    TEXTS.every((field) => typeof row[field] === 'string') &&
    hasPlainStanding(row) &&
    Array.isArray(codes) &&
    codes.every((code) => typeof code === 'string')
  );
}

function hasPlainStanding({
  createdAt,
  updatedAt,
  scenarioId,
  state,
  decision,
  revision,
}: Record<string, unknown>) {
  return (
    [createdAt, updatedAt].every((at) => typeof at === 'string' && INSTANT.test(at)) &&
    (scenarioId === null || typeof scenarioId === 'string') &&
    (JOB_STATES as readonly unknown[]).includes(state) &&
    (decision === null || (DECISIONS as readonly unknown[]).includes(decision)) &&
    Number.isSafeInteger(revision) &&
    (revision as number) > 0
  );
}
