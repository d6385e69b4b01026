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
  if (atMs < clock.stampedMs || aheadMs > DISAGREEMENT_MS || aheadMs < -LATE_MS) {
    return tie(clock, stamp.digits, rawMs, arrivalMs);
  }
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
