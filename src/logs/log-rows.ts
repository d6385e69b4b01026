import { isMissing, parseNumber, splitSuffix, type DecimalMark } from './parse-cell.ts';
import { splitCells, type Splitting } from './split-cells.ts';
import { parseClock, splitDateTime } from './time-cell.ts';

/** One row of a log: its line (1 is the first) and its cells, trimmed, without empty cells at the end. */
export interface LogRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** The rows of a text that are not blank. */
export function rowsOf(text: string, splitting: Splitting): readonly LogRow[] {
  const rows: LogRow[] = [];
  splitCells(text, splitting, (cells, line) => {
    const trimmed = trimCells(cells);
    if (trimmed.length > 0) rows.push({ line, cells: trimmed });
  });
  return rows;
}

/** Cells without blanks around them, stray quotes, and without empty cells at the end of the row. */
export function trimCells(cells: readonly string[]): readonly string[] {
  const trimmed = cells.map((cell) =>
    cell
      .trim()
      .replace(/^"([^"]*)"$/, '$1')
      .trim(),
  );
  let length = trimmed.length;
  while (length > 0 && trimmed[length - 1] === '') length--;
  return trimmed.slice(0, length);
}

/** What a cell is by its looks alone. */
export type CellLooks = 'missing' | 'number' | 'time' | 'text';

/** Looks of a trimmed cell; without `mark` a number in either notation counts. */
export function looksOf(cell: string, mark: DecimalMark | null = null): CellLooks {
  if (isMissing(cell)) return 'missing';
  if (isNumber(cell, mark)) return 'number';
  if (!Number.isNaN(parseClock(cell)) || isDateTime(cell) || /^\d{1,4}:\d\d[.,]\d+$/.test(cell))
    return 'time';
  const split = splitSuffix(cell);
  return split && isNumber(split.number, mark) && !isDateTime(cell) ? 'number' : 'text';
}

const isNumber = (cell: string, mark: DecimalMark | null): boolean =>
  mark === null
    ? !Number.isNaN(parseNumber(cell, '.')) || !Number.isNaN(parseNumber(cell, ','))
    : !Number.isNaN(parseNumber(cell, mark));

const isDateTime = (cell: string): boolean => {
  const parts = splitDateTime(cell);
  return (
    parts !== null && !Number.isNaN(parseClock(parts.clock.replace(/\s*(?:Z|UTC|GMT|[+-]\d\d:?\d\d)$/, '')))
  );
};
