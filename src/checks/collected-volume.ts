import type { Window } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { judgeConditions } from './conditions.ts';
import type {
  CollectedVolume,
  ConditionValues,
  Override,
  TimedSpan,
  VolumeMeasurement,
} from './measurement.ts';
import { applyOverrides } from './overrides.ts';
import { scaledToTarget, timeOutside } from './time-on-target.ts';

/** A volume collected over a time, e.g. what the pump returns in 30 s. */
export interface CollectedVolumeInput {
  readonly limit: Pick<Window, 'durationSeconds' | 'timeTolerancePercent' | 'conditions'>;
  readonly volume: VolumeMeasurement | null;
  /** How long it was collected; null while not known. */
  readonly time: TimedSpan | null;
  readonly conditions?: ConditionValues;
  readonly overrides?: readonly Override[];
}

/** measurement.md section 4: default tolerance of the time. */
const DEFAULT_TOLERANCE_PERCENT = 5;

/**
 * Puts a collected volume together with its time. Where the limit states a time: a missing or impossible one, and one outside the tolerance,
 * are reasons; the latter comes with the volume scaled to the target time as an estimate, and can be overridden with a reason.
 */
export function measureCollectedVolume(input: CollectedVolumeInput): CollectedVolume {
  const { limit, volume, time } = input;
  const seconds = usableSeconds(time);
  const target = limit.durationSeconds;
  const late = target === null ? null : timeProblem(seconds, target, limit);
  const around = judgeConditions(limit.conditions, input.conditions ?? {});
  const judged = { reasons: [...(late ? [late] : []), ...around.reasons], warnings: around.warnings };
  return {
    volume,
    seconds,
    secondsUncertainty: (time?.standardUncertaintyMs ?? 0) / 1000,
    targetSeconds: target,
    volumeAtTargetMl: late && volume ? scaledToTarget(volume.valueMl, seconds ?? 0, target ?? 0) : null,
    ...applyOverrides(judged, input.overrides ?? []),
  };
}

const usableSeconds = (time: TimedSpan | null): number | null =>
  time && Number.isFinite(time.spanMs) && time.spanMs > 0 ? time.spanMs / 1000 : null;

function timeProblem(
  seconds: number | null,
  target: number,
  limit: CollectedVolumeInput['limit'],
): Problem | null {
  if (seconds === null) return problem('check.no-time', { target });
  const tolerancePercent = limit.timeTolerancePercent ?? DEFAULT_TOLERANCE_PERCENT;
  return timeOutside(seconds, { seconds: target, tolerancePercent });
}
