import {
  FRAME_ERROR,
  FRAME_EXTENDED,
  FRAME_REMOTE,
  FRAME_SENT,
  type FrameBatch,
} from '../wire/frame-batch.ts';
import { isJ1939, pgnOf } from './can-id.ts';
import { QUALITY_VALID, type SpnBatch } from './spn-batch.ts';
import { bytesNeeded, qualityOfRaw, readRaw } from './spn-codec.ts';
import { SPN_TABLE, type SpnEntry } from './spn-table.ts';

interface Placed {
  readonly entry: SpnEntry;
  readonly parameter: number;
  readonly bytes: number;
}

const PLACED: readonly Placed[] = SPN_TABLE.map((entry, parameter) => ({
  entry,
  parameter,
  bytes: bytesNeeded(entry),
}));

const BY_PGN: ReadonlyMap<number, readonly Placed[]> = new Map(
  SPN_TABLE.map(({ pgn }) => [pgn, PLACED.filter(({ entry }) => entry.pgn === pgn)]),
);

/** Room for the group with most parameters in each frame, so that columns never grow while decoding. */
const MOST_A_FRAME = Math.max(...[...BY_PGN.values()].map((placed) => placed.length));

const KINDS = FRAME_EXTENDED | FRAME_REMOTE | FRAME_ERROR | FRAME_SENT;

/**
 * The parameters of SPN_TABLE in a batch of frames, in the order received (within a frame in the order of the table).
 * Only received data frames with a 29-bit J1939 identifier count. A frame too short for a parameter gives no row for it.
 * Never throws. Makes no object a frame.
 */
export function decodeFrames(batch: FrameBatch): SpnBatch {
  const rows = emptyRows(batch.count * MOST_A_FRAME);
  let count = 0;
  for (let frame = 0; frame < batch.count; frame++) {
    if ((batch.flags[frame]! & KINDS) !== FRAME_EXTENDED) continue;
    const id = batch.id[frame]!;
    const placed = isJ1939(id) ? BY_PGN.get(pgnOf(id)) : undefined;
    if (placed !== undefined) count = decodeFrame(batch, frame, placed, { rows, count });
  }
  return {
    count,
    atMs: rows.atMs.subarray(0, count),
    parameter: rows.parameter.subarray(0, count),
    value: rows.value.subarray(0, count),
    quality: rows.quality.subarray(0, count),
    origin: rows.origin.subarray(0, count),
  };
}

type Rows = Omit<SpnBatch, 'count'>;

const emptyRows = (room: number): Rows => ({
  atMs: new Float64Array(room),
  parameter: new Uint8Array(room),
  value: new Float64Array(room),
  quality: new Uint8Array(room),
  origin: new Int32Array(room),
});

/** Writes the rows of one frame; gives the new count. */
function decodeFrame(
  batch: FrameBatch,
  frame: number,
  placed: readonly Placed[],
  to: { readonly rows: Rows; readonly count: number },
): number {
  const { rows } = to;
  let row = to.count;
  const length = batch.length[frame]!;
  const origin = batch.channel[frame]! * 256 + (batch.id[frame]! & 0xff);
  for (let i = 0; i < placed.length; i++) {
    const { entry, parameter, bytes } = placed[i]!;
    if (length < bytes) continue;
    const raw = readRaw(entry, batch.data, 8 * frame);
    const quality = qualityOfRaw(raw, entry.bits);
    rows.atMs[row] = batch.atMs[frame]!;
    rows.parameter[row] = parameter;
    rows.value[row] = quality === QUALITY_VALID ? raw * entry.scale + entry.offset : NaN;
    rows.quality[row] = quality;
    rows.origin[row] = origin;
    row++;
  }
  return row;
}
