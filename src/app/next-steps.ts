import { placeOnChart } from '../grading/grade-speed-chart.ts';
import { whatSettles } from '../grading/what-settles.ts';
import type { JudgedRun } from '../jobs/judge-run.ts';
import { CRANK_DELIVERY_GUIDE } from '../procedures/guides.ts';

/**
 * What to do after a verdict: the guide's steps; when it is too close to call, what would settle this very run, reckoned from where
 * its doubt comes from.
 */
export function nextSteps(judged: JudgedRun): readonly string[] {
  const { verdict, delivery, chart } = judged;
  if (!verdict) return [];
  const placed = placeOnChart(delivery, chart);
  const settling = placed.ok ? whatSettles(placed.value, verdict) : [];
  return settling.length > 0
    ? settling.map(({ text }) => text)
    : CRANK_DELIVERY_GUIDE.advice[verdict.word].next;
}
