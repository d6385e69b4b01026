import { z } from 'zod';
import { Procedure } from '../procedures/procedure.ts';
import { JobEntry } from './job-entry.ts';

/** Form in which jobs are written. */
export const JOB_FORMAT = 1;

/**
 * One vehicle's visit, as kept. `entries` only ever grow; what holds now is their fold (job-values.ts). `procedure` is a copy made when the job
 * began: a procedure that is edited later does not move it. The runs are documents of their own and name the job.
 */
export const StoredJob = z.strictObject({
  formatVersion: z.literal(JOB_FORMAT),
  id: z.string().min(1),
  createdAt: z.iso.datetime({ offset: true }),
  /** Time of the last entry; of the creation where there is none. */
  updatedAt: z.iso.datetime({ offset: true }),
  /** The bench scenario that feeds the job; null for a real vehicle. */
  scenarioId: z.string().min(1).nullable(),
  procedure: Procedure,
  entries: z.array(JobEntry),
});
export type StoredJob = z.infer<typeof StoredJob>;

/** Where a job stands. A signed one is read only until it is opened again. */
export const JOB_STATES = ['open', 'concluded', 'signed'] as const;
export type JobState = (typeof JOB_STATES)[number];
