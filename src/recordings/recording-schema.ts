import { z } from 'zod';
import { ADAPTER_IDS } from '../link/adapter.ts';
import type { RecordingHeader } from './recording.ts';

/** A recording's header as stored. Its type is the contract in recording.ts. */
export const StoredHeader = z.strictObject({
  formatVersion: z.literal(1),
  id: z.string().min(1),
  source: z.enum(ADAPTER_IDS),
  wire: z.enum(['slcan', 'candump', 'reading-lines', 'auto', 'readings']),
  device: z.string(),
  startedAt: z.iso.datetime({ offset: true }),
  closed: z.boolean(),
  givenIntervalMs: z.number().positive().nullable(),
  fileName: z.string().nullable(),
  logPlan: z.unknown(),
}) satisfies z.ZodType<RecordingHeader>;
