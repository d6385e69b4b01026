import { SIGNAL_IDS } from '../quantities/reading.ts';
import type { ReadingBatch } from '../signals/reading-batch.ts';

const SPEED = SIGNAL_IDS.indexOf('engineSpeed');

/** How far the given time has come: speed readings of the first origin that sent one are the clock. */
export interface GivenTime {
  readonly origin: number | null;
  readonly ticks: number;
}

export const GIVEN_TIME_START: GivenTime = { origin: null, ticks: 0 };

/**
 * Puts time on readings that have none (a log without stamps), from the interval in ms between two speed readings that the
 * person gave: the k-th speed reading stands at k * interval, everything else at the time of the speed reading before it.
 * Readings that have a time keep it.
 */
export function giveTime(
  given: GivenTime,
  batch: ReadingBatch,
  intervalMs: number,
): { readonly given: GivenTime; readonly batch: ReadingBatch } {
  const atMs = new Float64Array(batch.count);
  let { origin, ticks } = given;
  for (let row = 0; row < batch.count; row++) {
    if (!Number.isNaN(batch.atMs[row])) {
      atMs[row] = batch.atMs[row]!;
      continue;
    }
    if (batch.signal[row] === SPEED) {
      origin ??= batch.origin[row]!;
      if (batch.origin[row] === origin) ticks++;
    }
    atMs[row] = Math.max(0, ticks - 1) * intervalMs;
  }
  return { given: { origin, ticks }, batch: { ...batch, atMs } };
}
