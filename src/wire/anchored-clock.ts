import { DISAGREEMENT_MS, LATE_MS } from './slcan-clock.ts';
import type { WireClock } from './wire-decoder.ts';

/** Source time and arrival are drawn together once they lie further apart than this. Common practice, no source. */
export const DRIFT_FROM_MS = 500;
/** So much of the time gone by at most: a ceramic resonator runs wrong by 0.5 %. Common practice, no source. */
export const DRIFT_SHARE = 0.01;

/** How the stamps of a source behave: where their counter starts again, and how far they may fall by mere disorder. */
export interface StampHabit {
  readonly periodMs: number; // Infinity: never starts again
  readonly disorderMs: number;
}

/**
 * Ties the clock of a source to arrival. Immutable between chunks, copied and changed within one. The stamp `rawMs` (NaN: not
 * tied) was given the time `stampedMs` and arrived at `arrivalMs`; `lastMs` is the last time given. Times never fall.
 */
export interface AnchoredClock {
  lastMs: number;
  rawMs: number;
  stampedMs: number;
  arrivalMs: number;
  /** Set by each call: time is not continuous with the line before. */
  broken: boolean;
  used: WireClock;
}

export const UNTIED_CLOCK: AnchoredClock = {
  lastMs: -Infinity,
  rawMs: NaN,
  stampedMs: 0,
  arrivalMs: 0,
  broken: false,
  used: 'unknown',
};

/** The link was opened again: tied anew by the next stamp, and time goes on from where it was. */
export const untied = ({ lastMs }: AnchoredClock): AnchoredClock => ({ ...UNTIED_CLOCK, lastMs });

/**
 * Time in ms of a line with the stamp `rawMs` that arrived at `arrivalMs`: that of the source, the first stamp standing at its
 * arrival. Tied anew, and `broken`, where a stamp falls, runs ahead of arrival or lies too far behind it. Slow drift between the
 * two clocks is taken up by stretching source time by at most 1 %. `arrivalMs` null, a file: stamps as they stand, and where
 * they fall time goes on from the last.
 */
export function timeStamped(
  clock: AnchoredClock,
  rawMs: number,
  arrivalMs: number | null,
  habit: StampHabit,
): number {
  clock.broken = false;
  if (Number.isNaN(clock.rawMs)) return tie(clock, rawMs, arrivalMs ?? rawMs);
  const movedMs = moved(clock, rawMs, arrivalMs, habit.periodMs);
  if (movedMs < 0)
    return movedMs >= -habit.disorderMs ? clock.lastMs : tie(clock, rawMs, arrivalMs ?? clock.lastMs);
  let stampedMs = clock.stampedMs + movedMs;
  if (arrivalMs !== null) {
    const aheadMs = stampedMs - arrivalMs;
    if (aheadMs > DISAGREEMENT_MS || aheadMs < -LATE_MS) return tie(clock, rawMs, arrivalMs);
    const overMs = Math.max(0, Math.abs(aheadMs) - DRIFT_FROM_MS);
    stampedMs -= Math.sign(aheadMs) * Math.min(overMs, movedMs * DRIFT_SHARE);
  }
  return keep(clock, rawMs, stampedMs, arrivalMs ?? 0);
}

/**
 * Time of a line without a stamp: arrival. Between stamped lines that of the one before; after `DISAGREEMENT_MS` of such lines
 * arrival again, `broken`. In a file (`arrivalMs` null) NaN before the first stamp.
 */
export function timeUnstamped(clock: AnchoredClock, arrivalMs: number | null): number {
  clock.broken = false;
  const tied = !Number.isNaN(clock.rawMs);
  if (arrivalMs === null) {
    if (tied) return clock.lastMs;
    clock.used = 'none';
    return NaN;
  }
  if (tied && arrivalMs - clock.arrivalMs <= DISAGREEMENT_MS) return clock.lastMs;
  clock.broken = tied;
  clock.rawMs = NaN;
  clock.used = 'arrival';
  return (clock.lastMs = Math.max(clock.lastMs, arrivalMs));
}

/** How far the stamp moved. Turns of its counter are told by arrival; in a file a fall of more than half a turn is one. */
function moved(clock: AnchoredClock, rawMs: number, arrivalMs: number | null, periodMs: number): number {
  const movedMs = rawMs - clock.rawMs;
  if (periodMs === Infinity) return movedMs;
  if (arrivalMs === null) return movedMs < -periodMs / 2 ? movedMs + periodMs : movedMs;
  const turns = Math.round((arrivalMs - clock.arrivalMs - movedMs) / periodMs);
  return movedMs + Math.max(0, turns) * periodMs;
}

/** A break, unless it is the first tie, or the first behind lines of a file that had no stamps. */
function tie(clock: AnchoredClock, rawMs: number, atMs: number): number {
  clock.broken = clock.used !== 'unknown' && clock.used !== 'none';
  clock.used = 'source';
  return keep(clock, rawMs, Math.max(clock.lastMs, atMs), atMs);
}

function keep(clock: AnchoredClock, rawMs: number, stampedMs: number, arrivalMs: number): number {
  clock.rawMs = rawMs;
  clock.stampedMs = stampedMs;
  clock.arrivalMs = arrivalMs;
  return (clock.lastMs = Math.max(clock.lastMs, stampedMs));
}
