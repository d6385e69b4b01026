import { SPN_TABLE } from '../j1939/spn-table.ts';
import { toCanonical } from '../quantities/convert.ts';
import { NO_ORIGIN, type SignalId } from '../quantities/reading.ts';
import { SIGNALS } from './catalogue.ts';
import type { CleanRows } from './clean-rows.ts';

/**
 * What one step of a signal is worth, in its canonical unit: from the bus what its parameter says (SPN 94: 4 kPa), from a log the smallest step
 * between two neighbouring rows, since nothing else tells. 0 where a log never moves.
 */
export function stepOf(signal: SignalId, origin: number, rows: CleanRows): number {
  if (origin === NO_ORIGIN) return smallestStep(rows);
  const { scale, unit } = SPN_TABLE[SIGNALS[signal].parameter]!;
  return scale * (toCanonical(1, unit) - toCanonical(0, unit));
}

function smallestStep({ count, value }: CleanRows): number {
  let least = Infinity;
  for (let row = 1; row < count; row++) {
    const step = Math.abs(value[row]! - value[row - 1]!);
    if (step > 0 && step < least) least = step;
  }
  return least === Infinity ? 0 : least;
}
