import type { IconShape } from './shape-icon.ts';

/** Where a value stands to the range that is asked for; `none`: there is no value that could be believed. */
export type HeldState = 'in' | 'below' | 'above' | 'none';

/**
 * Something that has to hold while something else is measured, as it is to be shown: numbers are already in the person's unit.
 * `asked` is the range in words with its unit, e.g. "60 to 80 MPa".
 */
export interface HeldView {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  readonly asked: string;
  readonly state: HeldState;
  /** Share of the time so far in which it held, 0 to 1; null before there is any. */
  readonly share: number | null;
}

/** The word and the shape of each state. */
export const HELD_STATES: Readonly<Record<HeldState, { word: string; shape: IconShape }>> = {
  in: { word: 'holds', shape: 'pass' },
  below: { word: 'too low', shape: 'falling' },
  above: { word: 'too high', shape: 'rising' },
  none: { word: 'no value', shape: 'lost' },
};

/** Share of time in whole per cent; never rounded up to the whole of it, nor down to nothing. */
export function sharePercent(share: number): string {
  if (!(share > 0)) return '0\u00a0%';
  if (share >= 1) return '100\u00a0%';
  return `${Math.min(99, Math.max(1, Math.round(share * 100)))}\u00a0%`;
}

/** A value against a range with open ends allowed; null value: none. */
export function heldState(value: number | null, min: number | null, max: number | null): HeldState {
  if (value === null || !Number.isFinite(value)) return 'none';
  if (min !== null && value < min) return 'below';
  return max !== null && value > max ? 'above' : 'in';
}

/** A range in words: "60 to 80 MPa", "at least 60 MPa", "at most 80 MPa"; ends as they are to be shown, null for open. */
export function rangeWords(min: string | null, max: string | null, unit: string): string {
  if (min !== null && max !== null) return `${min} to ${max}\u00a0${unit}`;
  if (min !== null) return `at least ${min}\u00a0${unit}`;
  return max !== null ? `at most ${max}\u00a0${unit}` : 'any';
}
