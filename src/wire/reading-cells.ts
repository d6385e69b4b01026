import type { SignalId } from '../quantities/reading.ts';
import type { MalformedReason } from './wire-decoder.ts';
import {
  counterPeriodMs,
  meaningOf,
  physicalStampMs,
  physicalValue,
  type KeyMeaning,
} from './reading-keys.ts';

/** What one line says. `value` null: the source says that there is none. */
export interface LineContent {
  readonly stamp: { readonly ms: number; readonly periodMs: number } | null;
  readonly values: readonly { readonly signal: SignalId; readonly value: number | null }[];
  /** Keys that mean nothing here. */
  readonly unknown: readonly string[];
}

export type LineResult =
  | { readonly kind: 'content'; readonly content: LineContent }
  | { readonly kind: 'malformed'; readonly reason: MalformedReason };

/** A line of cells is read by the header before it. */
export interface LineHeader {
  readonly delimiter: string;
  readonly names: readonly string[];
  readonly columns: readonly (KeyMeaning | null)[];
}

const malformed = (reason: MalformedReason): LineResult => ({ kind: 'malformed', reason });

const ABSENT = new Set(['', 'nan', '-nan', 'null', 'none', 'na', 'n/a', '-']);
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?$/i;
const DELIMITERS = ['\t', ';', ','] as const;

/** The number in a cell; null where it says that there is none, NaN where it says neither. A decimal comma where it is allowed. */
export function readCell(cell: string, comma: boolean): number | null {
  const text = cell.trim();
  if (ABSENT.has(text.toLowerCase())) return null;
  const plain = comma ? text.replace(',', '.') : text;
  return NUMBER.test(plain) ? Number(plain) : NaN;
}

/** What the pairs of a line say together; the first of two that mean the same counts. */
function contentOf(
  pairs: Iterable<readonly [name: string, meaning: KeyMeaning | null, value: number | null]>,
): LineResult {
  let stamp: LineContent['stamp'] = null;
  const values: { signal: SignalId; value: number | null }[] = [];
  const unknown: string[] = [];
  for (const [name, meaning, value] of pairs) {
    if (meaning === null) unknown.push(name);
    else if (meaning.kind === 'time') {
      if (value === null || stamp !== null) continue;
      stamp = { ms: physicalStampMs(value, meaning.unit), periodMs: counterPeriodMs(meaning.unit) };
      if (Number.isNaN(stamp.ms)) return malformed('badValue');
    } else if (!values.some(({ signal }) => signal === meaning.signal)) {
      const physical = value === null ? null : physicalValue(value, meaning);
      if (Number.isNaN(physical)) return malformed('badValue');
      values.push({ signal: meaning.signal, value: physical });
    }
  }
  return { kind: 'content', content: { stamp, values, unknown } };
}

/**
 * A line that begins with `{` as one JSON object. A bare `nan`, as microcontrollers print it, is "not available"; numbers in quotes are
 * read; true and false are 1 and 0. Anything else in place of a number of a known key makes the line malformed.
 */
export function readJsonLine(text: string): LineResult {
  const object = parseObject(text) ?? parseObject(text.replace(/(:\s*)-?nan(?=\s*[,}])/gi, '$1null'));
  if (object === null) return malformed('unknownLine');
  return contentOf(
    Object.entries(object).map(([key, value]) => {
      const meaning = meaningOf(key);
      return [key, meaning, meaning === null ? null : numberIn(value)] as const;
    }),
  );
}

function parseObject(text: string): object | null {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && !Array.isArray(value) ? value : null;
  } catch {
    return null;
  }
}

function numberIn(value: unknown): number | null {
  if (value === null || typeof value === 'number') return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  return typeof value === 'string' ? readCell(value, true) : NaN;
}

const cellsOf = (text: string, delimiter: string): string[] =>
  text.split(delimiter).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));

/** The header that a line is: names, none of them a number, at least one of them a signal. Null if it is none. */
export function readHeader(text: string): LineHeader | null {
  if (/^[-+.,;\t\d]/.test(text)) return null; // a row, the most frequent line
  const delimiter = DELIMITERS.find((mark) => text.includes(mark)) ?? ',';
  const names = cellsOf(text, delimiter);
  const columns = names.map(meaningOf);
  const named = columns.some((column) => column?.kind === 'value');
  if (!named || names.some((name) => NUMBER.test(name))) return null;
  return { delimiter, names, columns };
}

/** A row under its header. Another number of cells, or a cell that is no number under a known name, makes the line malformed. */
export function readRow(text: string, { delimiter, names, columns }: LineHeader): LineResult {
  const cells = cellsOf(text, delimiter);
  if (cells.length === columns.length + 1 && cells.at(-1) === '') cells.pop();
  if (cells.length !== columns.length)
    return malformed(NUMBER.test(cells[0]!) ? 'wrongLength' : 'unknownLine');
  const comma = delimiter !== ',';
  return contentOf(
    columns.map(
      (column, place) =>
        [names[place]!, column, column === null ? null : readCell(cells[place]!, comma)] as const,
    ),
  );
}
