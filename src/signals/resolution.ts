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

/** Highest raw value that is a number, by the bits of a parameter (SAE J1939-71 table 1: 0xFA, 0xFAFF, 0xFAFFFFFF); above are error and not available. */
const HIGHEST_RAW: Partial<Record<number, number>> = { 8: 0xfa, 16: 0xfaff, 32: 0xfaffffff };

/**
 * The highest value that a signal can have on the bus, in its canonical unit (SPN 94: 1000 kPa): what reads so may be anything above. Infinity for logs,
 * of which it is not known.
 */
export function topOf(signal: SignalId, origin: number): number {
  if (origin === NO_ORIGIN) return Infinity;
  const { scale, offset, unit, bits } = SPN_TABLE[SIGNALS[signal].parameter]!;
  const raw = HIGHEST_RAW[bits];
  return raw === undefined ? Infinity : toCanonical(raw * scale + offset, unit);
}

function smallestStep({ count, value }: CleanRows): number {
  let least = Infinity;
  for (let row = 1; row < count; row++) {
    const step = Math.abs(value[row]! - value[row - 1]!);
    if (step > 0 && step < least) least = step;
  }
  return least === Infinity ? 0 : least;
}
