import type { SignalId } from '../quantities/reading.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import {
  SPEED_SPIKE,
  cleanRows,
  valueAt,
  rowAt,
  type CleanRows,
  type SpikeRule,
} from '../signals/clean-rows.ts';
import type { ChosenSignals } from './chosen-signal.ts';
import type { Stretch } from './value-measurement.ts';

/** How well a signal stayed within its bounds over some stretches of time. */
export interface Held {
  /** Part of the time outside, 0 to 1; null where nothing is known over the stretches. */
  readonly shareOutside: number | null;
  /** The value furthest outside; null where it was never outside. */
  readonly worst: number | null;
  /** Time over which the signal is known, ms. */
  readonly knownMs: number;
}

/** What must hold; null is an open side. */
export interface Bounds {
  readonly signal: SignalId;
  readonly min: number | null;
  readonly max: number | null;
}

/** No pressure, voltage or temperature moves by more than half of itself for a single row. */
export const SINGLE_SPIKE: SpikeRule = { floor: 0, share: 0.5 };

/**
 * Holds a signal against its bounds over the stretches: the part of the time outside (each interval between two rows counts by its middle value;
 * single spikes and holes do not count) and the worst value.
 */
export function heldOver(signals: ChosenSignals, bounds: Bounds, stretches: readonly Stretch[]): Held {
  const rule = bounds.signal === 'engineSpeed' ? SPEED_SPIKE : SINGLE_SPIKE;
  const rows = cleanRows(signals[bounds.signal]?.trace ?? null, rule);
  const total = { knownMs: 0, outsideMs: 0, worst: 0, worstValue: null as number | null };
  for (const stretch of stretches) addStretch(total, rows, bounds, stretch);
  return {
    shareOutside: total.knownMs > 0 ? total.outsideMs / total.knownMs : null,
    worst: total.worstValue,
    knownMs: total.knownMs,
  };
}

interface Total {
  knownMs: number;
  outsideMs: number;
  worst: number;
  worstValue: number | null;
}

function addStretch(total: Total, rows: CleanRows, bounds: Bounds, { startMs, endMs }: Stretch): void {
  for (let row = Math.max(0, rowAt(rows, startMs)); row + 1 < rows.count; row++) {
    const from = Math.max(startMs, rows.atMs[row]!);
    const to = Math.min(endMs, rows.atMs[row + 1]!);
    if (rows.atMs[row]! >= endMs) return;
    if (to <= from || rows.atMs[row + 1]! - rows.atMs[row]! > rows.holeMs) continue;
    const middle = valueAt(rows, (from + to) / 2);
    const off = outsideBy(middle, bounds);
    total.knownMs += to - from;
    if (off > 0) total.outsideMs += to - from;
    if (off > total.worst) Object.assign(total, { worst: off, worstValue: middle });
  }
}

/** How far a value is outside its bounds; 0 within them, both ends included. */
export const outsideBy = (value: number, { min, max }: Pick<Bounds, 'min' | 'max'>): number =>
  Math.max(0, (min ?? -Infinity) - value, value - (max ?? Infinity));

/** Bounds in words: "at least 80000 kPa". */
export function boundsText({ signal, min, max }: Bounds, unit: string): string {
  const label = SIGNALS[signal].label.toLowerCase();
  if (min === null && max === null) return `any ${label}`;
  if (min === null) return `at most ${max} ${unit}`;
  return max === null ? `at least ${min} ${unit}` : `${min} to ${max} ${unit}`;
}
