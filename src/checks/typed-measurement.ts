import type { LimitQuantity } from '../limits/printed-unit.ts';
import { LIMIT_UNIT } from '../limits/printed-unit.ts';
import { problem } from '../problems/problem.ts';
import { noValue, partsOf } from './empty-value.ts';
import type { TypedValue, ValueMeasurement } from './value-measurement.ts';

/** Rectangular distribution of this half-width (GUM 4.3.7): divide by this. */
const RECTANGULAR = Math.sqrt(3);

/**
 * A value that a person read off an instrument: tolerance and half a step, each rectangular (GUM 4.3.7). Numbers that are none, or a tolerance or
 * step below zero, give `check.no-value`; a time or a deviation below zero `check.value-negative`.
 */
export function typedMeasurement(
  quantity: LimitQuantity,
  { value, tolerance, halfStep }: TypedValue,
  mayBeNegative = false,
): ValueMeasurement {
  const usable = Number.isFinite(value) && [tolerance, halfStep].every((n) => Number.isFinite(n) && n >= 0);
  if (!usable) return noValue(quantity, [problem('check.no-value')]);
  if (value < 0 && !mayBeNegative)
    return noValue(quantity, [problem('check.value-negative', { value, unit: LIMIT_UNIT[quantity] })]);
  return {
    ...noValue(quantity, []),
    value,
    ...partsOf({ instrument: tolerance / RECTANGULAR, instrumentStep: halfStep / RECTANGULAR }),
    step: 2 * halfStep,
    typed: true,
    warnings: tolerance === 0 && halfStep === 0 ? [problem('check.instrument-unknown')] : [],
  };
}
