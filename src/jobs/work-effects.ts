import { beforeAfter, type BeforeAfter, type ComparedValue } from '../grading/before-after.ts';
import type { Procedure } from '../procedures/procedure.ts';
import { runGroups, valueOfRun, type GradedRun } from './check-runs.ts';
import type { JobValues, JobWork } from './job-values.ts';
import type { StoredRun, ValueSummary } from './run.ts';

/** One check before and after one work. */
export interface WorkEffect {
  readonly work: JobWork;
  readonly checkId: string;
  /** The runs before it, since the work before; never empty. */
  readonly before: readonly GradedRun[];
  /** The runs after it, up to the next work; empty while it was not repeated. */
  readonly after: readonly GradedRun[];
  readonly quantity: ValueSummary['quantity'] | null;
  /** Null where a side has no value, as inspections have none, or the sides are of different quantities. */
  readonly change: BeforeAfter | null;
}

/** What each work changed, check by check in the procedure's order: the runs on both sides of it and the difference of their values. */
export function workEffects(
  procedure: Procedure,
  values: JobValues,
  runs: readonly StoredRun[],
): readonly WorkEffect[] {
  return procedure.checks.flatMap((check) => {
    const groups = runGroups(procedure, check, values, runs);
    return groups.flatMap((group, place): readonly WorkEffect[] => {
      const before = groups.slice(0, place).findLast((earlier) => earlier.runs.length > 0)?.runs;
      if (!group.after || !before) return [];
      return [{ work: group.after, checkId: check.id, ...compared(before, group.runs) }];
    });
  });
}

function compared(before: readonly GradedRun[], after: readonly GradedRun[]) {
  const [from, to] = [before, after].map((runs) =>
    runs.filter((run) => run.verdict.word !== 'not valid' && valueOfRun(run).value !== null),
  ) as [GradedRun[], GradedRun[]];
  const quantities = [...new Set([...from, ...to].map(quantityOf))];
  const quantity = quantities.length === 1 ? quantities[0]! : null;
  const change = quantity === null ? null : beforeAfter(from.map(comparedValue), to.map(comparedValue));
  return { before, after, quantity, change };
}

const quantityOf = (run: GradedRun): ValueSummary['quantity'] => run.valueSummary?.quantity ?? 'volume';

/** Runs of older formats kept no uncertainty: then there is no number to compare with (NaN). */
const comparedValue = (run: GradedRun): ComparedValue => ({
  value: valueOfRun(run).value ?? NaN,
  standardUncertainty: run.valueSummary?.standardUncertainty ?? NaN,
});
