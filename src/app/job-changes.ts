import type { BeforeAfter } from '../grading/before-after.ts';
import type { GradedRun } from '../jobs/check-runs.ts';
import type { ValueSummary } from '../jobs/run.ts';
import { workEffects } from '../jobs/work-effects.ts';
import { formatNumber } from '../quantities/format.ts';
import type { BeforeAfterRow, ResultView } from '../ui/before-after.ts';
import type { JobView } from './job-view.ts';
import { shownUnit, shownValue, valueWords } from './value-words.ts';

/** What each work changed, check by check, in words; checks that were not repeated after it are left out. */
export function changeRows({
  job,
  runs,
  values,
}: Pick<JobView, 'job' | 'runs' | 'values'>): readonly BeforeAfterRow[] {
  return workEffects(job.procedure, values, runs).flatMap(
    ({ checkId, before, after, quantity, change }): BeforeAfterRow[] => {
      if (after.length === 0) return [];
      const title = job.procedure.checks.find(({ id }) => id === checkId)?.title ?? checkId;
      const sides = { before: resultOf(before), after: resultOf(after) };
      return [{ checkId, title, ...sides, ...changeWords(quantity, change) }];
    },
  );
}

/** The last run stands for its side, beside how many there are. */
function resultOf(runs: readonly GradedRun[]): ResultView | null {
  const last = runs.at(-1);
  if (!last) return null;
  const { word, confidence } = last.verdict;
  return { value: valueWords(last.valueSummary), word, confidence, runs: runs.length };
}

function changeWords(
  quantity: ValueSummary['quantity'] | null,
  change: BeforeAfter | null,
): Pick<BeforeAfterRow, 'difference' | 'chance'> {
  if (quantity === null || !change) return { difference: '', chance: 'not comparable' };
  const by = shownValue(change.difference, quantity);
  const doubt = shownValue(change.expandedUncertainty, quantity);
  const size = Math.abs(by);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  const shown = `${by > 0 ? '+' : ''}${formatNumber(by, { decimals })} ± ${formatNumber(doubt, { decimals })}`;
  return {
    difference: `${shown}\u00a0${shownUnit(quantity)}`,
    chance: change.moreThanChance ? 'more than chance' : 'may be chance',
  };
}
