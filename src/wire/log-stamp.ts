/** The text of a stamp in brackets, read. */
export interface LogStamp {
  /** First byte after the closing bracket. */
  end: number;
  ms: number;
  /** `small`: counted from the first frame or from the previous one; `absolute`: since 1970. */
  kind: 'absolute' | 'small';
}

/** Ten digits of seconds are a time since 1970. */
const ABSOLUTE_FROM_S = 1_000_000_000;
/** ms in a fraction of so many digits: up to three a factor, beyond a divisor (exact, unlike a factor below 1). */
const FACTOR_MS: readonly number[] = [1000, 100, 10, 1];
const DIVISOR: readonly number[] = [1, 1, 1, 1, 10, 100, 1e3, 1e4, 1e5, 1e6];

/**
 * Reads `(seconds.fraction)` with 0 to 9 digits of fraction, as a decimal number, or `(2026-11-24 12:00:00.123456)`
 * (as if in UTC: the zone is not told). `start` is at the opening bracket. Source: can-text-formats.md, Part 2.
 * @returns false if it is neither.
 */
export function readLogStamp(bytes: Uint8Array, start: number, end: number, into: LogStamp): boolean {
  let at = start + 1;
  let seconds = 0;
  for (; at < end && isDigit(bytes[at]!); at++) seconds = seconds * 10 + bytes[at]! - 0x30;
  if (at === start + 1) return false;
  if (bytes[at] === 0x2d && at === start + 5) return readDate(bytes, start, end, into);
  return readFraction(bytes, at, end, { seconds, into });
}

function readFraction(
  bytes: Uint8Array,
  from: number,
  end: number,
  { seconds, into }: { seconds: number; into: LogStamp },
): boolean {
  let at = from;
  let fraction = 0;
  let digits = 0;
  if (bytes[at] === 0x2e) {
    for (at++; at < end && isDigit(bytes[at]!); at++, digits++) fraction = fraction * 10 + bytes[at]! - 0x30;
  }
  if (at >= end || bytes[at] !== 0x29 || digits > 9) return false;
  into.end = at + 1;
  into.ms = seconds * 1000 + (digits <= 3 ? fraction * FACTOR_MS[digits]! : fraction / DIVISOR[digits]!);
  into.kind = seconds >= ABSOLUTE_FROM_S ? 'absolute' : 'small';
  return true;
}

function readDate(bytes: Uint8Array, start: number, end: number, into: LogStamp): boolean {
  let text = '';
  for (let at = start + 1; at < end && at < start + 32 && bytes[at] !== 0x29; at++) {
    text += String.fromCharCode(bytes[at]!);
  }
  const parts = /^(\d{4})-(\d\d)-(\d\d) (\d\d):(\d\d):(\d\d)(\.\d{1,9})?$/.exec(text);
  if (!parts || bytes[start + 1 + text.length] !== 0x29) return false;
  const [year, month, day, hour, minute, second] = parts.slice(1, 7).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  into.end = start + 2 + text.length;
  into.ms = Date.UTC(year, month - 1, day, hour, minute, second) + Number(parts[7] ?? 0) * 1000;
  into.kind = 'absolute';
  return true;
}

const isDigit = (byte: number): boolean => byte >= 0x30 && byte <= 0x39;

/** Stamped lines, and bytes, from the beginning of a file that are looked at to tell delta from zero-based stamps. */
export const PROBE_STAMPS = 64;
export const PROBE_BYTES = 8192;

/**
 * What the small stamps of a file count from, told from its beginning: `delta` if they fall in at least one of eight
 * lines (zero-based ones never fall, save for slight disorder between interfaces), `zero` otherwise.
 * @returns null while more bytes are needed (never when `complete`).
 */
export function probeStamps(bytes: Uint8Array, complete: boolean): 'zero' | 'delta' | null {
  const stamp: LogStamp = { end: 0, ms: 0, kind: 'small' };
  const end = Math.min(bytes.length, PROBE_BYTES);
  let stamps = 0;
  let falls = 0;
  let last = -1;
  for (let start = 0; start < end && stamps < PROBE_STAMPS;) {
    const found = bytes.indexOf(0x0a, start);
    const lineEnd = found < 0 || found > end ? end : found;
    if (readFirstStamp(bytes, start, lineEnd, stamp)) {
      if (stamp.kind === 'absolute') return 'zero';
      if (stamp.ms < last) falls++;
      last = stamp.ms;
      stamps++;
    }
    start = lineEnd + 1;
  }
  if (stamps < PROBE_STAMPS && bytes.length < PROBE_BYTES && !complete) return null;
  return falls >= Math.max(1, stamps / 8) ? 'delta' : 'zero';
}

function readFirstStamp(bytes: Uint8Array, start: number, end: number, into: LogStamp): boolean {
  let at = start;
  while (at < end && bytes[at]! <= 0x20) at++;
  return at < end && bytes[at] === 0x28 && readLogStamp(bytes, at, end, into);
}
