import type { ChosenSignals } from '../checks/chosen-signal.ts';
import type { ConditionValues } from '../checks/measurement.ts';
import type { Stretch } from '../checks/value-measurement.ts';
import { meanOver } from '../signals/mean-over.ts';

const CONDITIONS = ['fuelTemperature', 'coolantTemperature', 'batteryVoltage', 'railPressure'] as const;

/**
 * What the conditions of a limit were over the stretches that were measured: the mean of the values, else the last one before. For typed values, which
 * have no stretch, the last value of all. Null where nothing was heard.
 */
export const conditionsOver = (signals: ChosenSignals, stretches: readonly Stretch[]): ConditionValues =>
  Object.fromEntries(
    CONDITIONS.map((signal) => {
      const heard = signals[signal];
      return [signal, heard ? meanOver(heard.trace, stretches) : null];
    }),
  );
