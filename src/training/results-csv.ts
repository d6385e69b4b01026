import type { TrainingResult } from './training-result.ts';

type Cell = string | number | null;

/** Columns of the table, in order; documented in docs/training-results.md. */
const COLUMNS: readonly (readonly [name: string, cell: (result: TrainingResult) => Cell])[] = [
  ['trainee', ({ trainee }) => trainee],
  ['set', ({ setTitle }) => setTitle],
  ['level', ({ level }) => level],
  ['seed', ({ seed }) => seed],
  ['begun', ({ begunAt }) => begunAt],
  ['ended', ({ endedAt }) => endedAt],
  ['how it ended', ({ ended }) => ended],
  ['what was wrong', ({ truth }) => truth.map(({ kind }) => kind).join(' + ') || 'nothing'],
  ['severity', ({ truth }) => truth.map(({ severity }) => severity.toFixed(2)).join(' + ')],
  ['named', ({ named }) => named],
  ['decided', ({ decided }) => decided],
  ['cause', ({ cause }) => cause],
  ['station', ({ station }) => station],
  ['decision', ({ decision }) => decision],
  ['runs', ({ runs }) => runs],
  ['runs not valid', ({ runsNotValid }) => runsNotValid],
  ['checks left out', ({ checksLeftOut }) => checksLeftOut],
  ['parts replaced', ({ partsReplaced }) => partsReplaced],
  ['parts not at fault', ({ partsNotAtFault }) => partsNotAtFault],
  ['minutes', ({ minutes }) => minutes],
  ['part points', ({ partPoints }) => partPoints],
  ['shortest minutes', ({ shortestMinutes }) => shortestMinutes],
  ['shortest part points', ({ shortestPartPoints }) => shortestPartPoints],
  ['set id', ({ setId, setFingerprint }) => `${setId}~${setFingerprint}`],
  ['case id', ({ id }) => id],
];

/** Names of the columns. */
export const CSV_COLUMNS: readonly string[] = COLUMNS.map(([name]) => name);

/**
 * Results as comma-separated values (RFC 4180): a header, a row each, lines ended by CR LF, with a byte order mark in front so that spreadsheets read
 * the text as UTF-8. What a person typed can never run as a formula: a cell that a spreadsheet could take for one gets an apostrophe in front.
 */
export const resultsCsv = (results: readonly TrainingResult[]): string =>
  `\uFEFF${[CSV_COLUMNS, ...results.map((result) => COLUMNS.map(([, cell]) => cell(result)))]
    .map((cells) => cells.map(csvCell).join(','))
    .join('\r\n')}\r\n`;

/** Signs that begin a formula, or that some spreadsheets pass over before one (OWASP, "CSV injection"; from memory). */
const FORMULA = /^[\s\p{Cf}\0]*[=+\-@|%＝＋－＠]/u;

function csvCell(cell: Cell): string {
  if (typeof cell === 'number') return String(cell);
  const text = cell ?? '';
  const safe = FORMULA.test(text) || /^[\t\r\n]/.test(text) ? `'${text}` : text;
  return /[",\r\n;\t]|^\s|\s$|^'/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
