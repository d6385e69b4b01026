import type { Defect } from '../../simulators/engine/defects.ts';
import type { BenchScenario } from '../../simulators/scenarios.ts';
import { findingsOf } from '../jobs/findings.ts';
import { jobValues } from '../jobs/job-values.ts';
import { compareConclusion, type Compared } from './compare-conclusion.ts';
import { asOf, pathTaken, type CaseWork, type TakenPath } from './path-taken.ts';
import { remarksOn, type Remarks } from './remarks.ts';
import { shortestPath, type ShortestPath } from './shortest-path.ts';

/** Everything that is said at the end of a case. */
export interface CaseReview {
  /** What was wrong; empty where nothing was. */
  readonly truth: readonly Defect[];
  readonly ended: 'concluded' | 'given up';
  readonly compared: Compared;
  readonly path: TakenPath;
  readonly shortest: ShortestPath;
  /** In words: what was good, what cost time. No grade. */
  readonly remarks: Remarks;
}

/** The end of a case at an instant (ISO 8601): what was done later does not count. Pure; the same job gives the same review. */
export function reviewCase(worked: CaseWork, scenario: BenchScenario, endedIso: string): CaseReview {
  const truth = scenario.defects;
  const { job, runs } = asOf(worked, endedIso);
  const values = jobValues(job, runs);
  const compared = compareConclusion(job.procedure, values, truth);
  const path = pathTaken({ job, runs }, truth);
  const shortest = shortestPath(job.procedure, scenario);
  const findings = findingsOf(job.procedure, values, runs);
  return {
    truth,
    ended: values.conclusion ? 'concluded' : 'given up',
    compared,
    path,
    shortest,
    remarks: remarksOn({ procedure: job.procedure, compared, path, shortest, findings, truth }),
  };
}
