import type { CollectedVolume, VolumeMeasurement } from '../checks/measurement.ts';
import type { ValueMeasurement } from '../checks/value-measurement.ts';
import { collectedRate } from '../grading/grade-rate.ts';
import type { ValueSummary } from './run.ts';

/** A volume for lists, repeats and the report: as it is graded, scaled where it stands as an estimate. Null before one was typed. */
export function volumeSummary(
  volume: VolumeMeasurement | null,
  atTargetMl: number | null,
): ValueSummary | null {
  if (!volume) return null;
  const scale = atTargetMl === null || volume.valueMl === 0 ? 1 : atTargetMl / volume.valueMl;
  return {
    quantity: 'volume',
    value: scale * volume.valueMl,
    standardUncertainty: scale * volume.standardUncertaintyMl,
    step: volume.vessel.graduationMl,
    facts: scale === 1 ? [] : [{ name: 'volume as read', value: volume.valueMl, unit: 'mL' }],
  };
}

/** A collected volume as a flow, mL/min; null before volume and time are known. */
export function rateSummary(collected: CollectedVolume): ValueSummary | null {
  const rate = collectedRate(collected);
  const { volume, seconds } = collected;
  if (!rate.ok || !volume || seconds === null) return null;
  return {
    quantity: 'rate',
    value: rate.value.value,
    standardUncertainty: rate.value.budget.combined,
    step: (60 * volume.vessel.graduationMl) / seconds,
    facts: [
      { name: 'volume as read', value: volume.valueMl, unit: 'mL' },
      { name: 'time', value: seconds, unit: 's' },
    ],
  };
}

/** A measured value; null while there is none. */
export function valueSummaryOf(measured: ValueMeasurement): ValueSummary | null {
  const { quantity, value, standardUncertainty, step, facts } = measured;
  return value === null ? null : { quantity, value, standardUncertainty, step, facts: [...facts] };
}
