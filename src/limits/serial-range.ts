import type { LimitSheet } from './limit-sheet.ts';

/**
 * Orders two serial numbers: runs of digits by their value, the rest letter by letter, case and spaces ignored. So "A9" comes before
 * "A10". Negative when `a` comes first, 0 when they are the same.
 */
export function compareSerials(a: string, b: string): number {
  const left = runsOf(a);
  const right = runsOf(b);
  for (let index = 0; index < Math.min(left.length, right.length); index += 1) {
    const order = compareRuns(left[index] ?? '', right[index] ?? '');
    if (order !== 0) return order;
  }
  return left.length - right.length;
}

/** Whether the sheet holds for this serial number. An open end (null) has no bound; both ends belong to the range. */
export function sheetCovers(sheet: Pick<LimitSheet, 'serialRanges'>, serial: string): boolean {
  return sheet.serialRanges.some(
    ({ from, to }) =>
      (from === null || compareSerials(serial, from) >= 0) &&
      (to === null || compareSerials(serial, to) <= 0),
  );
}

const runsOf = (serial: string): readonly string[] =>
  serial
    .replace(/[\s-]+/g, '')
    .toUpperCase()
    .match(/\d+|\D+/g) ?? [];

function compareRuns(a: string, b: string): number {
  if (/^\d/.test(a) && /^\d/.test(b)) {
    // By length first: serial numbers can be longer than a double holds exactly.
    const [left, right] = [a.replace(/^0+/, ''), b.replace(/^0+/, '')];
    return left.length - right.length || compareText(left, right);
  }
  return compareText(a, b);
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
