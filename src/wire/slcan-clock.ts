import type { FrameStamp } from './slcan-frame.ts';

/**
 * Source time may run ahead of arrival by this much, against where they were tied together; beyond it the stamps
 * are tied to arrival anew. Common practice, no source: well above USB bunching and 100 ppm over an hour.
 */
export const DISAGREEMENT_MS = 2_000;
/**
 * Source time may lie behind arrival by this much: what was held up on the way (a busy page, a sleeping port) arrives late but
 * was stamped when it happened. Below half a period of the millisecond stamp, so that the number of turns stays known.
 */
export const LATE_MS = 25_000;
/** So many equal stamps in a row, while arrival moved on by `STUCK_MS`, are a clock that stands still. */
export const STUCK_FRAMES = 32;
export const STUCK_MS = 100;

/** So many stamps in a row that agree with each other, but not with those before, are believed. One alone is a turned digit. */
export const BELIEVED_STAMPS = 3;

const PERIOD_MS = 60_000;
const PERIOD_US_MS = 3_600_000;

/**
 * Turns stamps into times. Immutable between chunks, copied and changed within one.
 * - `lastMs` is the last time given; times never fall.
 * - `digits` 0: not tied to stamps. Otherwise the stamp `rawMs` was given `stampedMs` and arrived at `rawArrivalMs`.
 * - `offsetMs`: source time minus arrival where they were tied.
 */
export interface SlcanClock {
  lastMs: number;
  digits: 0 | 4 | 8;
  rawMs: number;
  stampedMs: number;
  rawArrivalMs: number;
  offsetMs: number;
  equal: number;
  equalSinceMs: number;
  /** Stamps in a row that did not fit, and the last of them with its arrival. */
  suspects: number;
  suspectRawMs: number;
  suspectArrivalMs: number;
  /** The stamps stood still: arrival is used from then on. */
  stuck: boolean;
  /** Set by `timeFrame`: time is not continuous with the frame before. */
  broken: boolean;
  used: 'unknown' | 'arrival' | 'source';
}

export const UNSET_CLOCK: SlcanClock = {
  lastMs: -Infinity,
  digits: 0,
  rawMs: 0,
  stampedMs: 0,
  rawArrivalMs: 0,
  offsetMs: 0,
  equal: 0,
  equalSinceMs: 0,
  suspects: 0,
  suspectRawMs: 0,
  suspectArrivalMs: 0,
  stuck: false,
  broken: false,
  used: 'unknown',
};

/**
 * Time in ms of a frame with this stamp that arrived at `arrivalMs`; sets `clock.broken`.
 * Without stamps: arrival. With stamps: source time, tied to the arrival of the first one. A frame without a stamp
 * between stamped ones takes the time of the frame before it; after `DISAGREEMENT_MS` of such frames arrival is used.
 * Source: can-text-formats.md, Part 1: periods of 60 000 ms and 3 600 000 000 us; do not trust stamps that stand still.
 */
export function timeFrame(clock: SlcanClock, stamp: FrameStamp, arrivalMs: number): number {
  clock.broken = false;
  if (stamp.digits === 0 || clock.stuck) return unstamped(clock, arrivalMs);
  const rawMs = stamp.digits === 4 ? stamp.stamp : stamp.stamp / 1000;
  if (clock.digits !== stamp.digits) return tie(clock, stamp.digits, rawMs, arrivalMs);
  const periodMs = stamp.digits === 4 ? PERIOD_MS : PERIOD_US_MS;
  const moved = rawMs - clock.rawMs;
  const turns = Math.round((arrivalMs - clock.rawArrivalMs - moved) / periodMs);
  const atMs = clock.stampedMs + moved + turns * periodMs;
  const aheadMs = atMs - arrivalMs - clock.offsetMs;
  if (atMs < clock.stampedMs || !isPlausible(aheadMs)) {
    if (!isBelieved(clock, rawMs, arrivalMs, periodMs)) return clock.lastMs;
    // Back on the old line, a little behind a stamp that was ahead: that one was wrong, not these.
    if (!isNear(aheadMs) || !isNear(clock.stampedMs - atMs))
      return tie(clock, stamp.digits, rawMs, arrivalMs);
  }
  clock.suspects = 0;
  if (standsStill(clock, moved, arrivalMs)) {
    clock.stuck = true;
    clock.digits = 0;
    clock.broken = true;
    return unstamped(clock, arrivalMs, true);
  }
  clock.rawMs = rawMs;
  clock.stampedMs = atMs;
  clock.rawArrivalMs = arrivalMs;
  return goOn(clock, atMs);
}

/** Ahead of arrival a little, behind it as long as things may be held up. */
const isPlausible = (aheadMs: number): boolean => aheadMs <= DISAGREEMENT_MS && aheadMs >= -LATE_MS;

const isNear = (spanMs: number): boolean => Math.abs(spanMs) <= DISAGREEMENT_MS;

/** Counts a stamp that does not fit; true once enough of them fit each other: never back, never faster than arrival allows. */
function isBelieved(clock: SlcanClock, rawMs: number, arrivalMs: number, periodMs: number): boolean {
  const moved = (rawMs - clock.suspectRawMs + periodMs) % periodMs;
  const agrees = moved <= arrivalMs - clock.suspectArrivalMs + DISAGREEMENT_MS;
  clock.suspects = clock.suspects > 0 && agrees ? clock.suspects + 1 : 1;
  clock.suspectRawMs = rawMs;
  clock.suspectArrivalMs = arrivalMs;
  return clock.suspects >= BELIEVED_STAMPS;
}

function unstamped(clock: SlcanClock, arrivalMs: number, broken = false): number {
  const tied = clock.digits !== 0;
  if (tied && arrivalMs - clock.rawArrivalMs <= DISAGREEMENT_MS) return clock.lastMs;
  clock.broken = broken || tied;
  clock.digits = 0;
  clock.used = 'arrival';
  return goOn(clock, arrivalMs);
}

/** Ties the stamps to arrival. A break, unless it is the first tie. */
function tie(clock: SlcanClock, digits: 4 | 8, rawMs: number, arrivalMs: number): number {
  clock.broken = clock.used !== 'unknown';
  const atMs = goOn(clock, arrivalMs);
  clock.digits = digits;
  clock.rawMs = rawMs;
  clock.stampedMs = atMs;
  clock.rawArrivalMs = arrivalMs;
  clock.offsetMs = atMs - arrivalMs;
  clock.equal = 0;
  clock.equalSinceMs = arrivalMs;
  clock.suspects = 0;
  clock.used = 'source';
  return atMs;
}

function standsStill(clock: SlcanClock, moved: number, arrivalMs: number): boolean {
  if (moved !== 0) {
    clock.equal = 0;
    clock.equalSinceMs = arrivalMs;
    return false;
  }
  clock.equal++;
  return clock.equal >= STUCK_FRAMES && arrivalMs - clock.equalSinceMs > STUCK_MS;
}

function goOn(clock: SlcanClock, atMs: number): number {
  if (atMs > clock.lastMs) clock.lastMs = atMs;
  return clock.lastMs;
}
