/**
 * Readings in columns: `signal[i]` is the index into SIGNAL_IDS, `value[i]` is in the canonical unit of that signal (NaN unless valid),
 * `quality[i]` is the index into QUALITIES, `origin[i]` as in Reading. Rows are in the order received.
 */
export interface ReadingBatch {
  readonly count: number;
  readonly signal: Uint8Array;
  readonly atMs: Float64Array;
  readonly value: Float64Array;
  readonly quality: Uint8Array;
  readonly origin: Int32Array;
}
