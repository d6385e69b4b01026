import { beforeAfter, type ComparedValue } from '../grading/before-after.ts';
import type { StoredRun, ValueSummary } from '../jobs/run.ts';
import { formatNumber } from '../quantities/format.ts';
import type { BeforeAfterRow, ResultView } from '../ui/before-after.ts';
import type { JobView } from './job-view.ts';
import { shownUnit, shownValue, valueWords } from './value-words.ts';

/** Before and after the last work that touches a check, side by side; checks without a result on both sides are left out. */
export function changeRows({
  job,
  runs,
  values,
}: Pick<JobView, 'job' | 'runs' | 'values'>): readonly BeforeAfterRow[] {
  return job.procedure.checks.flatMap((check): BeforeAfterRow[] => {
    const work = values.works.findLast(({ station }) => check.repeatAfter.includes(station));
    if (!work) return [];
    const own = runs.filter(
      (run) => run.check === check.id && run.verdict !== null && !values.leftOutRuns.has(run.id),
    );
    const isAfter = ({ createdAt }: StoredRun) => Date.parse(createdAt) > Date.parse(work.atIso);
    const before = own.filter((run) => !isAfter(run));
    const after = own.filter(isAfter);
    if (before.length === 0 || after.length === 0) return [];
    return [{ checkId: check.id, title: check.title, ...results(before, after), ...change(before, after) }];
  });
}

const results = (before: readonly StoredRun[], after: readonly StoredRun[]) => ({
  before: resultOf(before),
  after: resultOf(after),
});

/** The last run stands for its side, beside how many there are. */
function resultOf(runs: readonly StoredRun[]): ResultView | null {
  const last = runs.at(-1);
  if (!last?.verdict) return null;
  const { word, confidence } = last.verdict;
  return { value: valueWords(last.valueSummary), word, confidence, runs: runs.length };
}

const measured = (runs: readonly StoredRun[], quantity: ValueSummary['quantity']): readonly ComparedValue[] =>
  runs.flatMap(({ valueSummary }) =>
    valueSummary && valueSummary.value !== null && valueSummary.quantity === quantity
      ? [{ value: valueSummary.value, standardUncertainty: valueSummary.standardUncertainty }]
      : [],
  );

function change(
  before: readonly StoredRun[],
  after: readonly StoredRun[],
): Pick<BeforeAfterRow, 'difference' | 'chance'> {
  const quantity = after.at(-1)?.valueSummary?.quantity;
  const compared = quantity ? beforeAfter(measured(before, quantity), measured(after, quantity)) : null;
  if (!quantity || !compared) return { difference: '', chance: 'not comparable' };
  const by = shownValue(compared.difference, quantity);
  const doubt = shownValue(compared.expandedUncertainty, quantity);
  const size = Math.abs(by);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  const shown = `${by > 0 ? '+' : ''}${formatNumber(by, { decimals })} ± ${formatNumber(doubt, { decimals })}`;
  return {
    difference: `${shown}\u00a0${shownUnit(quantity)}`,
    chance: compared.moreThanChance ? 'more than chance' : 'may be chance',
  };
}
