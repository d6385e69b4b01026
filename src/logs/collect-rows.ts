import { canonicalUnit, dimensionOf, toCanonical } from '../quantities/convert.ts';
import type { SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';
import { cellNumber } from './column-profile.ts';
import { growingFloats } from './growing-floats.ts';
import { HIGHEST_SPEED_RPM } from './guess-columns.ts';
import { leftOutTally, type LeftOutReason, type LeftOutRows } from './left-out-rows.ts';
import type { LogColumn, LogPlan } from './log-plan.ts';
import { isMissing } from './parse-cell.ts';
import { plainClock, plainNumber } from './plain-cell.ts';
import { splitCells } from './split-cells.ts';
import { isSummaryLabel, tableEnd } from './summary-rows.ts';
import { parseTimeCell } from './time-cell.ts';

/** Cells of one signal that made no number, by reason. */
export interface CellCounts {
  readonly blank: number;
  readonly noData: number;
  readonly unreadable: number;
  readonly outOfRange: number;
}

/** The rows of a log with their stamps as written and their values in canonical units. */
export interface CollectedRows {
  readonly count: number;
  readonly rawMs: Float64Array;
  readonly lines: Float64Array;
  /** `value`: NaN where the log says "no data", Infinity where the cell is blank. */
  readonly columns: readonly {
    readonly signal: SignalId;
    readonly value: Float64Array;
    readonly counts: CellCounts;
  }[];
  readonly leftOut: readonly LeftOutRows[];
}

/** Runs over all rows of the text once, as the plan says. A quote left open makes it run again with quotes ignored. */
export function collectRows(text: string, plan: LogPlan): CollectedRows {
  const { delimiter, quotes } = plan;
  const collector = rowCollector(plan);
  const { unclosedQuote } = splitCells(text, { delimiter, quotes }, collector.take);
  return unclosedQuote && quotes === 'standard'
    ? collectRows(text, { ...plan, quotes: 'ignored' })
    : collector.finish();
}

function rowCollector(plan: LogPlan) {
  const tally = leftOutTally();
  const columns = plan.columns.filter(isRead).map((column) => columnCollector(column, plan));
  const timeOf = timeReader(plan);
  const end = plan.time.source === 'interval' ? tableEnd() : null;
  const raw = growingFloats();
  const lines = growingFloats();
  return {
    take(cells: readonly string[], line: number): void {
      if (line < plan.firstDataLine)
        return cells.some((cell) => cell !== '') ? tally.add('aboveData', line) : undefined;
      const atMs = timeOf(cells, raw.length());
      const reason = Number.isNaN(atMs) || end ? whyNot(cells, atMs, plan) : null;
      if (reason === 'blank') end?.blank();
      if (reason) return tally.add(reason, line);
      raw.push(atMs);
      lines.push(line);
      end?.take(cells);
      for (const column of columns) column.take(cells);
    },
    finish(): CollectedRows {
      const all = raw.length();
      const collected = columns.map((column) => column.finish(all));
      const values = collected.map(({ value }) => value);
      const count = all - (end?.summaryRows(values) ?? 0);
      const lineOf = lines.take(all);
      for (const line of lineOf.subarray(count)) tally.add('afterBlank', line);
      return {
        count,
        rawMs: raw.take(count),
        lines: lineOf.slice(0, count),
        columns: collected.map((column) => ({ ...column, value: column.value.subarray(0, count) })),
        leftOut: tally.list(),
      };
    },
  };
}

type ReadColumn = LogColumn & { readonly signal: SignalId; readonly unit: UnitId };
const isRead = (column: LogColumn): column is ReadColumn => column.signal !== null && column.unit !== null;

/** Reads the time of a row; `row` counts the rows taken so far. */
function timeReader({
  time,
  columns,
  decimalMark,
}: LogPlan): (cells: readonly string[], row: number) => number {
  if (time.source === 'interval') {
    const intervalMs = time.intervalMs ?? NaN;
    return (_, row) => row * intervalMs;
  }
  const reading = { kind: time.kind, dateOrder: time.dateOrder, mark: decimalMark };
  const suffix = columns[time.column]?.suffix ?? null;
  const numeric = time.kind !== 'clock' && time.kind !== 'dateTime' && time.kind !== 'minuteSecond';
  const general = (cells: readonly string[]) => {
    const cell = bare(cells[time.column] ?? '');
    const hasSuffix = numeric && suffix !== null && cell.trimEnd().endsWith(suffix);
    return parseTimeCell(hasSuffix ? cell.trimEnd().slice(0, -suffix.length) : cell, reading);
  };
  if (time.kind !== 'dateTime') return general;
  const sameDay = dayReader();
  return (cells) => sameDay(cells[time.column] ?? '', () => general(cells));
}

/** Reads date-times whose date is that of the row before by their clock alone; all others by `general`. */
function dayReader(): (cell: string, general: () => number) => number {
  let date = '';
  let dayMs = NaN;
  return (cell, general) => {
    const split = Math.max(cell.indexOf(' '), cell.indexOf('T')) + 1;
    const end = cell.charCodeAt(cell.length - 1) === LETTER_Z ? cell.length - 1 : cell.length;
    const clockMs = split > 0 ? plainClock(end < cell.length ? cell.slice(0, end) : cell, split) : NaN;
    if (Number.isNaN(clockMs)) return general();
    if (date === '' || !cell.startsWith(date) || split !== date.length) {
      date = cell.slice(0, split);
      dayMs = general() - clockMs;
    }
    return dayMs + clockMs;
  };
}
const LETTER_Z = 90;

const bare = (cell: string): string => (cell.includes('"') ? cell.replaceAll('"', '').trim() : cell);

/** Why a row gives no readings; null when it does. */
function whyNot(
  cells: readonly string[],
  atMs: number,
  { time, columns, decimalMark }: LogPlan,
): LeftOutReason | null {
  if (cells.every((cell) => cell.trim() === '')) return 'blank';
  if (cells.some((cell) => isSummaryLabel(bare(cell)))) return 'summary';
  const isHeader = columns.every(({ header, index }) => header === bare(cells[index] ?? '').trim());
  if (isHeader) return 'repeatedHeader';
  if (time.source === 'column') {
    if (!Number.isNaN(atMs)) return null;
    return isMissing(cells[time.column] ?? '') ? 'noTime' : 'unreadableTime';
  }
  const read = columns.filter(isRead);
  const hasWords = read.every(({ index, suffix }) => {
    const cell = bare(cells[index] ?? '');
    return !isMissing(cell) && Number.isNaN(cellNumber(cell, decimalMark, suffix));
  });
  return hasWords ? 'noNumbers' : null;
}

function columnCollector({ index, signal, unit, suffix }: ReadColumn, { decimalMark }: LogPlan) {
  const values = growingFloats();
  const counts = { blank: 0, noData: 0, unreadable: 0, outOfRange: 0 };
  const isSpeed = signal === 'engineSpeed';
  const isCanonical = canonicalUnit(dimensionOf(unit)) === unit;
  const inCanonical = (value: number) => (isCanonical ? value : toCanonical(value, unit));
  const valueOf = (cell: string): number => {
    const written = cellNumber(cell, decimalMark, suffix);
    if (!Number.isNaN(written)) {
      const value = toCanonical(written, unit);
      if (!isSpeed || (value >= 0 && value <= HIGHEST_SPEED_RPM)) return value;
      counts.outOfRange++;
    } else if (isMissing(cell)) counts.noData++;
    else counts.unreadable++;
    return NaN;
  };
  return {
    take(cells: readonly string[]): void {
      const written = cells[index] ?? '';
      const plain = plainNumber(written, decimalMark);
      if (plain >= 0 && (!isSpeed || plain <= HIGHEST_SPEED_RPM)) return values.push(inCanonical(plain));
      const cell = bare(written);
      if (cell.trim() !== '') return values.push(valueOf(cell));
      counts.blank++;
      values.push(Infinity);
    },
    finish: (count: number) => ({ signal, value: values.take(count), counts }),
  };
}
