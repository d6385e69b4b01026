import type { LogStamp } from './log-stamp.ts';

/** A fall of more than this within one interface is a clock that was set back; less is disorder. Common practice, no source. */
export const SET_BACK_MS = 50;

/**
 * Time of a log between two lines. `offsetMs` is added to the stamps; it grows when the logger's clock is set back, so
 * that time goes on. `lastMs` per channel. `sumMs`: delta stamps added up.
 */
export interface LogClock {
  stamps: 'unknown' | 'zero' | 'delta';
  offsetMs: number;
  sumMs: number;
  readonly lastMs: Float64Array;
  used: 'unknown' | 'source' | 'none';
  broken: boolean;
}

export const newLogClock = (): LogClock => ({
  stamps: 'unknown',
  offsetMs: 0,
  sumMs: 0,
  lastMs: new Float64Array(256).fill(-Infinity),
  used: 'unknown',
  broken: false,
});

export const copyLogClock = (clock: LogClock): LogClock => ({ ...clock, lastMs: clock.lastMs.slice() });

/**
 * Time in ms of a line with this stamp on this channel (NaN without stamp); sets `clock.broken` where the clock was set
 * back. Never falls within one channel. Call it for every stamped line, kept or not: delta stamps add up over all.
 */
export function timeLine(clock: LogClock, stamp: LogStamp | null, channel: number): number {
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
