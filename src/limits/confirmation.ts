import type { LimitSheet } from './limit-sheet.ts';

/** After so many days a sheet has to be compared with current service information again (the project's rule; no source). */
export const CONFIRMED_FOR_DAYS = 90;

/**
 * `invented`: numbers for practice, nothing to confirm. `never`: nobody compared them with their source. `confirmed`: somebody did, `days` before
 * the day asked for (0 where it was done on that day or later); `again` when that is too long ago.
 */
export type ConfirmationState =
  | { readonly kind: 'invented' }
  | { readonly kind: 'never' }
  | { readonly kind: 'confirmed'; readonly on: string; readonly days: number; readonly again: boolean };

/** How fresh the confirmation of a sheet is on a day (yyyy-mm-dd). On the 90th day it still holds, on the 91st not. */
export function confirmationState(
  { invented, confirmedOn }: Pick<LimitSheet, 'invented' | 'confirmedOn'>,
  onDate: string,
): ConfirmationState {
  if (invented) return { kind: 'invented' };
  if (confirmedOn === null) return { kind: 'never' };
  const days = Math.max(0, daysBetween(confirmedOn, onDate));
  return { kind: 'confirmed', on: confirmedOn, days, again: days > CONFIRMED_FOR_DAYS };
}

const DAY_MS = 86_400_000;

/** Whole days from one day of the calendar to another; both at midnight UTC, so no change of clocks comes in. NaN counts as 0. */
const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS) || 0;
