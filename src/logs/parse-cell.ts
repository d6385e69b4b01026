import { plainNumber, type DecimalMark } from './plain-cell.ts';

export type { DecimalMark } from './plain-cell.ts';

const NO_DATA = new Set([
  'n/a', 'na', '#n/a', 'n.a.', 'k.a.', 'nan', '-nan', 'null', 'nil', 'none', 'no data', 'nodata', 'no_data', 'inv',
  'invalid', 'not available', 'unavailable', 'err', 'error', 'fault', 'inf', '-inf', '+inf', 'infinity', '-infinity',
  '1.#qnan', '-1.#ind', '1.#inf', '#value!', '#div/0!', '#ref!', '#null!', 'keine daten', 'sin datos', 's/d', 'n.d.',
  'nd',
]); // prettier-ignore
const ONLY_DASHES = /^[-–—_.*?~\s]*$/;

/** Whether a cell says that there is no value: empty, dashes, "N/A", "NaN", "no data" and their kin. */
export function isMissing(cell: string): boolean {
  const first = cell.charCodeAt(0);
  if (first >= 48 && first <= 57 && !cell.includes('#')) return false;
  return ONLY_DASHES.test(cell) || NO_DATA.has(cell.trim().toLowerCase());
}

const PLAIN = /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?\s*$/;
const GROUPED: Readonly<Record<DecimalMark, RegExp>> = {
  '.': /^[-+]?(?:\d{1,3}(?:([,'’ \u00a0\u202f])\d{3})(?:\1\d{3})*|\d+)(?:\.\d*)?$/,
  ',': /^[-+]?(?:\d{1,3}(?:([.'’ \u00a0\u202f])\d{3})(?:\1\d{3})*|\d*)(?:,\d*)?(?:[eE][-+]?\d+)?$/,
};

/**
 * The number in a cell, NaN when it is none. Thousands may be set off by the other mark, blanks or apostrophes, in groups
 * of three. A number with the other mark that cannot be a group ("0.5", "12.75") is taken as what it is.
 */
export function parseNumber(cell: string, mark: DecimalMark): number {
  const plain = plainNumber(cell, mark);
  if (!Number.isNaN(plain)) return plain; // most cells, and far faster
  if (PLAIN.test(cell) && (mark === '.' || !/^\s*[-+]?[1-9]\d{0,2}\.\d{3}\s*$/.test(cell)))
    return Number(cell);
  const text = cell.trim().replace('\u2212', '-');
  if (!/\d/.test(text) || !GROUPED[mark].test(text)) return NaN;
  const other = mark === '.' ? ',' : '.';
  return Number(
    text
      .replace(/['’ \u00a0\u202f]/g, '')
      .replaceAll(other, '')
      .replace(mark, '.'),
  );
}

const SUFFIX =
  /^([-+\u2212]?[\d.,'’ \u00a0\u202f]*?\d)(?:\s+(?=1\/min$)|\s*(?=[a-zA-Z°µ%/]))(1\/min|[^\d\s][a-zA-Z0-9°µ%/²³^-]*)$/;

/** Splits "146 rpm" into number and unit as written; null when the cell is not a number followed by letters. */
export function splitSuffix(cell: string): { readonly number: string; readonly suffix: string } | null {
  const found = SUFFIX.exec(cell.trim());
  return found ? { number: found[1] ?? '', suffix: found[2] ?? '' } : null;
}
