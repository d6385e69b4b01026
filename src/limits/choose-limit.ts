import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { CONFIRMED_FOR_DAYS, confirmationState } from './confirmation.ts';
import type { Limit, LimitSheet } from './limit-sheet.ts';
import { sheetCovers } from './serial-range.ts';

/** For whom and when a limit is looked up. Both may be left out while they are not known. */
export interface LimitUse {
  readonly serial?: string;
  /** The day of the run as yyyy-mm-dd. */
  readonly onDate?: string;
}

/** A limit with what must be said wherever a verdict stands on it. */
export interface ChosenLimit {
  readonly limit: Limit;
  readonly warnings: readonly Problem[];
}

/**
 * The limit of `check` in the sheet, with warnings: invented numbers, serial number outside the sheet's ranges, not yet valid on the
 * day, never confirmed, or not for 90 days. A sheet without that check gives the problem `limit.check-not-in-sheet`, which lists what it has.
 */
export function chooseLimit(sheet: LimitSheet, check: string, use: LimitUse = {}): Result<ChosenLimit> {
  const limit = sheet.limits.find((candidate) => candidate.check === check);
  if (!limit) {
    const has = sheet.limits.map((candidate) => candidate.check).join(', ');
    return failed(problem('limit.check-not-in-sheet', { check, sheet: sheet.title, has }));
  }
  return ok({ limit, warnings: sheetWarnings(sheet, use) });
}

/** What warns about the sheet as a whole; empty when nothing does. */
export function sheetWarnings(sheet: LimitSheet, { serial, onDate }: LimitUse = {}): readonly Problem[] {
  const found: Problem[] = [];
  const name = { sheet: sheet.title };
  if (sheet.invented) found.push(problem('limit.invented', name));
  found.push(...confirmationWarnings(sheet, onDate));
  if (serial !== undefined && serial.trim() !== '' && !sheetCovers(sheet, serial)) {
    found.push(problem('limit.serial-not-covered', { ...name, serial }));
  }
  if (onDate !== undefined && onDate < sheet.validFrom) {
    found.push(problem('limit.not-yet-valid', { ...name, validFrom: sheet.validFrom }));
  }
  return found;
}

/** Without a day it cannot be said how old a confirmation is; that nobody confirmed can be. */
function confirmationWarnings(sheet: LimitSheet, onDate: string | undefined): readonly Problem[] {
  const state = confirmationState(sheet, onDate ?? '');
  if (state.kind === 'never') return [problem('limit.not-confirmed', { sheet: sheet.title })];
  if (state.kind === 'invented' || !state.again) return [];
  const { on, days } = state;
  return [
    problem('limit.confirm-again', {
      sheet: sheet.title,
      confirmedOn: on,
      days,
      allowed: CONFIRMED_FOR_DAYS,
    }),
  ];
}
