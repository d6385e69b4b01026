import { z } from 'zod';
import type { RecordingHeader } from './recording.ts';

/** A recording's header as stored. Its type is the contract in recording.ts. */
export const StoredHeader = z.strictObject({
  formatVersion: z.literal(1),
  id: z.string().min(1),
  source: z.enum(['bench', 'web-serial', 'log-file', 'replay']),
  wire: z.enum(['slcan', 'candump', 'readings']),
  device: z.string(),
  startedAt: z.iso.datetime({ offset: true }),
  closed: z.boolean(),
  givenIntervalMs: z.number().positive().nullable(),
  fileName: z.string().nullable(),
  logPlan: z.unknown(),
}) satisfies z.ZodType<RecordingHeader>;
