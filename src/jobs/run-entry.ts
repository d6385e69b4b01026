import { z } from 'zod';
import { SIGNAL_IDS } from '../quantities/reading.ts';

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
const crank = z.number().int().nonnegative(); // place of the crank in the recording, from 0

/** One thing that a person did or typed in a run. Entries are added, never changed: a correction is a later entry. */
export const RunEntry = z.discriminatedUnion('kind', [
  z.strictObject({ ...optionalReason, kind: z.literal('caution-ticked'), caution: z.string().min(1) }),
  /** `typed` is the text as it was typed, with its unit; `readingsMl` are added up where the vessel was emptied between. */
  z.strictObject({
    ...optionalReason,
    kind: z.literal('volume'),
    readingsMl: z.array(z.number().finite().nonnegative()).min(1),
    typed: z.string(),
  }),
  z.strictObject({ ...optionalReason, kind: z.literal('vessel'), vessel: StoredVessel }),
  z.strictObject({
    ...typedAt,
    kind: z.literal('crank-left-out'),
    crank,
    leftOut: z.boolean(),
    reason: Reason,
  }),
  /** An edge set by the person; `foundMs` is where the data had it. Setting it back is one more entry, with `atMs` null. */
  z.strictObject({
    ...typedAt,
    kind: z.literal('crank-edge'),
    crank,
    edge: z.enum(['start', 'end']),
    foundMs: z.number().finite(),
    atMs: z.number().finite().nullable(),
    reason: Reason,
  }),
  z.strictObject({
    ...optionalReason,
    kind: z.literal('origin-chosen'),
    signal: z.enum(SIGNAL_IDS),
    origin: z.number().int(),
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
]);

export type RunEntry = z.infer<typeof RunEntry>;
export type StoredVessel = z.infer<typeof StoredVessel>;
