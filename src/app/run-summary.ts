import type { MeasurementSummary, ValueSummary } from '../jobs/run.ts';
import { volumeSummary } from '../jobs/value-summary.ts';
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

/** The graded value, for lists, repeats and before and after; null where there is none. */
export function valueSummaryIn({ checked, judged }: RunView): ValueSummary | null {
  if (checked) return checked.ok ? checked.value.valueSummary : null;
  if (!judged.ok) return null;
  const { volume, volumeAtTargetMl } = judged.value.delivery;
  return volumeSummary(volume, volumeAtTargetMl);
}
