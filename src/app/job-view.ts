import { findingsOf } from '../jobs/findings.ts';
import { jobValues, type JobValues } from '../jobs/job-values.ts';
import type { StoredJob } from '../jobs/job.ts';
import type { StoredRun } from '../jobs/run.ts';
import { suggestConclusion, type SuggestedConclusion } from '../procedures/conclusion.ts';
import type { CheckFinding } from '../procedures/finding.ts';
import { fuelPath, stretchWords, type PathStation } from '../procedures/fuel-path.ts';
import { checkOrder, type OrderedCheck } from '../procedures/order.ts';
import { whatNext, type NextStep } from '../procedures/what-next.ts';

/** Everything that the job's screen shows, from the kept job and its runs. */
export interface JobView {
  readonly job: StoredJob;
  /** Oldest first. */
  readonly runs: readonly StoredRun[];
  readonly values: JobValues;
  readonly findings: readonly CheckFinding[];
  readonly order: readonly OrderedCheck[];
  readonly next: NextStep;
  readonly path: readonly PathStation[];
  /** Which stretch is cleared and where the loss must lie. */
  readonly stretch: string;
  readonly suggested: SuggestedConclusion;
}

/** Pure: the same job and runs give the same screen, in every tab and from every file. */
export function viewJob(job: StoredJob, runs: readonly StoredRun[]): JobView {
  const values = jobValues(job, runs);
  const findings = findingsOf(job.procedure, values, runs);
  const path = fuelPath(job.procedure, findings);
  return {
    job,
    runs,
    values,
    findings,
    order: checkOrder(job.procedure, findings),
    next: whatNext(job.procedure, findings),
    path,
    stretch: stretchWords(path),
    suggested: suggestConclusion(job.procedure, findings, putRightIn(values)),
  };
}

/** Causes that work was done against: after a repair that helped, they are what was found. */
const putRightIn = ({ works }: JobValues): readonly string[] =>
  works.flatMap(({ cause }) => (cause === null ? [] : [cause]));
