import { z } from 'zod';
import { LimitSheet } from '../limits/limit-sheet.ts';
import { SIGNAL_IDS } from '../quantities/reading.ts';
import { StoredCodeReport } from './code-snapshot.ts';

/** A vessel as stored; contract in checks/measurement.ts. */
export const StoredVessel = z.strictObject({
  id: z.string().min(1),
  name: z.string(),
  capacityMl: z.number().positive(),
  graduationMl: z.number().positive(),
  tolerance: z.strictObject({ kind: z.enum(['mL', 'fraction']), halfWidth: z.number().nonnegative() }),
  measures: z.boolean(),
});

const Reason = z.string().trim().min(1, 'a reason is needed');
const typedAt = { atIso: z.iso.datetime({ offset: true }) };
const optionalReason = { ...typedAt, reason: z.string().default('') };
const origin = z.number().int();
/**
 * Which crank: its place in the recording, from 0, among those of one origin of engine speed. Without an origin (as format
 * version 1 wrote it) it is meant for whichever origin is chosen.
 */
const whichCrank = { crank: z.number().int().nonnegative(), origin: origin.optional() };

const PhotoPlace = z.strictObject({ x: z.number().finite(), y: z.number().finite() });

/** What is noted of the vehicle and its engine. Engine hours are decimal text with a point, h. */
export const IDENTITY_FIELDS = ['vin', 'make', 'model', 'serialNumber', 'unitNumber', 'engineHours'] as const;
export type IdentityField = (typeof IDENTITY_FIELDS)[number];

/** One thing that a person did or typed in a run. Entries are added, never changed: a correction is a later entry. */
export const RunEntry = z.discriminatedUnion('kind', [
  z.strictObject({ ...optionalReason, kind: z.literal('caution-ticked'), caution: z.string().min(1) }),
  /** `typed` is the text as it was typed, with its unit; `readingsMl` are added up where the vessel was emptied between. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('volume'),
    readingsMl: z.array(z.number().finite().nonnegative()).min(1),
    typed: z.string(),
    /** Read off a photograph: it is kept, and the reading has its own uncertainty in place of half a graduation. */
    photo: z
      .strictObject({
        photoId: z.string().min(1),
        standardUncertaintyMl: z.number().nonnegative(),
        /** What was marked, in pixels of the kept photograph: graduations with their numbers, and the lowest point of the liquid. */
        marks: z.array(z.strictObject({ at: PhotoPlace, volumeMl: z.number().nonnegative() })).optional(),
        liquid: PhotoPlace.optional(),
      })
      .optional(),
  }),
  z.strictObject({ ...optionalReason, kind: z.literal('vessel'), vessel: StoredVessel }),
  z.strictObject({
    ...typedAt,
    kind: z.literal('crank-left-out'),
    ...whichCrank,
    leftOut: z.boolean(),
    reason: Reason,
  }),
  /** An edge set by the person; `foundMs` is where the data had it. Setting it back is one more entry, with `atMs` null. */
  z.strictObject({
    ...typedAt,
    kind: z.literal('crank-edge'),
    ...whichCrank,
    edge: z.enum(['start', 'end']),
    foundMs: z.number().finite(),
    atMs: z.number().finite().nullable(),
    reason: Reason,
  }),
  z.strictObject({
    ...optionalReason,
    kind: z.literal('origin-chosen'),
    signal: z.enum(SIGNAL_IDS),
    origin,
  }),
  /** A reason against the verdict that the person lets stand as a warning, by its problem code; `holds` false takes it back. */
  z.strictObject({
    ...typedAt,
    kind: z.literal('override'),
    code: z.string().min(1),
    holds: z.boolean(),
    reason: Reason,
  }),
  z.strictObject({ ...optionalReason, kind: z.literal('note'), text: z.string().min(1) }),
  z.strictObject({ ...optionalReason, kind: z.literal('interval'), intervalMs: z.number().positive() }),
  /** What the bus says, with the origin that said it, or what was typed (origin null). Typed as empty: taken back. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('identity'),
    field: z.enum(IDENTITY_FIELDS),
    value: z.string().trim(),
    from: z.enum(['bus', 'typed']),
    origin: origin.nullable(),
  }),
  /** Another limit sheet taken for this run, as a whole copy. A verdict formed before stands in no list: it is formed anew. */
  z.strictObject({ ...typedAt, kind: z.literal('sheet'), sheet: LimitSheet, reason: Reason }),
  /** A value read off an instrument, in the canonical unit of the check; `typed` is the text with its unit. Null value: taken back. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('value'),
    value: z.number().finite().nullable(),
    typed: z.string(),
    /** Half-widths of what the instrument is worth and of half its step, same unit. */
    tolerance: z.number().nonnegative(),
    halfStep: z.number().nonnegative(),
    instrument: z.string(),
  }),
  /** The collection clock: started, and once stopped its end. On the source's clock where one is open, else on the wall clock. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('stopwatch'),
    clock: z.enum(['source', 'wall']),
    startMs: z.number().finite(),
    endMs: z.number().finite().nullable(),
    by: z.enum(['hand', 'signal', 'cranks']),
  }),
  /** A collection time typed by hand, ms; null takes it back. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('collected-time'),
    spanMs: z.number().positive().nullable(),
    typed: z.string(),
  }),
  /** The stretch of the data that a person chose instead of the one found; null ends take it back. */
  z.strictObject({
    ...typedAt,
    kind: z.literal('stretch'),
    startMs: z.number().finite().nullable(),
    endMs: z.number().finite().nullable(),
    reason: Reason,
  }),
  /** What was seen at one point of an inspection. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('observation'),
    point: z.string().min(1),
    seen: z.enum(['in order', 'not in order', 'not looked at']),
    note: z.string(),
    photoIds: z.array(z.string().min(1)),
  }),
  /** A photograph kept with the run. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('photo'),
    photoId: z.string().min(1),
    note: z.string(),
  }),
  /** The trouble codes as they were heard at that moment, one report an origin. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('codes'),
    active: z.array(StoredCodeReport),
    previous: z.array(StoredCodeReport),
  }),
]);

export type RunEntry = z.infer<typeof RunEntry>;
export type StoredVessel = z.infer<typeof StoredVessel>;
/** A reading off a kept photograph, as it stands in the entry of a volume. */
export type PhotoOfVolume = NonNullable<Extract<RunEntry, { kind: 'volume' }>['photo']>;
