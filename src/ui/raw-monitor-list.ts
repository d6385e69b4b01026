import type { MonitorRow, MonitorSource, RowTest } from './raw-monitor-row.ts';

/** The rows that a filter lets through, found so far: numbers of rows, and how far the source has been looked through. */
export interface Matches {
  readonly numbers: readonly number[];
  readonly scanned: number;
}

export const NO_MATCHES: Matches = { numbers: [], scanned: 0 };

const firstOf = (source: MonitorSource): number => source.first?.() ?? 0;

/**
 * Looks through at most `budget` further rows, so that a new filter over many rows never holds up the page.
 * Rows that the source no longer holds fall out.
 */
export function stepMatches(
  { numbers, scanned }: Matches,
  source: MonitorSource,
  fits: RowTest,
  budget: number,
): Matches {
  const first = firstOf(source);
  const from = Math.max(scanned, first);
  const to = Math.min(source.count(), from + budget);
  const held = (numbers[0] ?? first) < first ? numbers.filter((each) => each >= first) : numbers;
  const found: number[] = [];
  for (let at = from; at < to; at += 1) if (fits(source.row(at))) found.push(at);
  return { numbers: found.length > 0 ? [...held, ...found] : held, scanned: Math.max(to, scanned) };
}

/** What is listed: all that the source holds, or the matches of a filter. Positions run from 0. */
export interface MonitorList {
  readonly length: number;
  /** The running number of the row at a position. */
  numberAt(position: number): number;
  rowAt(position: number): MonitorRow;
  /** Where a row of this number stands, or would stand; 0 for one that is no longer held. */
  positionOf(number: number): number;
}

/** The list of a source at this moment. */
export function listOf(source: MonitorSource, matches: Matches | null): MonitorList {
  const first = firstOf(source);
  const numberAt = (position: number) => (matches ? (matches.numbers[position] ?? -1) : first + position);
  return {
    length: matches ? matches.numbers.length : Math.max(0, source.count() - first),
    numberAt,
    rowAt: (position) => source.row(numberAt(position)),
    positionOf: (number) =>
      matches ? matches.numbers.filter((each) => each < number).length : Math.max(0, number - first),
  };
}

const GONE: MonitorRow = {
  kind: 'note',
  time: '',
  text: 'No longer held',
  reason: 'newer rows took its place',
};

/** A view that does not move any more: the source's own, or one that says which rows have gone meanwhile. */
export function frozen(source: MonitorSource): MonitorSource {
  const own = source.freeze?.();
  if (own) return own;
  const first = firstOf(source);
  const count = source.count();
  return {
    first: () => first,
    count: () => count,
    row: (index) => (index < firstOf(source) ? GONE : source.row(index)),
  };
}

/** Rows chosen with pointer or keys: from `anchor` to `cursor`, both positions in the list, either way round. */
export interface RowRange {
  readonly anchor: number;
  readonly cursor: number;
}

const STEPS: Readonly<Record<string, (page: number, last: number) => number>> = {
  ArrowUp: () => -1,
  ArrowDown: () => 1,
  PageUp: (page) => -page,
  PageDown: (page) => page,
  Home: (_, last) => -last,
  End: (_, last) => last,
};

/**
 * Where a key takes the cursor: arrows, Page Up and Down, Home, End; with `extend` the anchor stays. Without a range it
 * starts at `start`. Any other key, or an empty list, gives null.
 */
export function movedRange(
  key: string,
  range: RowRange | null,
  extend: boolean,
  at: { readonly start: number; readonly page: number; readonly length: number },
): RowRange | null {
  const step = STEPS[key];
  if (!step || at.length === 0) return null;
  const last = at.length - 1;
  const from = range?.cursor ?? at.start;
  const cursor = Math.min(last, Math.max(0, range ? from + step(at.page, last) : from));
  return { anchor: extend && range ? range.anchor : cursor, cursor };
}
