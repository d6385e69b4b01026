import { QUALITIES, SIGNAL_IDS, type Reading } from '../quantities/reading.ts';
import type { ReadingBatch } from '../signals/reading-batch.ts';

/** Readings, one object each as a line protocol gives them, in columns. NaN for a time or a value that is not there. */
export function batchReadings(readings: readonly Reading[]): ReadingBatch {
  return {
    count: readings.length,
    signal: Uint8Array.from(readings, ({ signal }) => SIGNAL_IDS.indexOf(signal)),
    atMs: Float64Array.from(readings, ({ atMs }) => atMs),
    value: Float64Array.from(readings, ({ value }) => value ?? NaN),
    quality: Uint8Array.from(readings, ({ quality }) => QUALITIES.indexOf(quality)),
    origin: Int32Array.from(readings, ({ origin }) => origin),
  };
}
