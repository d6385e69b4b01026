import { convert, dimensionOf } from '../quantities/convert.ts';
import { parseUnit } from '../quantities/parse-unit.ts';
import type { UnitId } from '../quantities/unit.ts';
import { cellNumber, CURVE_NAMES, numberText, type CurveName, type CurveRow } from './curve-edit.ts';

/** A line that is not taken, and why. Lines count from 1. */
export interface SkippedLine {
  readonly line: number;
  readonly words: string;
}

/** What was understood of pasted text: rising rows of [speed rpm, one to three volumes in the unit of the chart]. */
export interface PasteReading {
  readonly rows: readonly (readonly number[])[];
  /** The boundaries that the volume columns go to, in their order. */
  readonly into: readonly CurveName[];
  readonly skipped: readonly SkippedLine[];
  /** What was assumed, in plain words: separator, header, units, order of columns. */
  readonly notes: readonly string[];
}

type Split = (line: string) => readonly string[];

/** The first one by which most lines give two numbers or more is taken. A comma comes last: it may be a decimal mark. */
const SEPARATORS: readonly { readonly name: string; readonly split: Split }[] = [
  { name: 'tabs', split: (line) => line.split('\t') },
  { name: 'semicolons', split: (line) => line.split(';') },
  { name: 'spaces', split: (line) => (/,(\s|$)/.test(line) ? [line] : line.trim().split(/\s+/)) },
  { name: 'commas', split: (line) => line.split(',') },
];

/**
 * Reads columns copied out of a spreadsheet: speed and one, two or three volumes. Leading lines without numbers are a header; their
 * units are understood and converted to rpm and `unit`. A header may name the volume first. `one` is where a single volume
 * column goes. Never throws: what cannot be read stands in `skipped`.
 */
export function readPaste(text: string, unit: UnitId, one: CurveName): PasteReading {
  const lines = text.split(/\r\n?|\n/).map((line, index) => ({ line: index + 1, text: line }));
  const full = lines.filter((line) => line.text.trim() !== '');
  const separator = bestSeparator(full.map((line) => line.text));
  if (!separator) return nothingRead(full.length);
  const split = full.map((line) => ({
    line: line.line,
    cells: separator.split(line.text).map((cell) => cell.trim()),
  }));
  const begins = split.findIndex(({ cells }) => numbersIn(cells) >= 2);
  const data = split.slice(begins);
  const count = Math.min(
    4,
    Math.max(...data.map(({ cells }) => cells.findLastIndex((cell) => cell !== '') + 1)),
  );
  const columns = columnsOf(
    split.slice(0, begins).map(({ cells }) => cells),
    count,
    unit,
  );
  const read = data.map((row) => readRow(row, columns));
  const rows = read.flatMap((row) => ('numbers' in row ? [row.numbers] : []));
  return {
    rows: rows.toSorted((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
    into: count === 2 ? [one] : CURVE_NAMES.slice(0, count - 1),
    skipped: read.flatMap((row) => ('words' in row ? [row] : [])),
    notes: [
      `Columns separated by ${separator.name}.`,
      ...headerNotes(begins, columns),
      ...commaNote(separator.name, count),
    ],
  };
}

/** The rows that a reading puts into each boundary. */
export function pastedRows({ rows, into }: PasteReading): Partial<Record<CurveName, readonly CurveRow[]>> {
  const curve = (column: number): readonly CurveRow[] =>
    rows.flatMap((row) => {
      const [speed, volume] = [row[0] ?? NaN, row[column + 1] ?? NaN];
      return Number.isNaN(volume) ? [] : [{ speed: numberText(speed), volume: numberText(volume) }];
    });
  return Object.fromEntries(into.map((name, column) => [name, curve(column)]));
}

const numbersIn = (cells: readonly string[]): number =>
  cells.filter((cell) => !Number.isNaN(cellNumber(cell))).length;

function bestSeparator(lines: readonly string[]) {
  return SEPARATORS.find(({ split }) => {
    const good = lines.filter((line) => numbersIn(split(line)) >= 2).length;
    return good > 0 && 2 * good >= lines.length - HEADER_LINES;
  });
}

/** So many lines may stand above the numbers: a title, names, units. */
const HEADER_LINES = 3;

function nothingRead(lines: number): PasteReading {
  const words =
    lines === 0
      ? 'There is nothing to read.'
      : 'No two columns of numbers were found. Copy speed and volume side by side.';
  return { rows: [], into: [], skipped: [{ line: 1, words }], notes: [] };
}

/** A column of the text: what it holds, and its unit as the header says it. */
interface Column {
  readonly at: number;
  readonly unit: UnitId;
  readonly said: boolean;
  readonly to: UnitId;
}

/** Speed first, then the volumes, wherever they stand in the text. */
function columnsOf(header: readonly (readonly string[])[], count: number, unit: UnitId): readonly Column[] {
  const said = Array.from(
    { length: count },
    (_, at) => header.map((cells) => headerUnit(cells[at] ?? '')).findLast((found) => found !== null) ?? null,
  );
  const named = Array.from({ length: count }, (_, at) =>
    header.some((cells) => /speed|drehzahl|n\b/i.test(cells[at] ?? '')),
  );
  const bySaid = said.findIndex((found) => found !== null && dimensionOf(found) === 'speed');
  const speed = Math.max(0, bySaid >= 0 ? bySaid : named.indexOf(true));
  const column = (at: number, to: UnitId): Column => {
    const found = said[at] ?? null;
    const fits = found !== null && dimensionOf(found) === dimensionOf(to);
    return { at, to, said: fits, unit: fits ? found : to };
  };
  const volumes = said.flatMap((_, at) => (at === speed ? [] : [column(at, unit)]));
  return [column(speed, 'rpm'), ...volumes];
}

/** The unit in a header cell: "Speed (rpm)", "Volume [cc]", "Volume, US fl oz", "Volume / mL", "mL", "volume ml". */
function headerUnit(cell: string): UnitId | null {
  const bracketed = /[([{]([^)\]}]*)[)\]}]/.exec(cell)?.[1];
  const after = cell.split(/[,/:]| in /).at(-1) ?? '';
  const words = cell.trim().split(/\s+/);
  const tails = [1, 2, 3].map((count) => words.slice(-count).join(' '));
  const tries = [...(bracketed === undefined ? [] : [bracketed]), cell, after, ...tails];
  return tries.map(parseUnit).find((found) => found !== null && MEANT.includes(dimensionOf(found))) ?? null;
}

const MEANT: readonly string[] = ['speed', 'volume'];

type Row = { readonly numbers: readonly number[] } | SkippedLine;

function readRow(
  { line, cells }: { line: number; cells: readonly string[] },
  columns: readonly Column[],
): Row {
  const numbers = columns.map(({ at, unit, to }) => {
    const converted = convert(cellNumber(cells[at] ?? ''), unit, to);
    return converted.ok ? converted.value : NaN;
  });
  const [speed = NaN, ...volumes] = numbers;
  const bad = columns.find(({ at }) => (cells[at] ?? '') !== '' && Number.isNaN(cellNumber(cells[at] ?? '')));
  if (bad) return { line, words: `“${(cells[bad.at] ?? '').slice(0, 30)}” is not a plain number.` };
  if (Number.isNaN(speed)) return { line, words: 'The speed is missing.' };
  return volumes.every(Number.isNaN) ? { line, words: 'There is no volume.' } : { numbers };
}

function headerNotes(begins: number, columns: readonly Column[]): readonly string[] {
  const header =
    begins === 0 ? [] : [`${begins === 1 ? 'The first line is' : `The first ${begins} lines are`} a header.`];
  const turned = columns[0]?.at === 0 ? [] : [`The speed stands in column ${(columns[0]?.at ?? 0) + 1}.`];
  const converted = columns.filter(({ said, unit, to }) => said && unit !== to);
  const units = [...new Set(converted.map(({ unit, to }) => `Converted from ${unit} to ${to}.`))];
  const unsaid = columns.every(({ said }) => said)
    ? []
    : [`Where no unit is given, ${columns[0]?.to} and ${columns[1]?.to} are taken.`];
  return [...header, ...turned, ...units, ...unsaid];
}

const commaNote = (separator: string, columns: number): readonly string[] =>
  separator === 'commas' && columns > 2
    ? ['If the comma is the decimal mark here, copy the columns with tabs or semicolons instead.']
    : [];
