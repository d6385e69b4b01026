import { lookAround } from '../../simulators/looks.ts';
import { jobValues } from '../jobs/job-values.ts';
import type { StoredJob } from '../jobs/job.ts';
import type { JobSummary } from '../jobs/job-summary.ts';
import type { StoredRun } from '../jobs/run.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { isTraining, readCaseId } from '../training/case-id.ts';
import { CaseSeed, type CaseSet } from '../training/case-set.ts';
import { drawCase, type TrainingCase } from '../training/draw-case.ts';
import { leftOver, partOfWork } from '../training/part-of-work.ts';
import { reviewCase, type CaseReview } from '../training/review-case.ts';
import { resultOf, type TrainingResult } from '../training/training-result.ts';
import { newJob, noted } from './new-job.ts';
import type { Services } from './services.ts';

/** Drawn seeds are short enough to be said aloud or written on a board. */
const DRAWN_SEEDS = 100_000;

/** A seed as it was typed; drawn where nothing was. Problem: `training.not-a-seed`. */
export function readSeed(typed: string, drawn: number): Result<number> {
  const text = typed.trim();
  if (text === '') return ok(drawn % DRAWN_SEEDS);
  const seed = CaseSeed.safeParse(/^\d{1,10}$/.test(text) ? Number(text) : NaN);
  return seed.success ? ok(seed.data) : failed(problem('training.not-a-seed', { typed: text }));
}

export interface CaseWanted {
  readonly set: CaseSet;
  readonly seed: number;
  readonly trainee: string;
}

/** A job on the engine that the seed draws, with what the driver says and the trainee's name noted. Pure; the caller brings id and time. */
export function caseJob({ set, seed, trainee }: CaseWanted, id: string, atIso: string): StoredJob {
  const { scenarioId, scenario } = drawCase(set, seed);
  const job = newJob({ id, createdAt: atIso });
  const by = { kind: 'field', atIso, field: 'technician', value: trainee.trim(), from: 'typed' } as const;
  return { ...job, scenarioId, entries: [...noted(scenario, atIso), ...(by.value === '' ? [] : [by])] };
}

/** A case in a list: what may be said of it before its end. */
export interface CaseRow {
  readonly summary: JobSummary;
  readonly setId: string;
  readonly seed: number;
  /** Null while its truth was not shown. */
  readonly result: TrainingResult | null;
}

/** The training jobs among all rows, in their order. */
export const caseRows = (
  summaries: readonly JobSummary[],
  results: readonly TrainingResult[],
): readonly CaseRow[] =>
  summaries.flatMap((summary): CaseRow[] => {
    const named = readCaseId(summary.scenarioId);
    if (!named) return [];
    const result = results.find(({ id }) => id === summary.id) ?? null;
    return [{ summary, setId: named.setId, seed: named.seed, result }];
  });

/** What the end of a case shows. */
export interface EndedCase {
  readonly job: StoredJob;
  readonly drawn: TrainingCase;
  readonly review: CaseReview;
  readonly result: TrainingResult;
}

/** Ends a case: what was done until now counts, whether it was concluded or is given up. Ended before, the first end stands. */
export async function endCase(services: Services, jobId: string): Promise<Result<TrainingResult>> {
  const worked = await workedCase(services, jobId);
  if (!worked.ok) return worked;
  const { job, runs, drawn } = worked.value;
  const endedAt = services.nowIso();
  const review = reviewCase({ job, runs }, drawn.scenario, endedAt);
  const trainee = jobValues(job).fields.get('technician')?.value ?? '';
  const kept = await services.training.end(
    resultOf(drawn, review, { jobId, trainee, begunAt: job.createdAt, endedAt }),
  );
  if (kept.ok && review.ended === 'given up' && kept.value.endedAt === endedAt)
    await services.jobs.addEntries(jobId, [
      { kind: 'note', atIso: endedAt, text: 'Practice: given up; what was wrong was shown.', photoIds: [] },
    ]);
  return kept;
}

/** The end of a case for the screen; null where its truth is not to be shown yet. */
export async function endedCase(services: Services, jobId: string): Promise<Result<EndedCase | null>> {
  const kept = await services.training.resultOf(jobId);
  if (!kept.ok) return kept;
  const result = kept.value;
  if (!result) return ok(null);
  const worked = await workedCase(services, jobId);
  if (!worked.ok) return worked;
  const { job, runs, drawn } = worked.value;
  return ok({
    job,
    drawn,
    result,
    review: reviewCase({ job, runs }, drawn.scenario, result.endedAt),
  });
}

async function workedCase(services: Services, jobId: string) {
  const loaded = await services.jobs.withRuns(jobId);
  if (!loaded.ok) return loaded;
  const { job, runs } = loaded.value;
  const drawn = await services.training.caseOf(job.scenarioId);
  return drawn.ok ? ok({ job, runs: runs.items, drawn: drawn.value }) : drawn;
}

/** What is found at one point of an inspection of a training job, with the parts that were put in so far; empty for other runs. */
export async function sightFor(
  services: Services,
  { jobId, guide }: Pick<StoredRun, 'jobId' | 'guide'>,
  point: string,
): Promise<string> {
  const job = jobId === null ? null : await services.jobs.get(jobId);
  if (!job?.ok || !guide || !isTraining(job.value.scenarioId)) return '';
  const drawn = await services.training.caseOf(job.value.scenarioId);
  if (!drawn.ok) return '';
  const parts = jobValues(job.value)
    .works.map(partOfWork)
    .filter((part) => part !== null);
  const { scenario } = drawn.value;
  const now = { ...scenario, defects: leftOver(scenario.defects, parts) };
  return lookAround(now, scenario.seed, guide.id)(point).words;
}
