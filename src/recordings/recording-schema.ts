import { z } from 'zod';
import { ADAPTER_IDS } from '../link/adapter.ts';
import type { Result } from '../problems/result.ts';
import { migrate, type FormatStep } from '../storage/migrate.ts';
import { parseDocument } from '../storage/parse-document.ts';
import { RECORDING_FORMAT, type RecordingHeader } from './recording.ts';

/** What a header is called in problems. */
export const WHAT = 'Recording';

/** A recording's header as stored. Its type is the contract in recording.ts. */
export const StoredHeader = z.strictObject({
  formatVersion: z.literal(RECORDING_FORMAT),
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

/** Steps of the format of headers, n to n + 1. Each old version keeps a golden file in tests/recordings. */
const STEPS: readonly FormatStep[] = [
  // Version 2 knows more sources and line protocols: one of version 1 holds as it stands.
  (header) => header,
];

/** A stored document as a header of the current format. Problems: `storage.damaged`, `storage.newer-document`. */
export function readHeader(document: unknown): Result<RecordingHeader> {
  const current = migrate(WHAT, document, STEPS);
  return current.ok ? parseDocument(StoredHeader, WHAT, current.value) : current;
}
