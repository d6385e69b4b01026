import { z } from 'zod';
import { StationId } from '../procedures/station.ts';
import { StoredCodeReport } from './code-snapshot.ts';

const Reason = z.string().trim().min(1, 'a reason is needed');
const text = z.string().trim().min(1);
const at = { atIso: z.iso.datetime({ offset: true }) };

/** What is noted of a job's vehicle, engine, customer and technician. Hours (h) and distance (km) are decimal text with a point. */
export const JOB_FIELDS = [
  'unitNumber',
  'vin',
  'engineFamily',
  'serialNumber',
  'engineHours',
  'distanceKm',
  'customer',
  'complaint',
  'technician',
] as const;
export type JobField = (typeof JOB_FIELDS)[number];

/** What was done at a station. */
export const WORK_KINDS = ['replaced', 'repaired', 'cleaned', 'adjusted', 'other'] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

/** What the job ends in. */
export const DECISIONS = ['repair now', 'run on and watch', 'look elsewhere'] as const;
export type Decision = (typeof DECISIONS)[number];

/** One thing that a person did or typed in a job. Entries are added, never changed: a correction is a later entry. */
export const JobEntry = z.discriminatedUnion('kind', [
  /** Empty text takes the field back. */
  z.strictObject({
    ...at,
    kind: z.literal('field'),
    field: z.enum(JOB_FIELDS),
    value: z.string().trim().max(2000),
    from: z.enum(['typed', 'bus']),
  }),
  /** All codes that were typed by hand, as they stand now. */
  z.strictObject({
    ...at,
    kind: z.literal('typed-codes'),
    codes: z.array(
      z.strictObject({
        spn: z.number().int().min(0).max(0x7ffff),
        fmi: z.number().int().min(0).max(31),
        note: z.string(),
      }),
    ),
  }),
  /** Codes as the bus told them. */
  z.strictObject({
    ...at,
    kind: z.literal('bus-codes'),
    active: z.array(StoredCodeReport),
    previous: z.array(StoredCodeReport),
  }),
  /** A check left out (or, with `skipped` false, taken in again); the reason stands on the report. */
  z.strictObject({
    ...at,
    kind: z.literal('skip'),
    checkId: text,
    skipped: z.boolean(),
    reason: z.string().trim(),
  }),
  /** A part replaced or work done. Its place in time decides which runs stand before and which after it. */
  z.strictObject({
    ...at,
    kind: z.literal('work'),
    workId: text,
    station: StationId,
    what: z.enum(WORK_KINDS),
    part: text,
    /** The procedure's cause that it was to put right; null where none was named. */
    cause: z.string().min(1).nullable(),
    note: z.string(),
  }),
  /** The fuel path was primed after that work. */
  z.strictObject({ ...at, kind: z.literal('primed'), workId: text }),
  /** Work that was entered by mistake. */
  z.strictObject({ ...at, kind: z.literal('work-withdrawn'), workId: text, reason: Reason }),
  /** A run that does not count in the findings (or, with `leftOut` false, counts again). It stays in the job. */
  z.strictObject({
    ...at,
    kind: z.literal('run-left-out'),
    runId: text,
    leftOut: z.boolean(),
    reason: Reason,
  }),
  z.strictObject({ ...at, kind: z.literal('note'), text, photoIds: z.array(text) }),
  z.strictObject({
    ...at,
    kind: z.literal('conclusion'),
    decision: z.enum(DECISIONS),
    /** In the technician's words. */
    words: text,
    /** What the loss comes from, in words; empty where it was not found. */
    cause: z.string().trim(),
    /** For `run on and watch`: what to look for. */
    watchFor: z.string().trim(),
    /** What was suggested from the evidence at that moment, kept beside the technician's words. */
    suggested: z.string(),
  }),
  z.strictObject({ ...at, kind: z.literal('signed'), by: text }),
  /** Opens a concluded or signed job again, as a new revision. */
  z.strictObject({ ...at, kind: z.literal('reopened'), reason: Reason }),
]);
export type JobEntry = z.infer<typeof JobEntry>;
