import { looksOf, rowsOf, type LogRow } from './log-rows.ts';
import type { Delimiter, Quotes } from './split-cells.ts';

export interface DelimiterChoice {
  readonly delimiter: Delimiter;
  /** False where another delimiter reads the file as well ("146,5": one number or two). */
  readonly sure: boolean;
}

const CANDIDATES: readonly { readonly delimiter: Delimiter; readonly handicap: number }[] = [
  { delimiter: ';', handicap: 0 },
  { delimiter: '\t', handicap: 0 },
  { delimiter: ',', handicap: 0 },
  { delimiter: '|', handicap: 0.01 },
  { delimiter: 'none', handicap: 0.02 },
  { delimiter: 'spaces', handicap: 0.05 },
  { delimiter: 'space', handicap: 0.1 },
];
const HEADER_BONUS = 0.15;

/**
 * Which delimiter splits a log best: rows of one width whose cells are numbers, times or missing, under a row of words
 * of that width. So "0,5;120,5" is two decimal commas and not three cells. A first line "sep=;" decides at once.
 */
export function chooseDelimiter(text: string, quotes: Quotes): DelimiterChoice {
  const declared = /^sep=([,;\t|])\s*$/im.exec(text.slice(0, 8))?.[1];
  if (declared) return { delimiter: declared as Delimiter, sure: true };
  const scored = CANDIDATES.map(({ delimiter, handicap }) => {
    const rows = rowsOf(text, { delimiter, quotes });
    const width = usualWidth(rows);
    return { delimiter, score: scoreOf(rows, width, delimiter === 'none') - handicap };
  });
  scored.sort((a, b) => b.score - a.score);
  const [best, second] = scored;
  if (!best || best.score <= 0) return { delimiter: ',', sure: false };
  const single = [best.delimiter, second?.delimiter].includes('none');
  return { delimiter: best.delimiter, sure: !single || best.score - (second?.score ?? 0) > 0.05 };
}

/** The usual number of cells in the body of a log, the wide rows counting for more; 0 without rows. */
export function usualWidth(rows: readonly LogRow[]): number {
  const weights = new Map<number, number>();
  for (const { cells } of bodyOf(rows)) {
    weights.set(cells.length, (weights.get(cells.length) ?? 0) + cells.length ** 2);
  }
  let best = 0;
  for (const [width, weight] of weights) if (weight > (weights.get(best) ?? 0)) best = width;
  return best;
}

const BODY_ROWS = 500;
const belowPreamble = (rows: readonly LogRow[]): readonly LogRow[] =>
  rows.slice(Math.min(40, Math.floor(rows.length / 3)));

/**
 * Rows that are data by their looks (a third of their cells or more are numbers or times), at most 500; without what may
 * be a preamble: the first third, at most 40 rows. All those rows when none is data.
 */
export function bodyOf(rows: readonly LogRow[]): readonly LogRow[] {
  const below = belowPreamble(rows);
  const data: LogRow[] = [];
  for (const row of below) {
    const filled = row.cells.map((cell) => looksOf(cell)).filter((looks) => looks !== 'missing');
    const text = filled.filter((looks) => looks === 'text').length;
    if (filled.length > 0 && text <= 0.67 * filled.length) data.push(row);
    if (data.length === BODY_ROWS) break;
  }
  return data.length > 0 ? data : below;
}

function scoreOf(rows: readonly LogRow[], width: number, single: boolean): number {
  if (rows.length === 0 || (width < 2 && !single) || (single && width > 1)) return 0;
  const body = bodyOf(rows);
  // "120;10" is no number: a lone one at the end of such rows makes no log of a single column
  const among = single ? Math.min(BODY_ROWS, belowPreamble(rows).length) : body.length;
  const fitting = body.filter(
    ({ cells }) => cells.length === width || (cells.length > width / 2 && cells.length <= width + 1),
  );
  const cells = fitting.slice(0, 200).flatMap((row) => row.cells);
  const clean = cells.filter((cell) => looksOf(cell) !== 'text').length / Math.max(1, cells.length);
  return clean === 0 ? 0 : (fitting.length / among) * clean + (hasHeader(rows, width) ? HEADER_BONUS : 0);
}

const hasHeader = (rows: readonly LogRow[], width: number): boolean =>
  rows.slice(0, 40).some(({ cells }) => cells.length === width && cells.filter(isWord).length > 0.6 * width);

/** A name of a column: words, and no delimiter left within. */
const isWord = (cell: string): boolean => looksOf(cell) === 'text' && !/[,;\t|]/.test(cell);
