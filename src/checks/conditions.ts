import type { LimitCondition } from '../limits/limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { ConditionValues } from './measurement.ts';
import { rounded } from './rounded.ts';

/** What the conditions of a limit do to a run: what makes it not valid, and what only warns. */
export interface Judged {
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/**
 * Holds the conditions under which a limit is good against what was measured. Both ends belong to the range. A condition that was not
 * measured never passes in silence: it warns, and the run is not valid where the sheet says that the condition decides.
 */
export function judgeConditions(conditions: readonly LimitCondition[], values: ConditionValues): Judged {
  const found = conditions.flatMap((condition) => {
    const broken = brokenCondition(condition, values[condition.signal] ?? NaN);
    return broken ? [{ broken, decides: condition.outside === 'not valid' }] : [];
  });
  return {
    reasons: found.filter(({ decides }) => decides).map(({ broken }) => broken),
    warnings: found.filter(({ decides }) => !decides).map(({ broken }) => broken),
  };
}

const NAMES: Readonly<Record<LimitCondition['signal'], { readonly name: string; readonly unit: string }>> = {
  fuelTemperature: { name: 'fuel temperature', unit: '°C' },
  coolantTemperature: { name: 'coolant temperature', unit: '°C' },
  batteryVoltage: { name: 'battery voltage', unit: 'V' },
  railPressure: { name: 'rail pressure', unit: 'kPa' },
};

function brokenCondition({ signal, min, max }: LimitCondition, value: number): Problem | null {
  const { name, unit } = NAMES[signal];
  const context = { condition: name, allowed: rangeText(min, max, unit) };
  if (!Number.isFinite(value)) return problem('check.condition-unknown', context);
  if (value >= (min ?? -Infinity) && value <= (max ?? Infinity)) return null;
  return problem('check.condition-outside', { ...context, value: `${rounded(value, 1)} ${unit}` });
}

function rangeText(min: number | null, max: number | null, unit: string): string {
  if (min === null) return `at most ${max} ${unit}`;
  return max === null ? `at least ${min} ${unit}` : `${min} to ${max} ${unit}`;
}
