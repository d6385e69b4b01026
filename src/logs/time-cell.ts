import { toCanonical } from '../quantities/convert.ts';
import { parseNumber, type DecimalMark } from './parse-cell.ts';
import { plainClock } from './plain-cell.ts';

/**
 * How a time column is written. `clock` is h:mm:ss with or without fraction, 24 h or with AM/PM; `minuteSecond` is the
 * elapsed mm:ss.f; `excelDay` is a serial day number (or a fraction of a day).
 */
export const TIME_KINDS = [
  'seconds',
  'milliseconds',
  'minutes',
  'clock',
  'minuteSecond',
  'dateTime',
  'excelDay',
  'unixSeconds',
  'unixMilliseconds',
] as const;
export type TimeKind = (typeof TIME_KINDS)[number];

/** Order of day, month and year in a date. ISO dates are `yearFirst`. */
export const DATE_ORDERS = ['dayFirst', 'monthFirst', 'yearFirst'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/** How to read the cells of a time column. */
export interface TimeReading {
  readonly kind: TimeKind;
  readonly dateOrder: DateOrder;
  readonly mark: DecimalMark;
}

const MS_A_SECOND = toCanonical(1, 's');
const MS_A_MINUTE = toCanonical(1, 'min');
export const MS_A_HOUR = 60 * MS_A_MINUTE;
export const MS_A_DAY = 24 * MS_A_HOUR;

/**
 * The instant in a cell in ms, from an origin that depends on the kind (midnight, 1970, or the log's own zero).
 * NaN when the cell is not such a time. Only differences within one log mean anything.
 */
export function parseTimeCell(cell: string, { kind, dateOrder, mark }: TimeReading): number {
  switch (kind) {
    case 'clock':
      return parseClock(cell.trim());
    case 'minuteSecond':
      return parseMinuteSecond(cell.trim());
    case 'dateTime':
      return parseDateTime(cell.trim(), dateOrder);
    case 'seconds':
    case 'unixSeconds':
      return parseNumber(cell, mark) * MS_A_SECOND;
    case 'minutes':
      return parseNumber(cell, mark) * MS_A_MINUTE;
    case 'milliseconds':
    case 'unixMilliseconds':
      return parseNumber(cell, mark);
    case 'excelDay':
      return parseNumber(cell, mark) * MS_A_DAY;
  }
}

const CLOCK = /^(\d{1,3}):([0-5]?\d)(?::([0-5]?\d|60)(?:[.,:](\d{1,9}))?)?\s*(?:([ap])\.?\s?m\.?|uhr)?$/i;

/** ms since midnight (or since the log's zero) of h:mm, h:mm:ss, h:mm:ss.f, h:mm:ss,f or h:mm:ss:mmm; NaN otherwise. */
export function parseClock(text: string): number {
  const plain = plainClock(text);
  if (!Number.isNaN(plain)) return plain; // most cells, and far faster
  const found = CLOCK.exec(text);
  if (!found) return NaN;
  const half = found[5]?.toLowerCase();
  const hour = Number(found[1]);
  if (half && (hour < 1 || hour > 12)) return NaN;
  const hours = half ? (hour % 12) + (half === 'p' ? 12 : 0) : hour;
  return hours * MS_A_HOUR + Number(found[2]) * MS_A_MINUTE + secondsMs(found[3], found[4]);
}

const MINUTE_SECOND = /^(\d{1,4}):([0-5]?\d)(?:[.,](\d{1,9}))?$/;

function parseMinuteSecond(text: string): number {
  const found = MINUTE_SECOND.exec(text);
  return found ? Number(found[1]) * MS_A_MINUTE + secondsMs(found[2], found[3]) : NaN;
}

const secondsMs = (whole: string | undefined, fraction: string | undefined): number =>
  Number(whole ?? 0) * MS_A_SECOND +
  (fraction ? (Number(fraction) / 10 ** fraction.length) * MS_A_SECOND : 0);

const YEAR_FIRST = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:T|[\s,_]+)(.+)$/;
const YEAR_LAST = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?:T|[\s,_]+)(.+)$/;
const COMPACT = /^(\d{4})(\d\d)(\d\d)[T _-](\d\d)(\d\d)(\d\d(?:[.,]\d+)?)Z?$/;
const NAMED = /^(\d{1,2})[-. ]+([a-zéäû]{3})[a-zéäû]*\.?[-. ]+(\d{4}|\d{2})[\s,]+(.+)$/i;
const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const ZONE = /(?<=\d)\s*(?:Z|UTC|GMT|[+-]\d\d:?\d\d)$/; // the zone is one and the same in a log: it drops out of differences

/** The pieces of a date and time as written, `first` and `second` being day and month in either order. */
export interface DateParts {
  readonly first: number;
  readonly second: number;
  readonly year: number;
  readonly clock: string;
  readonly order: DateOrder | null;
}

/** Takes a date with a time apart; null when the text is none. `order` is null where the text leaves it open. */
export function splitDateTime(text: string): DateParts | null {
  const parts = (first: number, second: number, year: number) => ({ first, second, year: fullYear(year) });
  const iso = YEAR_FIRST.exec(text);
  if (iso) return { ...parts(+iso[3]!, +iso[2]!, +iso[1]!), clock: iso[4]!, order: 'yearFirst' };
  const last = YEAR_LAST.exec(text);
  if (last) return { ...parts(+last[1]!, +last[2]!, +last[3]!), clock: last[4]!, order: null };
  const compact = COMPACT.exec(text);
  if (compact) {
    const clock = `${compact[4]}:${compact[5]}:${compact[6]}`;
    return { ...parts(+compact[3]!, +compact[2]!, +compact[1]!), clock, order: 'yearFirst' };
  }
  const named = NAMED.exec(text);
  const month = named ? monthOf(named[2]!) : 0;
  return named && month > 0
    ? { ...parts(+named[1]!, month, +named[3]!), clock: named[4]!, order: 'dayFirst' }
    : null;
}

const fullYear = (year: number): number => (year < 100 ? 2000 + year : year);

function monthOf(name: string): number {
  const other: Readonly<Record<string, string>> = { mär: 'mar', mai: 'may', okt: 'oct', dez: 'dec', ene: 'jan', abr: 'apr', ago: 'aug', dic: 'dec' }; // prettier-ignore
  const short = name.toLowerCase();
  return MONTHS.indexOf(other[short] ?? short) + 1;
}

/** ms since 1970 as if in UTC; NaN when the text is no date with a time, or its day or month cannot be. */
export function parseDateTime(text: string, order: DateOrder): number {
  const parts = splitDateTime(text);
  if (!parts) return NaN;
  const monthFirst = parts.order === null && order === 'monthFirst';
  const day = monthFirst ? parts.second : parts.first;
  const month = monthFirst ? parts.first : parts.second;
  if (day < 1 || day > 31 || month < 1 || month > 12) return NaN;
  return Date.UTC(parts.year, month - 1, day) + parseClock(parts.clock.replace(ZONE, ''));
}
