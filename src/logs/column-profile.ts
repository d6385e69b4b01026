import type { UnitId } from '../quantities/unit.ts';
import type { Header } from './find-header.ts';
import { readUnit, splitHeaderUnit } from './header-unit.ts';
import { looksOf, type LogRow } from './log-rows.ts';
import { isMissing, parseNumber, splitSuffix, type DecimalMark } from './parse-cell.ts';

/** What the sampled rows tell of one column. */
export interface ColumnProfile {
  readonly index: number;
  /** As written; empty when the log has no header or the cell is blank. */
  readonly header: string;
  /** The header without its unit. */
  readonly name: string;
  readonly unitText: string | null;
  readonly unit: UnitId | null;
  /** Where the unit was read. */
  readonly unitFrom: 'header' | 'unitRow' | 'cells' | null;
  /** Letters that follow every number of the column ("146 rpm"), as written. */
  readonly suffix: string | null;
  readonly cells: readonly string[];
  /** Share of numbers and of times among the cells that are not missing. */
  readonly numberShare: number;
  readonly timeShare: number;
  /** The numbers, in row order. */
  readonly values: readonly number[];
  readonly lowest: number;
  readonly highest: number;
}

/** One profile a column, from rows of data. */
export function profileColumns(
  rows: readonly LogRow[],
  header: Header,
  mark: DecimalMark,
): readonly ColumnProfile[] {
  return Array.from({ length: header.width }, (_, index) => profileColumn(index, rows, header, mark));
}

function profileColumn(
  index: number,
  rows: readonly LogRow[],
  header: Header,
  mark: DecimalMark,
): ColumnProfile {
  const title = header.names[index] ?? '';
  const { name, unitText: headerUnit } = splitHeaderUnit(title);
  const cells = rows.map((row) => row.cells[index] ?? '').filter((cell) => !isMissing(cell));
  const looks = cells.map((cell) => looksOf(cell, mark));
  const suffix = commonSuffix(cells);
  const values = cells.map((cell) => cellNumber(cell, mark, suffix)).filter((value) => !Number.isNaN(value));
  const unitRow = header.units[index] || null;
  const share = (what: string) =>
    cells.length > 0 ? looks.filter((look) => look === what).length / cells.length : 0;
  return {
    index,
    header: title,
    name,
    ...pickUnit(headerUnit, unitRow, suffix),
    suffix,
    cells,
    numberShare: share('number'),
    timeShare: share('time'),
    values,
    lowest: values.reduce((a, b) => Math.min(a, b), Infinity),
    highest: values.reduce((a, b) => Math.max(a, b), -Infinity),
  };
}

/** The number in a cell of a column whose numbers are followed by `suffix`; NaN when it is none. */
export function cellNumber(cell: string, mark: DecimalMark, suffix: string | null): number {
  const value = parseNumber(cell, mark);
  if (suffix === null || !Number.isNaN(value)) return value;
  const split = splitSuffix(cell);
  return split?.suffix === suffix ? parseNumber(split.number, mark) : NaN;
}

function commonSuffix(cells: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const cell of cells) {
    const suffix = splitSuffix(cell)?.suffix;
    if (suffix && !/^[ap]m$/i.test(suffix)) counts.set(suffix, (counts.get(suffix) ?? 0) + 1);
  }
  for (const [suffix, count] of counts) if (count >= 0.8 * cells.length) return suffix;
  return null;
}

function pickUnit(header: string | null, row: string | null, cells: string | null) {
  const places = [
    { unitText: header, unitFrom: 'header' as const },
    { unitText: row, unitFrom: 'unitRow' as const },
    { unitText: cells, unitFrom: 'cells' as const },
  ];
  for (const { unitText, unitFrom } of places) {
    const unit = readUnit(unitText);
    if (unit) return { unitText, unit, unitFrom };
  }
  return { unitText: header ?? row ?? cells, unit: null, unitFrom: null };
}
