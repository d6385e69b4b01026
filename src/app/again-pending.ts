import type { StoredRun } from '../jobs/run.ts';
import type { PendingSource } from './services.ts';

/** A bench gets another seed, so that a repeat is not a copy; a port or file is the same. */
export function againPending(
  pending: PendingSource | undefined,
  { source: { adapter, scenarioId }, jobId }: StoredRun,
  seed: number,
): PendingSource | null {
  if (adapter !== 'bench' || !scenarioId) return pending ?? null;
  // In a job parts may be replaced meanwhile: then the bench is set up when it is started.
  return jobId === null ? { kind: 'bench', scenarioId, seed } : null;
}
