import type { StoredRun } from '../jobs/run.ts';
import { describeProblem, type Problem } from '../problems/problem.ts';
import type { DamagedJob } from '../ui/job-list.ts';
import { dayAndTime } from './job-rows.ts';

/** A job cannot be deleted by hand, so the remedy of a damaged document is no use here. */
const WITH_RUNS =
  'The other jobs are not touched, and its runs can still be opened under Runs. Begin a new job for the vehicle.';
const WITHOUT_RUNS =
  'The other jobs are not touched. No run of it is left. Begin a new job for the vehicle, and note there what is still known.';

/**
 * A job that cannot be read, named by what is known of it besides: the title and time of its last run. `runs` oldest first; without one only its id is
 * left. A job of a newer version keeps the remedy of its problem, which is to reload.
 */
export function damagedJob(id: string, problem: Problem, runs: readonly StoredRun[]): DamagedJob {
  const last = runs.at(-1);
  const number = runs.length === 1 ? 'its only run' : `the last of its ${runs.length} runs`;
  const name = last
    ? `A job of which ${number} is “${last.title}”, ${dayAndTime(last.createdAt)}`
    : `A job without runs, kept as ${id}`;
  const text = describeProblem(problem);
  if (problem.code !== 'storage.damaged') return { name, problem: text };
  return { name, problem: { ...text, remedy: last ? WITH_RUNS : WITHOUT_RUNS } };
}
