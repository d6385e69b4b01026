import { comparable } from './engine-history.ts';
import type { JobSummary } from './job-summary.ts';

/** A row made ready for search: once when the list is opened, not at each key. */
export interface SearchRow {
  readonly summary: JobSummary;
  /** Unit, serial number and VIN, folded, and without spaces and dashes. */
  readonly numbers: readonly string[];
  /** `spn 157 fmi 18 157/18` for each code. */
  readonly codes: string;
  /** Complaint, customer, technician, engine family, folded. */
  readonly texts: string;
}

/** Small letters without accents: what is typed on another keyboard still finds. */
const folded = (text: string): string =>
  // Ten thousand are folded when the list opens, and most need none.
  (/\P{ASCII}/u.test(text) ? text.normalize('NFD').replace(/\p{M}/gu, '') : text).toLowerCase();
const plainNumber = (text: string): string => comparable(folded(text)).toLowerCase();

/** Rows in the same order, ready for `searchJobs`. */
export function searchRows(summaries: readonly JobSummary[]): readonly SearchRow[] {
  return summaries.map((summary) => {
    const { unitNumber, serialNumber, vin, complaint, customer, technician, engineFamily } = summary;
    return {
      summary,
      numbers: [unitNumber, serialNumber, vin].flatMap((number) => [folded(number), plainNumber(number)]),
      codes: summary.codes.map((code) => `spn ${code.replace('/', ' fmi ')} ${code}`).join(' '),
      texts: folded([complaint, customer, technician, engineFamily].join('\n')),
    };
  });
}

/**
 * The rows in which every word of the query occurs, best first: a word that is a whole unit, serial number or VIN counts most, then the beginning of
 * one, then a part of one, then a trouble code, then a word in the texts. Equal rows keep their order. An empty query gives all.
 */
export function searchJobs(rows: readonly SearchRow[], query: string): readonly JobSummary[] {
  const words = folded(query).split(/\s+/).filter(Boolean);
  if (words.length === 0) return rows.map(({ summary }) => summary);
  const found: { readonly summary: JobSummary; readonly score: number }[] = [];
  for (const row of rows) {
    const score = scoreOf(row, words);
    if (score > 0) found.push({ summary: row.summary, score });
  }
  return found.toSorted((a, b) => b.score - a.score).map(({ summary }) => summary);
}

/** 0 where a word occurs nowhere. */
function scoreOf(row: SearchRow, words: readonly string[]): number {
  let sum = 0;
  for (const word of words) {
    const score = wordScore(row, word);
    if (score === 0) return 0;
    sum += score;
  }
  return sum;
}

function wordScore({ numbers, codes, texts }: SearchRow, word: string): number {
  const bare = plainNumber(word);
  const isNumber = (fits: (number: string, wanted: string) => boolean) =>
    numbers.some((number) => number !== '' && (fits(number, word) || (bare !== '' && fits(number, bare))));
  if (isNumber((number, wanted) => number === wanted)) return 16;
  if (isNumber((number, wanted) => number.startsWith(wanted))) return 8;
  if (isNumber((number, wanted) => number.includes(wanted))) return 4;
  if (` ${codes}`.includes(` ${word}`)) return 3;
  return texts.includes(word) ? 1 : 0;
}
