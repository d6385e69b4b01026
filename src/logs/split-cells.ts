import Papa from 'papaparse/papaparse.js';

/** What stands between two cells. `spaces` is two or more blanks, `space` one or more, `none` a single column. */
export const DELIMITERS = [',', ';', '\t', '|', 'spaces', 'space', 'none'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** `standard`: RFC 4180 quotes. `ignored`: a quote is a character like any other (a file with a stray one). */
export type Quotes = 'standard' | 'ignored';

export interface Splitting {
  readonly delimiter: Delimiter;
  readonly quotes: Quotes;
}

/** Takes the cells of one row and the number (1 is the first) of the line on which the row begins. */
export type OnRow = (cells: readonly string[], line: number) => void;

const CHUNK_CHARACTERS = 1 << 16; // rows are handed on and dropped per chunk, so a large log is never held as cells
const NOWHERE = '\u0001'; // a delimiter that no log holds

/**
 * Splits the text of a log into rows of cells as they stand (not trimmed); blank lines come as one empty cell.
 * @returns whether a quote was left open, so that everything after it landed in one cell.
 */
export function splitCells(
  text: string,
  { delimiter, quotes }: Splitting,
  onRow: OnRow,
): { unclosedQuote: boolean } {
  let line = 1;
  let unclosedQuote = false;
  const mayBreakLines = quotes === 'standard' && text.includes('"');
  Papa.parse(withOneDelimiter(text, delimiter), {
    delimiter: delimiter.length === 1 ? delimiter : delimiter === 'none' ? NOWHERE : '\t',
    newline: '\n',
    ...(quotes === 'ignored' && { fastMode: true }),
    chunkSize: CHUNK_CHARACTERS,
    chunk: ({ data, errors }) => {
      unclosedQuote ||= errors.some(({ code }) => code === 'MissingQuotes');
      for (const cells of data) {
        onRow(cells, line);
        line += 1 + (mayBreakLines ? lineBreaksIn(cells) : 0);
      }
    },
  });
  return { unclosedQuote };
}

function withOneDelimiter(text: string, delimiter: Delimiter): string {
  const feeds = text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text;
  const lines = feeds.endsWith('\n') ? feeds.slice(0, -1) : feeds; // the end of the last line begins no other
  if (delimiter === 'spaces') return lines.replace(/^ +| +$/gm, '').replace(/ {2,}/g, '\t');
  return delimiter === 'space' ? lines.replace(/^[ \t]+|[ \t]+$/gm, '').replace(/[ \t]+/g, '\t') : lines;
}

function lineBreaksIn(cells: readonly string[]): number {
  let found = 0;
  for (const cell of cells)
    for (let at = cell.indexOf('\n'); at >= 0; at = cell.indexOf('\n', at + 1)) found++;
  return found;
}
