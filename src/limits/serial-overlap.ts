import type { SerialRange } from './limit-sheet.ts';
import { bareSerial, compareSerials, rangeHolds } from './serial-range.ts';

/** So many digits after a prefix are tried where a range has an open end. */
const MOST_DIGITS = 12;

/**
 * A serial number that both ranges hold, or null when there is none. Where ranges overlap, an end of one lies within the other; with a prefix and
 * an open end, the end is the prefix followed by zeros or nines. Serial numbers of one kind have the same number of characters; for such the
 * answer is exact.
 */
export function sharedSerial(one: SerialRange, other: SerialRange): string | null {
  const candidates = [...typedEnds(one), ...typedEnds(other), ...openEnds(one), ...openEnds(other)];
  return candidates.find((serial) => rangeHolds(one, serial) && rangeHolds(other, serial)) ?? null;
}

const typedEnds = ({ prefix = '', from, to }: SerialRange): readonly string[] =>
  [from, to].flatMap((end) => (end === null ? [] : [bareSerial(prefix) + bareSerial(end)]));

function openEnds({ prefix = '', from, to }: SerialRange): readonly string[] {
  const digits = [...(from === null ? ['0'] : []), ...(to === null ? ['9'] : [])];
  return digits.flatMap((digit) =>
    Array.from({ length: MOST_DIGITS + 1 }, (_, count) => bareSerial(prefix) + digit.repeat(count)),
  );
}

/** Serial numbers that lie between two ranges and in neither: the last before and the first after. */
export interface SerialGap {
  readonly after: string;
  readonly before: string;
}

/**
 * Gaps between ranges that count through the same letters: "A100 to A199" and "A250 on" leave A200 to A249. Ranges that differ in more than the
 * number they end with may belong to different works; between them nothing is missing that could be told.
 */
export function serialGaps(ranges: readonly SerialRange[]): readonly SerialGap[] {
  const series = new Map<string, CountedRange[]>();
  for (const range of ranges.map(counted)) {
    if (range) series.set(range.stem, [...(series.get(range.stem) ?? []), range]);
  }
  return [...series.values()].flatMap(gapsInSeries);
}

/** A range as first and last number of a series; null for an open end. */
interface CountedRange {
  readonly stem: string;
  readonly from: End | null;
  readonly to: End | null;
}
interface End {
  readonly value: bigint;
  readonly serial: string;
}

function counted({ prefix = '', from, to }: SerialRange): CountedRange | null {
  const [first, last] = [from, to].map((end) => (end === null ? null : split(bareSerial(prefix + end))));
  const stems = new Set([first, last].flatMap((end) => (end ? [end.stem] : [])));
  const [stem] = stems;
  // Without ends, with two stems, or with an end that is not counted, nothing can be said of what lies between.
  if (stem === undefined || stems.size > 1 || first === undefined || last === undefined) return null;
  return { stem, from: first?.end ?? null, to: last?.end ?? null };
}

/** Undefined for a serial number that does not end in a number. */
function split(serial: string): { readonly stem: string; readonly end: End } | undefined {
  const found = /^(.*?)(\d+)$/.exec(serial);
  return found ? { stem: found[1] ?? '', end: { value: BigInt(found[2] ?? '0'), serial } } : undefined;
}

function gapsInSeries(ranges: readonly CountedRange[]): readonly SerialGap[] {
  const sorted = ranges.toSorted((a, b) => order(a.from, b.from));
  const gaps: SerialGap[] = [];
  let reached: End | null = sorted[0]?.to ?? null;
  for (const { from, to } of sorted.slice(1)) {
    if (reached === null) break; // open upwards: nothing can be missing above
    if (from !== null && from.value > reached.value + 1n)
      gaps.push({ after: reached.serial, before: from.serial });
    reached = to === null || to.value > reached.value ? to : reached;
  }
  return gaps;
}

function order(a: End | null, b: End | null): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? -1 : 1;
  return a.value < b.value ? -1 : a.value > b.value ? 1 : compareSerials(a.serial, b.serial);
}
