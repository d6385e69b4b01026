import type { Part } from '../../simulators/engine/parts.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import { findingsOf } from '../jobs/findings.ts';
import { jobValues, type JobWork } from '../jobs/job-values.ts';
import type { StoredJob } from '../jobs/job.ts';
import type { StoredRun } from '../jobs/run.ts';
import type { VerdictWord } from '../grading/verdict.ts';
import { checkOf } from '../procedures/library.ts';
import { rankCauses } from '../procedures/suspicion.ts';
import { OTHER_WORK, PART_COSTS, runMinutes } from './costs.ts';
import { cured, leftOver, partOfWork } from './part-of-work.ts';

/** One step of the way that was gone, in the order in which it was. */
export type TakenStep =
  | {
      readonly kind: 'run';
      readonly atIso: string;
      readonly checkId: string;
      readonly word: VerdictWord;
      readonly minutes: number;
    }
  | {
      readonly kind: 'work';
      readonly atIso: string;
      readonly work: JobWork;
      /** Null where the old part stayed in. */
      readonly part: Part | null;
      /** The defects that went with it; empty: it was not at fault. */
      readonly cured: readonly Defect[];
      /** Id of the cause that the evidence ranked first at that moment; null where nothing had been found yet. */
      readonly likeliest: string | null;
      readonly minutes: number;
      readonly points: number;
    }
  | { readonly kind: 'left out'; readonly atIso: string; readonly checkId: string; readonly reason: string };

export interface TakenPath {
  readonly steps: readonly TakenStep[];
  readonly minutes: number;
  readonly points: number;
}

/** A job with its runs as they stood at one instant: what came later does not count. */
export interface CaseWork {
  readonly job: StoredJob;
  readonly runs: readonly StoredRun[];
}

/** The job as it was at this instant, ISO 8601; everything up to and with it. */
export function asOf({ job, runs }: CaseWork, untilIso: string): CaseWork {
  const until = Date.parse(untilIso);
  return {
    job: { ...job, entries: job.entries.filter(({ atIso }) => Date.parse(atIso) <= until) },
    runs: runs.filter(({ createdAt }) => Date.parse(createdAt) <= until),
  };
}

/** The checks that were run, the work that was done and what was left out, with time and points from the table (costs.ts). */
export function pathTaken(worked: CaseWork, defects: readonly Defect[]): TakenPath {
  const { job, runs } = worked;
  const { works } = jobValues(job, runs);
  const steps = [...runSteps(worked), ...workSteps(worked, works, defects), ...leftOutSteps(job)];
  return {
    steps: steps.toSorted((a, b) => Date.parse(a.atIso) - Date.parse(b.atIso)),
    minutes: sum(steps.map((step) => (step.kind === 'left out' ? 0 : step.minutes))),
    points: sum(steps.map((step) => (step.kind === 'work' ? step.points : 0))),
  };
}

/** A run just after one of the same check finds everything set up, unless work came between. Runs that ended in no verdict cost nothing. */
function runSteps({ job, runs }: CaseWork): readonly TakenStep[] {
  const graded = runs
    .filter((run) => run.verdict !== null)
    .toSorted((a, b) => Date.parse(a.createdAt) - Date.parse(b.createdAt));
  const workTimes = job.entries.filter(({ kind }) => kind === 'work').map(({ atIso }) => Date.parse(atIso));
  return graded.map((run, place) => {
    const check = checkOf(job.procedure, run.check) ?? run.guide;
    const before = graded[place - 1];
    const isBetween = (ms: number) => ms > Date.parse(before!.createdAt) && ms <= Date.parse(run.createdAt);
    const stands = before?.check === run.check && !workTimes.some(isBetween);
    const { first, again } = check ? runMinutes(check) : { first: 0, again: 0 };
    return {
      kind: 'run',
      atIso: run.createdAt,
      checkId: run.check,
      word: run.verdict!.word,
      minutes: stands ? again : first,
    };
  });
}

function workSteps(
  worked: CaseWork,
  works: readonly JobWork[],
  defects: readonly Defect[],
): readonly TakenStep[] {
  const parts = works.map(partOfWork);
  return works.map((work, place) => {
    const part = parts[place] ?? null;
    const before = parts.slice(0, place).filter((each) => each !== null);
    const gone = part === null ? [] : cured(leftOver(defects, before), [part]);
    const cost = part === null ? OTHER_WORK : PART_COSTS[part];
    return {
      kind: 'work',
      atIso: work.atIso,
      work,
      part,
      cured: gone,
      likeliest: likeliestAt(worked, work),
      ...cost,
    };
  });
}

/** What the evidence said just before the work. */
function likeliestAt({ job, runs }: CaseWork, work: JobWork): string | null {
  const at = Date.parse(work.atIso);
  const place = job.entries.findIndex((entry) => entry.kind === 'work' && entry.workId === work.workId);
  const entries = job.entries.slice(0, place);
  const before = runs.filter(({ createdAt }) => Date.parse(createdAt) < at);
  const findings = findingsOf(job.procedure, jobValues({ entries }, before), before);
  const [top] = rankCauses(job.procedure, findings);
  return top && top.because.length > 0 ? top.causeId : null;
}

const leftOutSteps = ({ entries }: StoredJob): readonly TakenStep[] =>
  entries.flatMap((entry): TakenStep[] =>
    entry.kind === 'skip' && entry.skipped
      ? [{ kind: 'left out', atIso: entry.atIso, checkId: entry.checkId, reason: entry.reason }]
      : [],
  );

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);
