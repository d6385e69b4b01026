/**
 * One signal of one origin over time, in growing columns. Append only: what stands at an index never changes, so a reader
 * that keeps `length` holds a consistent snapshot. `atMs` never falls. `value` is NaN where there was no number (see `quality`).
 */
export interface TraceColumns {
  readonly length: number;
  readonly atMs: Float64Array; // may be longer than `length`
  readonly value: Float64Array;
  readonly quality: Uint8Array;
}
