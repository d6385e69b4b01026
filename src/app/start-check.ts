import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import type { Part } from '../../simulators/engine/parts.ts';
import { vesselById } from '../checks/vessels.ts';
import type { JobValues } from '../jobs/job-values.ts';
import type { StoredRun } from '../jobs/run.ts';
import { chooseSheet } from '../limits/choose-sheet.ts';
import { DEMONSTRATION_JOB_SHEET } from '../limits/demonstration-job-sheet.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';
import { isTraining } from '../training/case-id.ts';
import { partOfWork } from '../training/part-of-work.ts';
import type { JobView } from './job-view.ts';
import { newRun } from './new-run.ts';
import type { PendingSource } from './services.ts';

/** Which sheet a new run of a job begins with, and why, or why none. */
export interface JobSheet {
  readonly sheet: LimitSheet | null;
  readonly why: string;
}

/**
 * The sheet that holds for the job's engine and this check on the day of the run (yyyy-mm-dd), as `sheetFor` picks it later: a revision that came
 * while the job was open is taken by its next run. A bench job has its own, with invented numbers.
 */
export function sheetOfJob(
  { job, values }: Pick<JobView, 'job' | 'values'>,
  run: { readonly check: string; readonly onDate: string },
  sheets: readonly LimitSheet[],
): JobSheet {
  if (job.scenarioId !== null)
    return {
      sheet: DEMONSTRATION_JOB_SHEET,
      why: 'The bench engine has a sheet of its own, with invented numbers.',
    };
  const serial = values.fields.get('serialNumber')?.value ?? '';
  if (serial === '')
    return { sheet: null, why: 'No engine serial number is noted, so no limit sheet can be chosen.' };
  const choice = chooseSheet(sheets, { serial, ...run });
  return { sheet: choice.kind === 'one' ? choice.sheet : null, why: choice.why };
}

/** Source that a run of a real job has until one is connected or something is typed. */
const NOT_CHOSEN: StoredRun['source'] = { adapter: 'typed', device: 'typed by hand' };

/** A new run of a check in a job. */
export function runOfJob(
  { job }: Pick<JobView, 'job'>,
  guide: ProcedureCheck,
  made: { readonly id: string; readonly createdAt: string; readonly sheet: LimitSheet | null },
): StoredRun {
  const bench = job.scenarioId !== null && guide.settings.kind !== 'inspection';
  return newRun({
    ...made,
    source: bench
      ? { adapter: 'bench', device: 'Bench simulator', scenarioId: job.scenarioId ?? '' }
      : NOT_CHOSEN,
    vessel: vesselById('cylinder-500')!,
    within: { jobId: job.id, guide },
  });
}

/** The bench of a job, with the parts that were replaced in it so far; null for a job on a real engine. */
export function benchOfJob(
  { job, values }: Pick<JobView, 'job' | 'values'>,
  seed: number,
): PendingSource | null {
  const isKnown = job.scenarioId !== null && Object.hasOwn(SCENARIO_BY_ID, job.scenarioId);
  if (job.scenarioId === null || !(isKnown || isTraining(job.scenarioId))) return null;
  return { kind: 'bench', scenarioId: job.scenarioId, seed, replaced: replacedParts(values) };
}

const replacedParts = ({ works }: JobValues): readonly Part[] =>
  works.map(partOfWork).filter((part) => part !== null);
