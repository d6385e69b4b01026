import type { LimitSheet, SerialRange } from './limit-sheet.ts';

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

/** Whether the sheet holds for this serial number, in any of its ranges. */
export const sheetCovers = (sheet: Pick<LimitSheet, 'serialRanges'>, serial: string): boolean =>
  sheet.serialRanges.some((range) => rangeHolds(range, serial));

/**
 * Whether a range holds the serial number: with a prefix it must begin with it, and what follows is compared with the ends. An open end
 * (null) has no bound; both ends belong to the range.
 */
export function rangeHolds({ prefix = '', from, to }: SerialRange, serial: string): boolean {
  const [start, whole] = [bareSerial(prefix), bareSerial(serial)];
  if (!whole.startsWith(start)) return false;
  const rest = whole.slice(start.length);
  return (from === null || compareSerials(rest, from) >= 0) && (to === null || compareSerials(rest, to) <= 0);
}

/** Whether a range says anything of serial numbers: one without prefix and ends holds for all, and so names none. */
export const isBounded = ({ prefix, from, to }: SerialRange): boolean =>
  from !== null || to !== null || bareSerial(prefix ?? '') !== '';

/** A range in words: "A100 to A200", "from A100 on", "up to A200", "only A100", "all that begin with A". */
export function rangeText({ prefix = '', from, to }: SerialRange): string {
  if (from === null && to === null) return prefix === '' ? 'all' : `all that begin with ${prefix}`;
  if (from === null) return `${prefix === '' ? '' : `${prefix}… `}up to ${prefix}${to}`;
  if (to === null) return `from ${prefix}${from} on`;
  return compareSerials(from, to) === 0 ? `only ${prefix}${from}` : `${prefix}${from} to ${prefix}${to}`;
}

/** A serial number as it is compared: no spaces or hyphens, capital letters. */
export const bareSerial = (serial: string): string => serial.replace(/[\s-]+/g, '').toUpperCase();

const runsOf = (serial: string): readonly string[] => bareSerial(serial).match(/\d+|\D+/g) ?? [];

function compareRuns(a: string, b: string): number {
  if (/^\d/.test(a) && /^\d/.test(b)) {
    // By length first: serial numbers can be longer than a double holds exactly.
    const [left, right] = [a.replace(/^0+/, ''), b.replace(/^0+/, '')];
    return left.length - right.length || compareText(left, right);
  }
  return compareText(a, b);
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
