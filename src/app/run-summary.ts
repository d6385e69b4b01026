import type { MeasurementSummary } from '../jobs/run.ts';
import type { RunView } from './run-view.ts';

/** What is kept of the measurement for lists; null where nothing could be judged. */
export function summaryOf({ judged }: RunView): MeasurementSummary | null {
  if (!judged.ok) return null;
  const { average, crankSeconds, cranks } = judged.value.delivery;
  return {
    averageSpeedRpm: average ? average.meanRpm : null,
    crankSeconds,
    cranks: cranks.map(({ crank, startMs, endMs, average: own, counts }) => ({
      startMs,
      endMs,
      meanSpeedRpm: own.meanRpm,
      coverage: own.coverage,
      endedBy: crank.endedBy,
      counts,
    })),
  };
}
