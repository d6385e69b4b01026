import { sheetInForce, type RunValues } from '../jobs/run-entries.ts';
import type { StoredRun } from '../jobs/run.ts';
import { chooseSheet } from '../limits/choose-sheet.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import { sheetCovers } from '../limits/serial-range.ts';

export interface SheetQuestion {
  readonly serial: string | null;
  readonly run: StoredRun;
  readonly values: RunValues;
}

/** `take`: the sheet to be taken now, with the reason. `advice`: what to say of it on the screen; null where there is nothing to say. */
export interface SheetAnswer {
  readonly take: { readonly sheet: LimitSheet; readonly reason: string } | null;
  readonly advice: string | null;
}

/**
 * Which sheet a run should be judged on once the engine's serial number is known. A sheet of a real engine that covers it stays; else the one
 * that holds is taken; where none or several hold, it is said and nothing is changed.
 */
export function sheetFor(sheets: readonly LimitSheet[], { serial, run, values }: SheetQuestion): SheetAnswer {
  if (serial === null) return { take: null, advice: null };
  const now = sheetInForce(run.sheet, values);
  if (now && !now.invented && sheetCovers(now, serial)) return { take: null, advice: null };
  const choice = chooseSheet(sheets, { serial, onDate: run.createdAt.slice(0, 10), check: run.check });
  if (choice.kind !== 'one') return { take: null, advice: choice.why };
  const same = choice.sheet.id === now?.id && choice.sheet.revision === now.revision;
  return { take: same ? null : { sheet: choice.sheet, reason: choice.why }, advice: choice.why };
}
