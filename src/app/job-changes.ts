import type { StoredRun } from '../jobs/run.ts';
import { formatNumber } from '../quantities/format.ts';
import type { JobView } from './job-view.ts';
import { shownUnit, shownValue, valueWords } from './value-words.ts';

/** One check before and after a piece of work, in words. */
export interface ChangeRow {
  readonly title: string;
  readonly before: string;
  readonly after: string;
  readonly difference: string;
}

/**
 * Before and after side by side: for each check the last run before the last work that touches it, and the last one since. The difference carries both
 * uncertainties, combined as for independent measurements (JCGM 100 5.1.2); beyond two of them it is called more than chance.
 */
export function changeRows({
  job,
  runs,
  values,
}: Pick<JobView, 'job' | 'runs' | 'values'>): readonly ChangeRow[] {
  return job.procedure.checks.flatMap((check): ChangeRow[] => {
    const work = values.works.findLast(({ station }) => check.repeatAfter.includes(station));
    if (!work) return [];
    const own = runs.filter(
      (run) => run.check === check.id && run.verdict !== null && !values.leftOutRuns.has(run.id),
    );
    const before = own.findLast(({ createdAt }) => Date.parse(createdAt) <= Date.parse(work.atIso));
    const after = own.findLast(({ createdAt }) => Date.parse(createdAt) > Date.parse(work.atIso));
    if (!before || !after) return [];
    return [
      {
        title: check.title,
        before: words(before),
        after: words(after),
        difference: difference(before, after),
      },
    ];
  });
}

const words = ({ verdict, valueSummary }: StoredRun): string =>
  [valueWords(valueSummary), verdict?.word ?? ''].filter(Boolean).join(', ');

function difference({ valueSummary: before }: StoredRun, { valueSummary: after }: StoredRun): string {
  if (!before || !after || before.value === null || after.value === null) return '';
  if (before.quantity !== after.quantity) return '';
  const { quantity } = after;
  const by = shownValue(after.value - before.value, quantity);
  const doubt = 2 * shownValue(Math.hypot(before.standardUncertainty, after.standardUncertainty), quantity);
  const decimals = Math.abs(by) >= 100 ? 0 : Math.abs(by) >= 10 ? 1 : 2;
  const shown = `${by > 0 ? '+' : ''}${formatNumber(by, { decimals })} ± ${formatNumber(doubt, { decimals })} ${shownUnit(quantity)}`;
  return `${shown}: ${Math.abs(by) > doubt ? 'more than chance' : 'may be chance'}`;
}
