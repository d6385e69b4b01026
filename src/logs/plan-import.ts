import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { chooseDecimalMark } from './choose-decimal-mark.ts';
import { chooseDelimiter, usualWidth } from './choose-delimiter.ts';
import { profileColumns, type ColumnProfile } from './column-profile.ts';
import { detectEncoding } from './decode-text.ts';
import { findHeader, type Header } from './find-header.ts';
import { rowsOf, type LogRow } from './log-rows.ts';
import type { LogPlan, LogNeed } from './log-plan.ts';
import { listColumns, planColumns, type ColumnAnswers } from './plan-columns.ts';
import { planTime, type TimeAnswers } from './plan-time.ts';
import type { DecimalMark } from './parse-cell.ts';
import { refuseNonTable, refuseNonText } from './refuse-non-tables.ts';
import { sampleText } from './sample-text.ts';
import { splitCells, type Delimiter, type Splitting } from './split-cells.ts';
import { isSummaryLabel } from './summary-rows.ts';

/** What the person said; everything that is left out is found from the file. Lines count from 1, columns from 0. */
export interface LogAnswers extends ColumnAnswers, TimeAnswers {
  readonly delimiter?: Delimiter;
  readonly decimalMark?: DecimalMark;
  /** Line of the header, null for a log without one. */
  readonly headerLine?: number | null;
}

const CHARACTERS_FOR_DELIMITER = 16_384;
const PREVIEW_ROWS = 8;

/**
 * Finds out how a speed log is to be read: encoding, delimiter, decimal mark, header, units, time and signals.
 * What is not certain stands in `needs` and `notes` of the plan; answers given are taken over as they are.
 * A problem when there is nothing to plan: empty, binary, a workbook, a web page, no rows of numbers.
 */
export function planSpeedLog(bytes: Uint8Array, answers: LogAnswers = {}): Result<LogPlan> {
  const refused = refuseNonText(bytes);
  if (refused) return failed(refused);
  const encoding = detectEncoding(bytes);
  const { head, windows } = sampleText(bytes, encoding);
  const notTable = refuseNonTable(head);
  if (notTable) return failed(notTable);
  const { splitting, sure: delimiterSure } = chooseSplitting(head, answers);
  const rows = [head, ...windows].flatMap((text, i) => numbered(rowsOf(text, splitting), i === 0));
  const chosen = chooseDecimalMark(columnsOf(rows));
  const mark = answers.decimalMark ?? chosen.mark;
  const header = findHeader(rows, mark, answers.headerLine);
  if (!header) return failed(noRows(rows));
  const data = rows.filter(
    ({ line, cells }) => (line === 0 || line >= header.firstDataLine) && !cells.some(isSummaryLabel),
  );
  if (data.length < 2) return failed(problem('log.one-row'));
  const clash = decimalClash(splitting.delimiter, header, rows);
  if (clash) return failed(clash);
  const profiles = profileColumns(data, header, mark);
  const badAnswer = refuseAnswers(answers, profiles);
  if (badAnswer) return failed(badAnswer);
  const doubts = [
    ...(chosen.sure || answers.decimalMark ? [] : [markDoubt(data, mark)]),
    ...(delimiterSure ? [] : [delimiterDoubt(data, splitting.delimiter)]),
  ];
  return ok(assemble({ encoding, splitting, mark, header, rows, data, profiles, answers, doubts }));
}

interface Found {
  readonly encoding: LogPlan['encoding'];
  readonly splitting: Splitting;
  readonly mark: DecimalMark;
  readonly header: Header;
  readonly rows: readonly LogRow[];
  readonly data: readonly LogRow[];
  readonly profiles: readonly ColumnProfile[];
  readonly answers: LogAnswers;
  readonly doubts: readonly { readonly need: LogNeed; readonly note: Problem }[];
}

function assemble({
  encoding,
  splitting,
  mark,
  header,
  rows,
  data,
  profiles,
  answers,
  doubts,
}: Found): LogPlan {
  const time = planTime(profiles, answers);
  const timeColumn = time.time.source === 'column' ? time.time.column : null;
  const planned = planColumns(profiles, timeColumn, answers);
  const dataLines = new Set(data.map(({ line }) => line));
  const isHeading = (line: number) => line === header.line || line === header.unitLine;
  return {
    formatVersion: 1,
    encoding,
    ...splitting,
    decimalMark: mark,
    headerLine: header.line,
    unitLine: header.unitLine,
    firstDataLine: header.firstDataLine,
    time: time.time,
    columns: [...planned.columns],
    leftOut: rows
      .filter(({ line }) => line > 0 && !dataLines.has(line) && !isHeading(line))
      .map(({ line, cells }) => ({ line, text: cells.join(' ').slice(0, 80) })),
    preview: data.slice(0, PREVIEW_ROWS).map(({ line, cells }) => ({ line, cells: [...cells] })),
    needs: [...planned.needs, ...time.needs, ...doubts.map(({ need }) => need)],
    notes: [...planned.notes, ...time.notes, ...doubts.map(({ note }) => note)].map(({ code, context }) => ({
      code,
      context: { ...context },
    })),
  };
}

function chooseSplitting(
  head: string,
  { delimiter: given }: LogAnswers,
): { splitting: Splitting; sure: boolean } {
  const cut = head.lastIndexOf('\n', CHARACTERS_FOR_DELIMITER);
  const start =
    head.length > CHARACTERS_FOR_DELIMITER && cut > 0
      ? head.slice(0, cut + 1)
      : head.slice(0, 4 * CHARACTERS_FOR_DELIMITER);
  const found = given ? { delimiter: given, sure: true } : chooseDelimiter(start, 'standard');
  const { unclosedQuote } = splitCells(
    start,
    { delimiter: found.delimiter, quotes: 'standard' },
    () => undefined,
  );
  if (!unclosedQuote)
    return { splitting: { delimiter: found.delimiter, quotes: 'standard' }, sure: found.sure };
  const again = given ? found : chooseDelimiter(start, 'ignored');
  return { splitting: { delimiter: again.delimiter, quotes: 'ignored' }, sure: again.sure };
}

/** Lines are known in the head only; rows of later windows carry 0. */
const numbered = (rows: readonly LogRow[], isHead: boolean): readonly LogRow[] =>
  isHead ? rows : rows.map(({ cells }) => ({ line: 0, cells }));

function columnsOf(rows: readonly LogRow[]): readonly (readonly string[])[] {
  const width = usualWidth(rows);
  return Array.from({ length: width }, (_, i) => rows.map(({ cells }) => cells[i] ?? ''));
}

const noRows = (rows: readonly LogRow[]): Problem =>
  problem('log.no-rows', { rows: rows.length, first: (rows[0]?.cells.join(' ') ?? '').slice(0, 80) });

/** "0,5,146,2" under "Time,RPM": decimal commas between commas. Rows are then wider than the header and have no points. */
function decimalClash(
  delimiter: Delimiter,
  { names, line }: Header,
  rows: readonly LogRow[],
): Problem | null {
  if (delimiter !== ',' || line === null || names.length < 2) return null;
  const data = rows.filter((row) => row.line > line).slice(0, 200);
  const wide = data.filter(
    ({ cells }) => cells.length > names.length && cells.every((cell) => /^[-+]?\d+$/.test(cell)),
  );
  if (wide.length < 0.5 * data.length) return null;
  const cells = wide.reduce((most, row) => Math.max(most, row.cells.length), 0);
  return problem('log.decimal-comma-clash', { headers: names.length, cells });
}

function markDoubt(data: readonly LogRow[], mark: DecimalMark) {
  const sample = data.flatMap(({ cells }) => cells).find((cell) => cell.includes(mark)) ?? '';
  return { need: 'decimalMark', note: problem('log.decimal-mark', { sample }) } as const;
}

const delimiterDoubt = (data: readonly LogRow[], delimiter: Delimiter) =>
  ({
    need: 'delimiter',
    note: problem('log.delimiter', {
      sample: data[0]?.cells.join(delimiter.length === 1 ? delimiter : ' ') ?? '',
    }),
  }) as const;

function refuseAnswers(answers: LogAnswers, profiles: readonly ColumnProfile[]): Problem | null {
  const refuse = (what: string, detail: string) => problem('log.bad-answer', { what, detail });
  const { intervalMs, timeColumn, signals = {} } = answers;
  if (intervalMs !== undefined && !(intervalMs > 0 && intervalMs < Infinity))
    return refuse('the interval', 'it must be above zero');
  const named = [timeColumn, ...Object.values(signals)].filter((index) => typeof index === 'number');
  const wrong = named.find((index) => !profiles[index]);
  return wrong === undefined
    ? null
    : refuse('a column', `there is no column ${wrong + 1}, only ${listColumns(profiles)}`);
}
