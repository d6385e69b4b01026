/** Quality codes in columns; the index into QUALITIES of quantities/reading.ts. */
export const QUALITY_VALID = 0;
export const QUALITY_ERROR = 1;
export const QUALITY_NOT_AVAILABLE = 2;

/**
 * Values of suspect parameters in columns, in the order received. `parameter[i]` is the index into SPN_TABLE;
 * `value[i]` is in the unit of that entry, NaN unless `quality[i]` is valid; `origin[i]` = channel * 256 + address.
 */
export interface SpnBatch {
  readonly count: number;
  readonly atMs: Float64Array;
  readonly parameter: Uint8Array;
  readonly value: Float64Array;
  readonly quality: Uint8Array;
  readonly origin: Int32Array;
}
