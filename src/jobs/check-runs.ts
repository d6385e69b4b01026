import type { ProcedureCheck, Procedure } from '../procedures/procedure.ts';
import type { JobValues, JobWork } from './job-values.ts';
import { runValues, volumeMl } from './run-entries.ts';
import type { StoredRun } from './run.ts';

/** A run that ended in a verdict. */
export type GradedRun = StoredRun & { readonly verdict: NonNullable<StoredRun['verdict']> };

/**
 * Graded runs of one check with no work between them that makes it one to be repeated. Runs that were left out do not stand here; those that are
 * not valid do.
 */
export interface RunGroup {
  /** Work just before these runs; null for those before any. Several works without a run between: the last. */
  readonly after: JobWork | null;
  readonly runs: readonly GradedRun[];
}

/**
 * The runs of a check that count, oldest first, cut into groups at each work that makes it one to be repeated: work at a station of its
 * `repeatAfter`, or work on a cause whose `repeat` names it. A run stands after a work when it began after it. The last group holds now; it
 * is empty where nothing was run since the last such work. There is always one.
 */
export function runGroups(
  procedure: Procedure,
  check: ProcedureCheck,
  values: JobValues,
  runs: readonly StoredRun[],
): readonly [RunGroup, ...RunGroup[]] {
  const counting = runs
    .filter((run) => run.check === check.id && !values.leftOutRuns.has(run.id))
    .filter((run): run is GradedRun => run.verdict !== null && run.state !== 'abandoned')
    .toSorted((a, b) => Date.parse(a.createdAt) - Date.parse(b.createdAt));
  const works = values.works
    .filter((work) => asksForRepeat(procedure, check, work))
    .toSorted((a, b) => Date.parse(a.atIso) - Date.parse(b.atIso));
  const place = (run: StoredRun) => works.filter(({ atIso }) => isBefore(atIso, run.createdAt)).length;
  const groups = works.map((after, before) => ({
    after,
    runs: counting.filter((run) => place(run) === before + 1),
  }));
  const first = { after: null, runs: counting.filter((run) => place(run) === 0) };
  // Of groups without a run only the last says something: that nothing was run since.
  const told = groups.filter((group, index) => group.runs.length > 0 || index === groups.length - 1);
  return [first, ...told];
}

/** Whether the work makes the check one to be repeated. */
export function asksForRepeat(procedure: Procedure, check: ProcedureCheck, work: JobWork): boolean {
  if (check.repeatAfter.includes(work.station)) return true;
  const cause = procedure.causes.find(({ id }) => id === work.cause);
  return cause?.repeat.includes(check.id) ?? false;
}

const isBefore = (earlier: string, later: string): boolean => Date.parse(earlier) < Date.parse(later);

/** The value that a run was graded on and the step of its instrument; runs of older formats kept only their volume. */
export function valueOfRun(run: StoredRun): { readonly value: number | null; readonly graduation: number } {
  if (run.valueSummary) return { value: run.valueSummary.value, graduation: run.valueSummary.step };
  const values = runValues(run.vessel, run.entries);
  return { value: volumeMl(values), graduation: values.vessel?.graduationMl ?? 0 };
}
