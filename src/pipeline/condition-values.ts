import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { TraceColumns } from '../signals/trace.ts';
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
      return [signal, origin === null ? null : during(traceOf(state.traces, signal, origin), cranks)];
    }),
  );
}

function during(trace: TraceColumns, cranks: readonly Stretch[]): number | null {
  const lastEndMs = cranks.at(-1)?.endMs ?? Infinity;
  let sum = 0;
  let count = 0;
  let before: number | null = null;
  for (let row = 0; row < trace.length; row++) {
    const atMs = trace.atMs[row]!;
    const value = trace.value[row]!;
    if (Number.isNaN(value) || atMs > lastEndMs) continue;
    before = value;
    if (!cranks.some(({ startMs, endMs }) => atMs >= startMs && atMs <= endMs)) continue;
    sum += value;
    count++;
  }
  return count > 0 ? sum / count : before;
}
