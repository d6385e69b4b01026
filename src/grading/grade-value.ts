import type { ValueMeasurement } from '../checks/value-measurement.ts';
import type { Window } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { Boundary, Placement } from './boundary.ts';
import { probabilityBelow } from './conformity.ts';
import { gradeWindow, placeInWindow, type WindowValue } from './grade-window.ts';
import { NEEDED_CONFIDENCE, judge, notValid } from './judge.ts';
import { combine } from './uncertainty.ts';
import type { Verdict } from './verdict.ts';

/** A measured value as a value for a window; null while there is none. */
export function windowValue({ quantity, value, parts }: ValueMeasurement): WindowValue | null {
  if (value === null) return null;
  const budget = combine(
    parts.map(({ cause, standardUncertainty }) => ({ cause, contribution: standardUncertainty })),
  );
  return { quantity, value, budget };
}

/**
 * The verdict on a measured value against a window. Reasons make it not valid. A value that is only known to be at least so much (`atLeast`) is judged where
 * that is enough: above the highest boundary with the needed confidence its zone cannot change any more, and the reason becomes a warning.
 */
export function gradeValue(
  measurement: ValueMeasurement,
  window: Window,
  more: readonly Problem[] = [],
): Verdict {
  const { reasons } = measurement;
  const warnings = [...measurement.warnings, ...more];
  const value = windowValue(measurement);
  if (!value) return notValid(reasons.length > 0 ? reasons : [problem('check.no-value')], warnings);
  const placed = measurement.atLeast ? placeInWindow(value, window) : null;
  if (placed?.ok && isDecided(placed.value)) return judge(placed.value, [...reasons, ...warnings]);
  return gradeWindow(value, window, { reasons, warnings });
}

/** Whether the value lies above the highest boundary, for all that is known. */
function isDecided({ value, boundaries }: Placement): boolean {
  const highest = boundaries.reduce<Boundary | null>(
    (most, each) => (most === null || each.atValue > most.atValue ? each : most),
    null,
  );
  if (highest === null || value <= highest.atValue) return false;
  const estimate = { value, standardUncertainty: highest.budget.combined };
  return 1 - probabilityBelow(estimate, highest.atValue) >= NEEDED_CONFIDENCE;
}
