import { timeStamped, timeUnstamped, untied, UNTIED_CLOCK, type AnchoredClock } from './anchored-clock.ts';
import { PROBE_STAMPS, type LogStamp } from './log-stamp.ts';
import type { WireClock } from './wire-decoder.ts';

/** A fall of more than this within one interface is a clock that was set back; less is disorder. Common practice, no source. */
export const SET_BACK_MS = 50;

/**
 * Time of a log between two lines. `offsetMs` is added to the stamps; it grows when the logger's clock is set back, so
 * that time goes on. `lastMs` per channel. `sumMs`: delta stamps added up.
 */
export interface LogClock {
  /** Null: a file. */
  live: LiveStamps | null;
  stamps: 'unknown' | 'zero' | 'delta';
  offsetMs: number;
  sumMs: number;
  readonly lastMs: Float64Array;
  used: WireClock;
  broken: boolean;
}

/** A link: stamps tied to arrival. `small` stamps so far, how many of them fell, and the last: falls tell delta ones. */
interface LiveStamps {
  readonly anchored: AnchoredClock;
  arrivalMs: number;
  small: number;
  falls: number;
  smallMs: number;
}

/** So many falls, and one stamp in eight at least, are stamps that count from the line before. Common practice, no source. */
const DELTA_FALLS = 3;
const DELTA_SHARE = 8;
/** Interfaces may be a little out of order; beyond it a fall is a clock that was set back. */
const LIVE_HABIT = { periodMs: Infinity, disorderMs: SET_BACK_MS };

export const newLogClock = (): LogClock => ({
  live: null,
  stamps: 'unknown',
  offsetMs: 0,
  sumMs: 0,
  lastMs: new Float64Array(256).fill(-Infinity),
  used: 'unknown',
  broken: false,
});

/** For a link: nothing need be looked at in advance. */
export const newLiveClock = (): LogClock => ({
  ...newLogClock(),
  stamps: 'zero',
  live: { anchored: UNTIED_CLOCK, arrivalMs: 0, small: 0, falls: 0, smallMs: -1 },
});

export const copyLogClock = (clock: LogClock): LogClock => ({
  ...clock,
  live: clock.live && { ...clock.live, anchored: { ...clock.live.anchored } },
  lastMs: clock.lastMs.slice(),
});

/** The link was opened again: stamps are tied anew. In a file nothing changes. */
export const reopenLogClock = (clock: LogClock): LogClock =>
  clock.live ? { ...clock, live: { ...clock.live, anchored: untied(clock.live.anchored) } } : clock;

/**
 * Time in ms of a line with this stamp on this channel (NaN without stamp); sets `clock.broken` where the clock was set
 * back. Never falls within one channel. Call it for every stamped line, kept or not: delta stamps add up over all.
 */
export function timeLine(clock: LogClock, stamp: LogStamp | null, channel: number): number {
  if (clock.live) return timeLive(clock, clock.live, stamp);
  clock.broken = false;
  if (stamp === null) {
    if (clock.used === 'unknown') clock.used = 'none';
    return NaN;
  }
  clock.used = 'source';
  if (clock.stamps === 'delta' && stamp.kind === 'small') {
    clock.sumMs += stamp.ms;
    return (clock.lastMs[channel] = clock.sumMs);
  }
  const lastMs = clock.lastMs[channel]!;
  const atMs = stamp.ms + clock.offsetMs;
  if (atMs >= lastMs) return (clock.lastMs[channel] = atMs);
  if (atMs < lastMs - SET_BACK_MS) {
    clock.offsetMs += lastMs - atMs;
    clock.broken = true;
  }
  return lastMs;
}

/** As `timeLine`, tied to arrival over all channels. */
function timeLive(clock: LogClock, live: LiveStamps, stamp: LogStamp | null): number {
  const { anchored, arrivalMs } = live;
  const atMs =
    stamp === null
      ? timeUnstamped(anchored, arrivalMs)
      : timeStamped(anchored, sourceMs(clock, live, stamp), arrivalMs, LIVE_HABIT);
  clock.broken = anchored.broken;
  clock.used = anchored.used;
  if (clock.broken && clock.stamps === 'delta') {
    clock.stamps = 'zero'; // their sum ran away: they were no delta stamps, or the link stood still
    live.small = 0;
    live.falls = 0;
  }
  return atMs;
}

/** What the stamp says in ms of the source: itself, or the sum of those that count from the line before. */
function sourceMs(clock: LogClock, live: LiveStamps, { kind, ms }: LogStamp): number {
  if (kind === 'absolute') return ms;
  if (clock.stamps === 'delta') return (clock.sumMs += ms);
  live.small++;
  if (ms < live.smallMs) live.falls++;
  live.smallMs = ms;
  const { small, falls } = live;
  if (small > PROBE_STAMPS || falls < DELTA_FALLS || falls * DELTA_SHARE < small) return ms;
  clock.stamps = 'delta';
  return (clock.sumMs = (Number.isNaN(live.anchored.rawMs) ? 0 : live.anchored.rawMs) + ms);
}
