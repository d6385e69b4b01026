import {
  FRAME_ERROR,
  FRAME_EXTENDED,
  FRAME_REMOTE,
  FRAME_SENT,
  type FrameBatch,
} from '../wire/frame-batch.ts';
import { pgnOf } from './can-id.ts';
import { QUALITY_VALID, type SpnBatch } from './spn-batch.ts';
import { bytesNeeded, qualityOfRaw, readRaw } from './spn-codec.ts';
import { SPN_TABLE } from './spn-table.ts';

const KINDS = FRAME_EXTENDED | FRAME_REMOTE | FRAME_ERROR | FRAME_SENT;
const PGNS = 0x40000; // 18 bits, the extended data page among them
const LENGTHS = 9; // 0 to 8 bytes

/** Parameters (indexes into SPN_TABLE) that are whole in a message of the given PGN and length. */
function parametersIn(pgn: number, length: number): Uint8Array {
  const whole = SPN_TABLE.flatMap((entry, parameter) =>
    entry.pgn === pgn && bytesNeeded(entry) <= length ? [parameter] : [],
  );
  return Uint8Array.from(whole);
}

const PGNS_READ = [...new Set(SPN_TABLE.map(({ pgn }) => pgn))];

/** Row `group * LENGTHS + length`. Group 0 stands for every PGN that is not read. */
const PARAMETERS: readonly Uint8Array[] = [-1, ...PGNS_READ].flatMap((pgn) =>
  Array.from({ length: LENGTHS }, (_, length) => parametersIn(pgn, length)),
);
const ROWS_OF = Uint8Array.from(PARAMETERS, (parameters) => parameters.length);

/** Where the rows of a PGN begin in PARAMETERS: one look-up rejects a frame. */
const FIRST_ROW = new Uint8Array(PGNS);
PGNS_READ.forEach((pgn, i) => (FIRST_ROW[pgn] = (i + 1) * LENGTHS));

/** The row of PARAMETERS for a frame; row 0 is empty. Identifiers outside J1939 (extended data page 1) have no PGN that is read. */
function layoutOf({ flags, id, length }: FrameBatch, frame: number): number {
  if ((flags[frame]! & KINDS) !== FRAME_EXTENDED) return 0;
  return FIRST_ROW[pgnOf(id[frame]!)]! + Math.min(length[frame]!, LENGTHS - 1);
}

/**
 * The parameters of SPN_TABLE in a batch of frames, in the order received (within a frame in the order of the table).
 * Only received data frames with a 29-bit J1939 identifier count. A frame too short for a parameter gives no row for it.
 * Never throws. Makes no object a frame: rows are counted first, so that the columns are just long enough.
 */
export function decodeFrames(batch: FrameBatch): SpnBatch {
  const layouts = new Uint8Array(batch.count);
  let count = 0;
  for (let frame = 0; frame < batch.count; frame++) {
    const layout = layoutOf(batch, frame);
    layouts[frame] = layout;
    count += ROWS_OF[layout]!;
  }
  const rows = emptyRows(count);
  let row = 0;
  for (let frame = 0; row < count; frame++) {
    const parameters = PARAMETERS[layouts[frame]!]!;
    for (let i = 0; i < parameters.length; i++) {
      rows.atMs[row] = batch.atMs[frame]!;
      rows.origin[row] = batch.channel[frame]! * 256 + (batch.id[frame]! & 0xff);
      rows.parameter[row] = parameters[i]!;
      decodeRow(rows, row++, batch.data, 8 * frame);
    }
  }
  return rows;
}

const emptyRows = (count: number): SpnBatch => ({
  count,
  atMs: new Float64Array(count),
  parameter: new Uint8Array(count),
  value: new Float64Array(count),
  quality: new Uint8Array(count),
  origin: new Int32Array(count),
});

/** Writes value and quality of a row whose parameter stands there already, out of the message at `data[at]`. */
function decodeRow({ parameter, value, quality }: SpnBatch, row: number, data: Uint8Array, at: number): void {
  const entry = SPN_TABLE[parameter[row]!]!;
  const raw = readRaw(entry, data, at);
  const code = qualityOfRaw(raw, entry.bits);
  quality[row] = code;
  value[row] = code === QUALITY_VALID ? raw * entry.scale + entry.offset : NaN;
}
