import { FRAME_ERROR, FRAME_EXTENDED, FRAME_REMOTE, type FrameBatch } from '../wire/frame-batch.ts';
import { formatNumber, unitSymbol, usualDecimals } from '../quantities/format.ts';
import { isJ1939, parseCanId } from './can-id.ts';
import { describeMessage, type DecodedLine } from './describe-message.ts';
import { groupName } from './group-names.ts';
import { sourceName } from './source-addresses.ts';
import { bytesNeeded, decodeRaw, readRaw } from './spn-codec.ts';
import { SPN_TABLE, type SpnEntry } from './spn-table.ts';

/** One frame as the raw monitor shows it. */
export interface DescribedFrame {
  readonly atMs: number;
  readonly channel: number;
  readonly kind: 'data' | 'remote' | 'error';
  /** Eight hexadecimal digits, three for an 11-bit identifier. */
  readonly idHex: string;
  /** Null, as the fields below, for identifiers that are not J1939's (11 bits, or extended data page 1). */
  readonly pgn: number | null;
  readonly pgnName: string | null;
  readonly priority: number | null;
  readonly sourceAddress: number | null;
  readonly sourceName: string | null;
  readonly destination: number | null;
  /** The bytes as pairs of hexadecimal digits; empty for remote frames. */
  readonly dataHex: string;
  readonly decoded: readonly DecodedLine[];
}

const NOT_J1939 = {
  pgn: null,
  pgnName: null,
  priority: null,
  sourceAddress: null,
  sourceName: null,
  destination: null,
  decoded: [],
} as const;

/** Describes one row of a batch, for the few dozen rows that are on the screen. Never throws on any frame. */
export function describeFrame(batch: FrameBatch, row: number): DescribedFrame {
  const flags = batch.flags[row]!;
  const id = batch.id[row]!;
  const extended = (flags & FRAME_EXTENDED) !== 0;
  const kind = kindOf(flags);
  const length = kind === 'remote' ? 0 : Math.min(batch.length[row]!, 8);
  const data = batch.data.subarray(row * 8, row * 8 + length);
  const meant = extended && kind !== 'error' && isJ1939(id) ? fieldsOf(id, data) : NOT_J1939;
  return {
    ...meant,
    atMs: batch.atMs[row]!,
    channel: batch.channel[row]!,
    kind,
    idHex: hex(id, extended ? 8 : 3),
    dataHex: Array.from(data, (byte) => hex(byte, 2)).join(' '),
    decoded: kind === 'data' ? meant.decoded : [],
  };
}

const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');

const kindOf = (flags: number): DescribedFrame['kind'] =>
  (flags & FRAME_ERROR) !== 0 ? 'error' : (flags & FRAME_REMOTE) !== 0 ? 'remote' : 'data';

function fieldsOf(id: number, data: Uint8Array) {
  const { pgn, priority, sourceAddress, destination } = parseCanId(id);
  return {
    pgn,
    pgnName: groupName(pgn),
    priority,
    sourceAddress,
    sourceName: sourceName(sourceAddress),
    destination,
    decoded: [...parametersOf(pgn, data), ...describeMessage(pgn, data)],
  };
}

const parametersOf = (pgn: number, data: Uint8Array): DecodedLine[] =>
  SPN_TABLE.filter((entry) => entry.pgn === pgn && bytesNeeded(entry) <= data.length).map((entry) => ({
    spn: entry.spn,
    label: entry.name,
    text: valueText(entry, data),
  }));

/** The value in the unit of the table, with as many decimals as one bit is worth (four at most). */
function valueText(entry: SpnEntry, data: Uint8Array): string {
  const sample = decodeRaw(entry, readRaw(entry, data));
  if (sample === 'error') return 'error';
  if (sample === 'notAvailable') return 'not available';
  const fraction = String(entry.scale).split('.')[1]?.length ?? 0;
  const decimals = Math.max(usualDecimals(entry.unit), Math.min(fraction, 4));
  return `${formatNumber(sample, { decimals })} ${unitSymbol(entry.unit)}`.trimEnd();
}
