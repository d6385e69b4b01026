/** A frame as received, with what it says beside it. All texts are ready to be shown. */
export interface FrameRow {
  readonly kind: 'frame';
  /** Seconds on the source's clock or since opening, e.g. "12.345". */
  readonly time: string;
  /** Identifier in hexadecimal as received: 8 digits, or 3 for an 11-bit one. */
  readonly id: string;
  /** Null for an 11-bit identifier. */
  readonly pgn: number | null;
  /** Source address; null for an 11-bit identifier. */
  readonly source: number | null;
  /** Bytes in hexadecimal, parted by spaces. */
  readonly data: string;
  /** What it says, e.g. "Engine speed 152.1 rpm"; empty where nothing is known of it. */
  readonly decoded: string;
}

/** A line that is no frame: `malformed` could not be read; `note` is what the bridge or Meniscus itself says. */
export interface TextRow {
  readonly kind: 'malformed' | 'note';
  readonly time: string;
  readonly text: string;
  /** Why it could not be read, or what the note means. */
  readonly reason: string;
}

/** A stretch of bytes from a stream that means nothing to us. */
export interface BytesRow {
  readonly kind: 'bytes';
  readonly time: string;
  readonly hex: string;
  /** The same bytes (eight fit a phone) as characters, a dot for what cannot be printed. */
  readonly text: string;
}

export type MonitorRow = FrameRow | TextRow | BytesRow;

/**
 * Where the monitor takes its rows from. Rows are numbered from 0 since the source was opened; `first` is the oldest still
 * held (0 when absent). `freeze` gives a view that no longer changes, so that a paused screen stays as it is.
 */
export interface MonitorSource {
  count(): number;
  row(index: number): MonitorRow;
  first?(): number;
  freeze?(): MonitorSource;
}

/** One row as a line of text for the clipboard, columns parted by tabs. */
export function monitorLine(row: MonitorRow): string {
  switch (row.kind) {
    case 'frame':
      return [row.time, row.id, row.data, row.decoded].join('\t').trimEnd();
    case 'bytes':
      return [row.time, row.hex, row.text].join('\t');
    case 'malformed':
    case 'note':
      return [row.time, row.text, `${row.kind}: ${row.reason}`].join('\t');
  }
}

export type RowTest = (row: MonitorRow) => boolean;

const textsOf = (row: MonitorRow): string => {
  switch (row.kind) {
    case 'frame':
      return row.decoded;
    case 'bytes':
      return `${row.hex} ${row.text}`;
    case 'malformed':
    case 'note':
      return `${row.kind} ${row.text} ${row.reason}`;
  }
};

function wordTest(word: string): RowTest {
  const [, prefix = '', value = ''] = /^(id|pgn|from|data):(.*)$/.exec(word) ?? [];
  switch (prefix) {
    case 'id':
      return (row) => row.kind === 'frame' && row.id.toLowerCase().includes(value);
    case 'pgn':
      return (row) => row.kind === 'frame' && isPgn(row.pgn, value);
    case 'from':
      return (row) => row.kind === 'frame' && isHex(row.source, value);
    case 'data':
      return (row) => row.kind === 'frame' && row.data.replaceAll(' ', '').toLowerCase().includes(value);
    default:
      return plainTest(word);
  }
}

const isHex = (value: number | null, text: string): boolean =>
  value !== null && text !== '' && Number.parseInt(text, 16) === value && /^[0-9a-f]+$/.test(text);

/** A PGN is written in decimal by the standard and in hexadecimal by those who read identifiers. */
const isPgn = (pgn: number | null, text: string): boolean =>
  pgn !== null && (String(pgn) === text || isHex(pgn, text));

/** A bare word: two hexadecimal digits are a source address; else part of the identifier, the PGN, or of the text. */
function plainTest(word: string): RowTest {
  if (/^[0-9a-f]{2}$/.test(word))
    return (row) =>
      row.kind === 'frame' ? isHex(row.source, word) : textsOf(row).toLowerCase().includes(word);
  return (row) =>
    textsOf(row).toLowerCase().includes(word) ||
    (row.kind === 'frame' && (row.id.toLowerCase().includes(word) || isPgn(row.pgn, word)));
}

/**
 * The test for a filter text: every word must fit. A word is part of the identifier in hexadecimal, a PGN (decimal or
 * hexadecimal), a source address of two hexadecimal digits, or part of what the row says; `id:`, `pgn:`, `from:` and `data:` narrow it.
 * @returns null for an empty text: every row fits
 */
export function monitorFilter(text: string): RowTest | null {
  const tests = text.toLowerCase().split(/\s+/).filter(Boolean).map(wordTest);
  return tests.length === 0 ? null : (row) => tests.every((fits) => fits(row));
}
