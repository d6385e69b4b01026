import type { CollectedVolume } from '../checks/measurement.ts';
import type { Window } from '../limits/limit-sheet.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { gradedVolume } from './graded-volume.ts';
import { gradeWindow, type WindowValue } from './grade-window.ts';
import { notValid } from './judge.ts';
import { combine } from './uncertainty.ts';
import type { Verdict } from './verdict.ts';

const SECONDS_A_MINUTE = 60;

/** A collected volume over its time as a flow, mL/min: volume, and each part of its uncertainty, times 60 s over the time (GUM 5.1.2). */
export function collectedRate(collected: CollectedVolume): Result<WindowValue> {
  const volume = gradedVolume({ ...collected, volumeAtTargetMl: null });
  if (!volume.ok) return volume;
  if (collected.seconds === null) return failed(problem('check.no-time', { target: SECONDS_A_MINUTE }));
  const factor = SECONDS_A_MINUTE / collected.seconds;
  const parts = volume.value.parts.map(({ cause, contribution }) => ({
    cause,
    contribution: factor * contribution,
  }));
  return ok({ quantity: 'rate', value: factor * volume.value.valueMl, budget: combine(parts) });
}

/** The verdict on a collected volume against a window of a flow, whatever time it was collected over. */
export function gradeCollectedRate(collected: CollectedVolume, window: Window): Verdict {
  const rate = collectedRate(collected);
  const volume = gradedVolume({ ...collected, volumeAtTargetMl: null });
  const warnings = [...collected.warnings, ...(volume.ok ? volume.value.warnings : [])];
  if (!rate.ok) return notValid([...collected.reasons, rate.problem], warnings);
  return gradeWindow(rate.value, window, { reasons: collected.reasons, warnings });
}
