import { placeOnChart } from '../grading/grade-speed-chart.ts';
import { whatSettles } from '../grading/what-settles.ts';
import type { JudgedRun } from '../jobs/judge-run.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

/**
 * What to do after a verdict: the guide's steps; when it is too close to call, what would settle this very run, reckoned from where
 * its doubt comes from.
 */
export function nextSteps(judged: JudgedRun, guide: ProcedureCheck): readonly string[] {
  const { verdict, delivery, chart } = judged;
  if (!verdict) return [];
  const placed = placeOnChart(delivery, chart);
  const settling = placed.ok ? whatSettles(placed.value, verdict) : [];
  return settling.length > 0 ? settling.map(({ text }) => text) : guide.advice[verdict.word].next;
}
