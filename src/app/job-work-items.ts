import { asksForRepeat } from '../jobs/check-runs.ts';
import type { JobWork } from '../jobs/job-values.ts';
import { causeOf } from '../procedures/library.ts';
import { STATIONS } from '../procedures/station.ts';
import type { WorkCause } from '../ui/work-form.ts';
import type { WorkRunMark, WorkView } from '../ui/work-list.ts';
import { dayAndTime } from './job-rows.ts';
import type { JobView } from './job-view.ts';
import { valueWords } from './value-words.ts';

/** Works, those that were withdrawn too, and graded runs, in the order of time; runs only once there is work that they stand around. */
export function workItems(view: JobView): readonly (WorkView | WorkRunMark)[] {
  const { values, runs } = view;
  const works = [
    ...values.works.map((work) => [work.atIso, workView(view, work, null)] as const),
    ...values.withdrawnWorks.map(({ work, reason }) => [work.atIso, workView(view, work, reason)] as const),
  ];
  if (works.length === 0) return [];
  const marks = runs
    .filter(({ id, verdict }) => verdict !== null && !values.leftOutRuns.has(id))
    .map((run): readonly [string, WorkRunMark] => [
      run.createdAt,
      {
        kind: 'run',
        id: run.id,
        time: dayAndTime(run.createdAt),
        title: run.title,
        value: valueWords(run.valueSummary),
        word: run.verdict?.word ?? null,
      },
    ]);
  return [...works, ...marks].toSorted(([a], [b]) => Date.parse(a) - Date.parse(b)).map(([, item]) => item);
}

function workView({ job, findings }: JobView, work: JobWork, withdrawn: string | null): WorkView {
  const cause = work.cause === null ? null : causeOf(job.procedure, work.cause);
  const waiting = new Set(
    findings.filter(({ repeatBecause }) => repeatBecause !== null).map(({ checkId }) => checkId),
  );
  return {
    kind: 'work',
    id: work.workId,
    time: dayAndTime(work.atIso),
    what: work.what,
    station: STATIONS[work.station].name,
    part: work.part,
    cause: cause?.text ?? '',
    note: work.note,
    primed: work.primedAtIso === null ? null : dayAndTime(work.primedAtIso),
    repeat: job.procedure.checks
      .filter((check) => waiting.has(check.id) && asksForRepeat(job.procedure, check, work))
      .map(({ title }) => title),
    withdrawn,
  };
}

/** What work may put right, most suspected first. */
export function workCauses({ job, next }: Pick<JobView, 'job' | 'next'>): readonly WorkCause[] {
  const place = new Map(next.causes.map(({ causeId }, at) => [causeId, at]));
  const of = (id: string) => place.get(id) ?? Number.MAX_SAFE_INTEGER;
  return job.procedure.causes
    .toSorted((a, b) => of(a.id) - of(b.id))
    .map(({ id, station, text }) => ({ id, station, text }));
}
