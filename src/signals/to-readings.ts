import type { SpnBatch } from '../j1939/spn-batch.ts';
import { SPN_TABLE } from '../j1939/spn-table.ts';
import { toCanonical } from '../quantities/convert.ts';
import { SIGNAL_IDS } from '../quantities/reading.ts';
import { SIGNALS } from './catalogue.ts';
import type { ReadingBatch } from './reading-batch.ts';

const SIGNAL_OF_PARAMETER: readonly number[] = SPN_TABLE.map((_, parameter) =>
  SIGNAL_IDS.findIndex((id) => SIGNALS[id].parameter === parameter),
);
const ZERO: readonly number[] = SPN_TABLE.map(({ unit }) => toCanonical(0, unit));
const FACTOR: readonly number[] = SPN_TABLE.map(({ unit }, i) => toCanonical(1, unit) - ZERO[i]!);

/**
 * Parameter values as readings of named signals in canonical units, row by row (NaN stays NaN). Times, qualities and origins are
 * the batch's own columns, not copies.
 */
export function toReadings(batch: SpnBatch): ReadingBatch {
  const { count, atMs, parameter, quality, origin } = batch;
  const signal = new Uint8Array(count);
  const value = new Float64Array(count);
  for (let row = 0; row < count; row++) {
    const which = parameter[row]!;
    signal[row] = SIGNAL_OF_PARAMETER[which]!;
    value[row] = batch.value[row]! * FACTOR[which]! + ZERO[which]!;
  }
  return { count, signal, atMs, value, quality, origin };
}
