import type { StoredRun } from '../jobs/run.ts';
import type { CheckRow, CheckRunView } from '../ui/check-order.ts';
import type { JobView } from './job-view.ts';
import { valueWords } from './value-words.ts';

/** Day and time as they are shown in lists. */
export const dayAndTime = (iso: string): string =>
  new Date(iso).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

/** The checks of a job with their runs, as the order shows them. */
export function checkRows({ job, runs, values, findings, order }: JobView): readonly CheckRow[] {
  return job.procedure.checks.flatMap(({ id, title, purpose }, place): CheckRow[] => {
    const finding = findings.find(({ checkId }) => checkId === id);
    if (!finding) return [];
    const own = runs.filter(({ check }) => check === id);
    const counting = own.findLast((run) => run.verdict !== null && !values.leftOutRuns.has(run.id));
    return [
      {
        ...finding,
        title,
        purpose,
        value: valueWords(counting?.valueSummary ?? null),
        asksFor: order[place]?.waitsFor ?? [],
        runList: own.map((run) => runRow(run, values.leftOutRuns.get(run.id) ?? null)),
      },
    ];
  });
}

const runRow = (run: StoredRun, leftOut: string | null): CheckRunView => ({
  id: run.id,
  time: dayAndTime(run.createdAt),
  value: valueWords(run.valueSummary),
  verdict: run.verdict?.word ?? null,
  confidence: run.verdict?.confidence ?? null,
  leftOut,
});
