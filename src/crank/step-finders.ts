import { SIGNAL_IDS } from '../quantities/reading.ts';
import type { ReadingBatch } from '../signals/reading-batch.ts';
import type { CrankSettings } from './crank.ts';
import {
  finderFrom,
  finderWriter,
  initialFinder,
  putSample,
  type FinderState,
  type FinderWriter,
} from './find-cranks.ts';

const SPEED = SIGNAL_IDS.indexOf('engineSpeed');

/**
 * The crank finders by origin after the speed readings of a batch, each in its own: origins are never mixed. An origin that was not
 * heard before begins anew. Rows without a time (NaN) and other signals are passed over. Without speed the same map comes back.
 */
export function stepFinders(
  finders: ReadonlyMap<number, FinderState>,
  { count, signal, atMs, value, origin }: ReadingBatch,
  settings: CrankSettings,
): ReadonlyMap<number, FinderState> {
  const writers = new Map<number, FinderWriter>();
  let from = NaN; // most rows come from where the last one did
  let writer: FinderWriter | null = null;
  for (let row = 0; row < count; row++) {
    if (signal[row] !== SPEED || Number.isNaN(atMs[row])) continue;
    if (writer === null || origin[row] !== from) {
      from = origin[row]!;
      writer = writers.get(from) ?? finderWriter(finders.get(from) ?? initialFinder(settings));
      writers.set(from, writer);
    }
    putSample(writer, atMs[row]!, value[row]!);
  }
  if (writers.size === 0) return finders;
  const stepped = new Map(finders);
  for (const [each, written] of writers) stepped.set(each, finderFrom(written));
  return stepped;
}
