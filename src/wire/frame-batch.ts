/** Bits of `FrameBatch.flags`. */
export const FRAME_EXTENDED = 1; // 29-bit identifier
export const FRAME_REMOTE = 2; // remote request: no data
export const FRAME_ERROR = 4; // error frame of the controller, not traffic
export const FRAME_SENT = 8; // sent by this host (echo or candump T)

/**
 * CAN frames in columns, in the order received: no object a frame. Row i: `id[i]`, `data[8*i … 8*i+length[i]-1]`.
 * A batch is one continuous stretch of source time; `breakBefore` says that time is not continuous with what came before.
 * `atMs` is NaN where neither the source nor the arrival gives a time (a log without stamps).
 * Frames longer than 8 bytes (CAN FD) are counted elsewhere and not kept: J1939 has none.
 */
export interface FrameBatch {
  readonly count: number;
  readonly breakBefore: boolean;
  readonly atMs: Float64Array;
  readonly id: Uint32Array;
  readonly flags: Uint8Array;
  readonly length: Uint8Array;
  readonly channel: Uint8Array;
  readonly data: Uint8Array;
}
