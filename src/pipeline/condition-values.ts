import { meanOver } from '../signals/mean-over.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { PipelineState } from './pipeline.ts';

/** The signals that a limit may name as a condition. */
const CONDITION_SIGNALS = [
  'fuelTemperature',
  'coolantTemperature',
  'batteryVoltage',
  'railPressure',
] as const;
export type ConditionSignal = (typeof CONDITION_SIGNALS)[number];

interface Stretch {
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * What the conditions of a limit were during the cranks: the plain mean of the valid values within them, else (for slow groups that sent
 * nothing in so short a time) the last valid value before the end of the last crank. Null where nothing was heard.
 */
export function conditionValues(
  state: PipelineState,
  cranks: readonly Stretch[],
): Partial<Record<ConditionSignal, number | null>> {
  return Object.fromEntries(
    CONDITION_SIGNALS.map((signal) => {
      const origin = chosenOrigin(state.traces, signal);
      return [signal, origin === null ? null : meanOver(traceOf(state.traces, signal, origin), cranks)];
    }),
  );
}
