import type { LimitQuantity } from '../limits/printed-unit.ts';
import type { Problem } from '../problems/problem.ts';
import type { ValueCause, ValueMeasurement } from './value-measurement.ts';

/** No value yet, or none at all, and why. */
export const noValue = (quantity: LimitQuantity, reasons: readonly Problem[]): ValueMeasurement => ({
  quantity,
  value: null,
  atLeast: false,
  standardUncertainty: NaN,
  parts: [],
  step: 0,
  stretch: null,
  typed: false,
  facts: [],
  reasons,
  warnings: [],
});

/** The parts of an uncertainty and their root sum of squares (GUM 5.1.2); parts of 0 are left out. */
export function partsOf(
  each: Partial<Record<ValueCause, number>>,
): Pick<ValueMeasurement, 'parts' | 'standardUncertainty'> {
  const parts = (Object.entries(each) as [ValueCause, number][])
    .filter(([, standardUncertainty]) => standardUncertainty !== 0)
    .map(([cause, standardUncertainty]) => ({ cause, standardUncertainty }));
  return { parts, standardUncertainty: Math.hypot(...parts.map((part) => part.standardUncertainty)) };
}
