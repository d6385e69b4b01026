import { bodyOf, usualWidth } from './choose-delimiter.ts';
import { isUnitRow, stripBrackets } from './header-unit.ts';
import { looksOf, type LogRow } from './log-rows.ts';
import type { DecimalMark } from './parse-cell.ts';

/** Where the names, the units and the data of a log are. */
export interface Header {
  /** Line of the row of names, null when the log has none. */
  readonly line: number | null;
  readonly names: readonly string[];
  readonly unitLine: number | null;
  readonly units: readonly string[];
  readonly firstDataLine: number;
  readonly width: number;
}

const DEEPEST_HEADER_LINE = 30; // a person may name a deeper one
const ROWS_ABOVE_DATA = 4;

/**
 * Finds the header above the first row of data, and the unit row beneath it. Data is what looks like the body of the
 * log: cells that are numbers or times in the columns where the body has them, so that "Samples,100" in a preamble
 * is none. Null when no row holds data.
 * @param headerLine the line that a person named as header, null for "none", undefined for finding it.
 */
export function findHeader(
  rows: readonly LogRow[],
  mark: DecimalMark,
  headerLine?: number | null,
): Header | null {
  const dataColumns = dataColumnsOf(rows, mark);
  const first = dataColumns.length > 0 ? firstDataRow(rows, dataColumns, mark, headerLine ?? 0) : -1;
  const firstData = rows[first];
  if (!firstData) return null;
  const above = rows.slice(0, first);
  const named =
    headerLine === undefined ? nameRow(above, dataColumns) : above.find(({ line }) => line === headerLine);
  const below = named?.line ?? 0;
  const unitRow = above.slice(-ROWS_ABOVE_DATA).find(({ line, cells }) => line > below && isUnitRow(cells));
  const names = named?.cells ?? [];
  return {
    line: named ? named.line : null,
    names,
    ...unitsOf(unitRow),
    firstDataLine: firstData.line,
    width: Math.max(usualWidth(rows), names.length),
  };
}

const unitsOf = (row: LogRow | undefined): Pick<Header, 'unitLine' | 'units'> =>
  row ? { unitLine: row.line, units: row.cells.map(stripBrackets) } : { unitLine: null, units: [] };

/** Index of the first row of data below a line that another one follows, or that is among the last two; -1 without. */
function firstDataRow(
  rows: readonly LogRow[],
  columns: readonly number[],
  mark: DecimalMark,
  below: number,
): number {
  const isData = (row: LogRow | undefined) => row !== undefined && isDataRow(row, columns, mark);
  return rows.findIndex(
    (row, i) => row.line > below && isData(row) && (isData(rows[i + 1]) || i + 2 >= rows.length),
  );
}

/**
 * The row of names: of the few rows above the data the one with most words over data; the lower one when equal. None
 * where that stands too deep.
 */
function nameRow(above: readonly LogRow[], dataColumns: readonly number[]): LogRow | undefined {
  const candidates = above.slice(-ROWS_ABOVE_DATA);
  const wordsIn = ({ cells }: LogRow) => dataColumns.filter((i) => isWord(cells[i])).length;
  let best: LogRow | undefined;
  for (const row of candidates) {
    if (wordsIn(row) < dataColumns.length / 2 || (isUnitRow(row.cells) && best !== undefined)) continue;
    if (best === undefined || isUnitRow(best.cells) || wordsIn(row) >= wordsIn(best)) best = row;
  }
  return best && best.line <= DEEPEST_HEADER_LINE ? best : undefined;
}

const isWord = (cell: string | undefined): boolean => cell !== undefined && looksOf(cell) === 'text';

/** Columns that hold numbers or times in the body: mostly, or at all in a log of a few rows. */
function dataColumnsOf(rows: readonly LogRow[], mark: DecimalMark): readonly number[] {
  const body = bodyOf(rows).slice(0, 500);
  const width = usualWidth(rows);
  const columns: number[] = [];
  for (let i = 0; i < width; i++) {
    const looks = body.map(({ cells }) => looksOf(cells[i] ?? '', mark));
    const data = looks.filter((look) => look === 'number' || look === 'time').length;
    const text = looks.filter((look) => look === 'text').length;
    if (data > 0 && data >= (body.length > 20 ? 1.5 : 0.25) * text) columns.push(i);
  }
  return columns;
}

/** Whether a row has data, and no words, in most of the data columns. */
export function isDataRow({ cells }: LogRow, dataColumns: readonly number[], mark: DecimalMark): boolean {
  let data = 0;
  let text = 0;
  for (const i of dataColumns) {
    const looks = looksOf(cells[i] ?? '', mark);
    if (looks === 'number' || looks === 'time') data++;
    else if (looks === 'text') text++;
  }
  return data > 0 && data > text;
}
