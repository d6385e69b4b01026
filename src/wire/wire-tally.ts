import type { Malformed, MalformedReason, WireCounts, WireNote } from './wire-decoder.ts';

/** Malformed lines kept for showing. */
const KEPT_MALFORMED = 8;
/** Characters of a malformed line kept for showing. */
const KEPT_TEXT = 48;

/** Counts of one chunk while it is being read; begins as a copy of the state's counts. */
export interface WireTally {
  lines: number;
  frames: number;
  bytes: number;
  lost: number;
  readonly malformed: Record<MalformedReason, number>;
  readonly recentMalformed: Malformed[];
  readonly notes: WireNote[];
}

export const NO_COUNTS: WireCounts = {
  lines: 0,
  frames: 0,
  bytes: 0,
  lost: 0,
  malformed: {
    unknownLine: 0,
    badHex: 0,
    wrongLength: 0,
    idTooLarge: 0,
    tooLong: 0,
    cutLine: 0,
    notKept: 0,
    badValue: 0,
  },
  recentMalformed: [],
};

export const tallyFrom = (counts: WireCounts): WireTally => ({
  lines: counts.lines,
  frames: counts.frames,
  bytes: counts.bytes,
  lost: counts.lost,
  malformed: { ...counts.malformed },
  recentMalformed: counts.recentMalformed.slice(),
  notes: [],
});

export const countsOf = (tally: WireTally): WireCounts => ({
  lines: tally.lines,
  frames: tally.frames,
  bytes: tally.bytes,
  lost: tally.lost,
  malformed: tally.malformed,
  recentMalformed: tally.recentMalformed,
});

/** Counts a line that was not taken and keeps its beginning for showing. */
export function noteMalformed(tally: WireTally, malformed: Malformed): void {
  tally.malformed[malformed.reason]++;
  tally.recentMalformed.push(malformed);
  if (tally.recentMalformed.length > KEPT_MALFORMED) tally.recentMalformed.shift();
}

/** Whether the bytes are white space and nothing else. */
export const isBlank = (bytes: Uint8Array): boolean => bytes.every((byte) => byte <= 0x20);

/** The counts with an unfinished line that is given up, as `cutLine`; unchanged where nothing but white space waited. */
export function countCutLine(counts: WireCounts, rest: Uint8Array, atMs: number): WireCounts {
  if (isBlank(rest)) return counts;
  const tally = tallyFrom(counts);
  tally.lines++;
  noteMalformed(tally, { reason: 'cutLine', atMs, text: shownText(rest, 0, rest.length) });
  return countsOf(tally);
}

/** The source says that frames were lost: `frames` of them, or null for an unknown number (counted as one). */
export function noteLost(tally: WireTally, frames: number | null): void {
  tally.lost += frames ?? 1;
  tally.notes.push({ kind: 'lost', frames });
}

/** `bytes[start … end-1]` as text for showing: at most 48 characters, a dot for what cannot be printed. */
export function shownText(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  for (let at = start; at < end && at < start + KEPT_TEXT; at++) {
    const code = bytes[at]!;
    text += code >= 0x20 && code < 0x7f ? String.fromCharCode(code) : '.';
  }
  return text;
}
