import type { LimitSheet } from './limit-sheet.ts';
import { compareSerials, sheetCovers } from './serial-range.ts';

/** Which engine, which day (yyyy-mm-dd) and which check a limit sheet is looked up for. */
export interface SheetUse {
  /** As the engine says it or as it was typed; null or empty while it is not known. */
  readonly serial: string | null;
  readonly onDate: string;
  readonly check: string;
}

/**
 * `one`: this sheet holds. `several`: a person has to choose among these. `none`: no sheet here holds.
 * `why` is plain words for the screen in each case.
 */
export type SheetChoice =
  | { readonly kind: 'one'; readonly sheet: LimitSheet; readonly why: string }
  | { readonly kind: 'several'; readonly sheets: readonly LimitSheet[]; readonly why: string }
  | { readonly kind: 'none'; readonly why: string };

/**
 * The limit sheet that holds for an engine: one with the check, whose serial ranges hold the serial number, valid on the day; of one
 * engine family the one valid from the latest day. Sheets with invented numbers are never chosen for a real engine. Where two
 * families, or two sheets of one family and day, hold, or where a sheet names no serial numbers at all, the person is asked.
 */
export function chooseSheet(sheets: readonly LimitSheet[], { serial, onDate, check }: SheetUse): SheetChoice {
  const wanted = serial?.trim() ?? '';
  if (wanted === '')
    return none('The serial number of the engine is not known, so no limit sheet could be looked up.');
  const withCheck = sheets.filter(
    (sheet) => !sheet.invented && sheet.limits.some((limit) => limit.check === check),
  );
  if (withCheck.length === 0) return none('No limit sheet of a real engine with this check is kept here.');
  const covering = withCheck.filter((sheet) => sheetCovers(sheet, wanted));
  if (covering.length === 0) return none(`No limit sheet kept here holds for serial number ${wanted}.`);
  const valid = covering.filter(({ validFrom }) => validFrom <= onDate);
  if (valid.length === 0) return none(notYet(covering, wanted));
  // A sheet without bounds says nothing of this serial number: it is offered, never taken by itself.
  const bounded = valid.filter((sheet) => sheet.serialRanges.some((range) => holds(range, wanted)));
  return bounded.length === 0 ? several(newestOfEach(valid), wanted) : chosen(newestOfEach(bounded), wanted);
}

type Range = LimitSheet['serialRanges'][number];

const none = (why: string): SheetChoice => ({ kind: 'none', why });

function chosen(sheets: readonly LimitSheet[], serial: string): SheetChoice {
  const [sheet, ...others] = sheets;
  if (!sheet || others.length > 0) return several(sheets, serial);
  const range = sheet.serialRanges.find((each) => holds(each, serial));
  const span = range ? ` (${rangeText(range)})` : '';
  const why = `“${sheet.title}”, revision ${sheet.revision}, holds for serial number ${serial}${span} since ${sheet.validFrom}.`;
  return { kind: 'one', sheet, why };
}

function several(sheets: readonly LimitSheet[], serial: string): SheetChoice {
  const names = sheets.map((sheet) => `“${sheet.title}”, revision ${sheet.revision}`).join('; ');
  const why =
    sheets.length === 1
      ? `${names} names no serial numbers, so it may or may not hold for ${serial}. Compare it with the engine’s plate.`
      : `More than one limit sheet may hold for serial number ${serial}: ${names}. Choose the one for this engine.`;
  return { kind: 'several', sheets, why };
}

/** Of each engine family those valid from the latest day; more than one only where two share that day. */
function newestOfEach(sheets: readonly LimitSheet[]): readonly LimitSheet[] {
  return sheets.filter((sheet) =>
    sheets.every((other) => familyOf(other) !== familyOf(sheet) || other.validFrom <= sheet.validFrom),
  );
}

const familyOf = ({ engineFamily }: LimitSheet): string => engineFamily.trim().toLowerCase();

/** Whether a range with at least one end holds the serial number. */
function holds({ from, to }: Range, serial: string): boolean {
  if (from === null && to === null) return false;
  return sheetCovers({ serialRanges: [{ from, to }] }, serial);
}

function rangeText({ from, to }: Range): string {
  if (from === null) return `up to ${to}`;
  if (to === null) return `from ${from} on`;
  return compareSerials(from, to) === 0 ? `only ${from}` : `${from} to ${to}`;
}

function notYet(covering: readonly LimitSheet[], serial: string): string {
  const [first] = covering.toSorted((a, b) => (a.validFrom < b.validFrom ? -1 : 1));
  return `What is kept here for serial number ${serial} holds only from ${first?.validFrom} on: the revision before it is missing.`;
}
