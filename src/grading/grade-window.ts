import type { CollectedVolume } from '../checks/measurement.ts';
import type { Window } from '../limits/limit-sheet.ts';
import { LIMIT_UNIT } from '../limits/printed-unit.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Boundary, Placement } from './boundary.ts';
import { gradedVolume } from './graded-volume.ts';
import { judge, notValid } from './judge.ts';
import { combine, type UncertaintyBudget } from './uncertainty.ts';
import type { Verdict } from './verdict.ts';

/** One value to be held against a window, in the unit of its quantity (`LIMIT_UNIT`). */
export interface WindowValue {
  readonly quantity: Window['quantity'];
  readonly value: number;
  readonly budget: UncertaintyBudget;
}

/** The verdict on one value against a window. Both ends of the window pass. Reasons make it not valid. */
export function gradeWindow(
  value: WindowValue,
  window: Window,
  found: { readonly reasons: readonly Problem[]; readonly warnings: readonly Problem[] },
): Verdict {
  const placed = placeInWindow(value, window);
  const reasons = [...found.reasons, ...(placed.ok ? [] : [placed.problem])];
  return placed.ok && reasons.length === 0
    ? judge(placed.value, found.warnings)
    : notValid(reasons, found.warnings);
}

/** The verdict on a volume collected over a time (scaled to the window's time where that was overridden). */
export function gradeCollectedVolume(collected: CollectedVolume, window: Window): Verdict {
  const value = collectedValue(collected);
  if (!value.ok) return notValid([...collected.reasons, value.problem], collected.warnings);
  const warnings = [...collected.warnings, ...value.value.warnings];
  return gradeWindow(value.value, window, { reasons: collected.reasons, warnings });
}

/** The volume of a collection as a value for a window, with what warns about it. */
export function collectedValue(
  collected: CollectedVolume,
): Result<WindowValue & { readonly warnings: readonly Problem[] }> {
  const volume = gradedVolume(collected);
  if (!volume.ok) return volume;
  const { valueMl, parts, warnings } = volume.value;
  return ok({ quantity: 'volume', value: valueMl, budget: combine(parts), warnings });
}

/** Where the value lies in the window. Fails for another quantity than the window's, and for numbers that are none. */
export function placeInWindow({ quantity, value, budget }: WindowValue, window: Window): Result<Placement> {
  if (quantity !== window.quantity) {
    return failed(problem('check.other-quantity', { limit: window.quantity, measured: quantity }));
  }
  if (!Number.isFinite(value) || !Number.isFinite(budget.combined)) return failed(problem('check.no-value'));
  const side = (name: 'min' | 'max', atValue: number | null): readonly Boundary[] =>
    atValue === null ? [] : [{ ...SIDES[name], name, atValue, slopePerRpm: 0, budget }];
  return ok({
    value,
    unit: LIMIT_UNIT[quantity],
    speedRpm: null,
    boundaries: [...side('min', window.min), ...side('max', window.max)],
    above: window.max === null ? 'pass' : 'fail high',
  });
}

const SIDES = {
  min: { below: 'fail low', ownValueIsBelow: false },
  max: { below: 'pass', ownValueIsBelow: true },
} as const;
