import { describeFrame, type DescribedFrame } from '../j1939/describe-frame.ts';
import type { PipelineState } from '../pipeline/pipeline.ts';
import type { BytesRow, FrameRow, MonitorRow, MonitorSource, TextRow } from '../ui/raw-monitor-row.ts';

/** What of the pipeline's state the raw monitor shows. */
export type MonitoredState = Pick<PipelineState, 'firstMs' | 'wire' | 'bus'>;

const NOTHING: MonitorSource = { count: () => 0, row: () => noRow(0) };
/** Eight fit a phone. */
const BYTES_IN_ROW = 8;

/**
 * The raw monitor's rows of the state that holds when it looks: frames as received, each with what it says beside it, numbered from the first
 * one since the source was opened; or, while no frame was made out of them, the bytes themselves, eight a row. Only rows that are looked at are
 * described. `freeze` holds on to the state of that moment, which no longer changes.
 */
export function monitorSource(latest: () => MonitoredState | null): MonitorSource {
  let seen: MonitoredState | null = null;
  let rows = NOTHING;
  const now = (): MonitorSource => {
    const state = latest();
    if (state !== seen) rows = state ? rowsOf(state) : NOTHING; // one look asks for many rows of one state
    seen = state;
    return rows;
  };
  return {
    count: () => now().count(),
    row: (index) => now().row(index),
    first: () => now().first?.() ?? 0,
    freeze: now,
  };
}

/** Lines that were not taken and things that the stream said, newest last, for the list beside the monitor. */
export function troubleRows({ wire, firstMs }: Pick<PipelineState, 'wire' | 'firstMs'>): readonly TextRow[] {
  return (wire?.counts.recentMalformed ?? []).map(({ reason, atMs, text }) => ({
    kind: 'malformed',
    time: secondsText(atMs, firstMs),
    text,
    reason: REASON_WORDS[reason],
  }));
}

const REASON_WORDS: Readonly<
  Record<keyof NonNullable<PipelineState['wire']>['counts']['malformed'], string>
> = {
  unknownLine: 'not a line of this protocol',
  badHex: 'holds what is no hexadecimal digit',
  wrongLength: 'is not as long as it says',
  idTooLarge: 'its identifier is larger than there can be',
  tooLong: 'longer than any line of this protocol',
  badValue: 'its value cannot be read as a number',
  cutLine: 'breaks off at the end',
  notKept: 'not kept',
};

const rowsOf = (state: MonitoredState): MonitorSource => {
  const { frames, errorFrames } = state.bus.tally;
  return frames + errorFrames > 0 ? frameRows(state, frames + errorFrames) : byteRows(state);
};

function frameRows({ bus, firstMs }: MonitoredState, total: number): MonitorSource {
  const { recent } = bus;
  const starts: number[] = [];
  let end = total - recent.reduce((sum, batch) => sum + batch.count, 0);
  for (const batch of recent) {
    starts.push(end);
    end += batch.count;
  }
  return {
    count: () => total,
    first: () => starts[0] ?? total,
    row: (index) => {
      const place = lastAtMost(starts, index);
      const batch = recent[place];
      const row = index - (starts[place] ?? 0);
      return batch && row < batch.count ? frameRow(describeFrame(batch, row), firstMs) : noRow(index);
    },
  };
}

/** Place of the last number that is not above `value`, in rising numbers; -1 where all are. */
function lastAtMost(numbers: readonly number[], value: number): number {
  let from = 0;
  let to = numbers.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (numbers[middle]! > value) to = middle;
    else from = middle + 1;
  }
  return from - 1;
}

function frameRow(frame: DescribedFrame, firstMs: number | null): FrameRow {
  return {
    kind: 'frame',
    time: secondsText(frame.atMs, firstMs),
    id: frame.idHex,
    pgn: frame.pgn,
    source: frame.sourceAddress,
    data: frame.dataHex,
    decoded: decodedText(frame),
  };
}

/** What the frame says; where nothing is known of its bytes, the name of its group. */
function decodedText({ kind, decoded, pgnName }: DescribedFrame): string {
  if (kind === 'error') return 'error frame';
  if (kind === 'remote') return 'remote frame';
  if (decoded.length === 0) return pgnName ?? '';
  return decoded.map(({ label, text }) => `${label} ${text}`).join(' · ');
}

function byteRows({ wire }: MonitoredState): MonitorSource {
  if (!wire || wire.recentBytes.length === 0) return NOTHING;
  const { recentBytes, counts } = wire;
  const total = Math.max(counts.bytes, recentBytes.length);
  const start = total - recentBytes.length;
  return {
    count: () => Math.ceil(total / BYTES_IN_ROW),
    first: () => Math.floor(start / BYTES_IN_ROW),
    row: (index) => {
      const from = Math.max(0, index * BYTES_IN_ROW - start);
      const to = Math.max(from, (index + 1) * BYTES_IN_ROW - start);
      return bytesRow(recentBytes.subarray(from, to));
    },
  };
}

function bytesRow(bytes: Uint8Array): BytesRow {
  return {
    kind: 'bytes',
    time: '',
    hex: Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' '),
    text: Array.from(bytes, (byte) => (byte > 0x1f && byte < 0x7f ? String.fromCharCode(byte) : '.')).join(
      '',
    ),
  };
}

/** Stands in for a row that is no longer held: the monitor asked a moment too late. */
const noRow = (index: number): MonitorRow => ({
  kind: 'note',
  time: '',
  text: `row ${index + 1}`,
  reason: 'no longer held',
});

/** Seconds since the first data, to the millisecond; empty in a log without time. */
const secondsText = (atMs: number, firstMs: number | null): string =>
  Number.isFinite(atMs) ? ((atMs - (firstMs ?? 0)) / 1000).toFixed(3) : '';
