import type { LimitSheet } from './limit-sheet.ts';
import { supersededBy } from './revisions.ts';
import { isBounded, rangeHolds, rangeText, sheetCovers } from './serial-range.ts';

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

/** What keeps a sheet from being the one, in the order in which it is asked; `holds` when nothing does. */
export type Standing =
  | 'invented'
  | 'other check'
  | 'not yet valid'
  | 'replaced'
  | 'other serials'
  | 'older in family'
  | 'names no serials'
  | 'holds';

/** One sheet of the shelf with how it stands to an engine, in plain words. */
export interface WeighedSheet {
  readonly sheet: LimitSheet;
  readonly standing: Standing;
  readonly why: string;
}

/**
 * The limit sheet that holds for an engine: one with the check, in its revision of that day, whose serial ranges hold the serial number; of
 * one engine family the one valid from the latest day. A revision that was replaced never comes back, also where the new one left the serial
 * number out. Sheets with invented numbers are never chosen for a real engine. Where two families, or two sheets of one family and day,
 * hold, or where a sheet names no serial numbers at all, the person is asked.
 */
export function chooseSheet(sheets: readonly LimitSheet[], use: SheetUse): SheetChoice {
  const serial = use.serial?.trim() ?? '';
  if (serial === '')
    return none('The serial number of the engine is not known, so no limit sheet could be looked up.');
  const weighed = weighSheets(sheets, use);
  const standing = (wanted: Standing) =>
    weighed.filter((each) => each.standing === wanted).map(({ sheet }) => sheet);
  const holding = standing('holds');
  if (holding.length > 0) return chosen(holding, serial);
  // A sheet without bounds says nothing of this serial number: it is offered, never taken by itself.
  const open = standing('names no serials');
  return open.length > 0 ? several(open, serial) : none(whyNone(weighed, serial, use.onDate));
}

/** How each sheet of the shelf stands to an engine, in the order given: the reasons behind `chooseSheet`. */
export function weighSheets(
  sheets: readonly LimitSheet[],
  { serial, onDate, check }: SheetUse,
): readonly WeighedSheet[] {
  const wanted = serial?.trim() ?? '';
  const real = sheets.filter(({ invented }) => !invented);
  const valid = real.filter(({ validFrom }) => validFrom <= onDate);
  const able = valid.filter(
    (sheet) => has(sheet, check) && supersededBy(sheet, valid) === null && sheetCovers(sheet, wanted),
  );
  const naming = able.filter((sheet) => namedIn(sheet, wanted) !== undefined);
  return sheets.map((sheet) => {
    const say = (standing: Standing, why: string): WeighedSheet => ({ sheet, standing, why });
    if (sheet.invented) return say('invented', 'Its numbers were made up for practice.');
    if (!has(sheet, check)) return say('other check', `It has no limit for the check ${check}.`);
    if (sheet.validFrom > onDate) return say('not yet valid', `It holds only from ${sheet.validFrom} on.`);
    const later = supersededBy(sheet, valid);
    if (later) return say('replaced', `Revision ${later.revision} of ${later.validFrom} replaces it.`);
    if (!able.includes(sheet))
      return say('other serials', `It holds for ${spanText(sheet)}, not for serial number ${wanted}.`);
    const group = naming.includes(sheet) ? naming : able;
    const newer = group.find((other) => isNewerInFamily(other, sheet));
    if (newer)
      return say('older in family', `“${newer.title}” of the same family holds since ${newer.validFrom}.`);
    const range = namedIn(sheet, wanted);
    if (!range) return say('names no serials', `It names no serial numbers; it may or may not hold.`);
    return say('holds', `It holds for ${rangeText(range)} since ${sheet.validFrom}.`);
  });
}

const none = (why: string): SheetChoice => ({ kind: 'none', why });

const has = ({ limits }: LimitSheet, check: string): boolean => limits.some((limit) => limit.check === check);

/** The range that names the serial number; undefined where the sheet holds for all or does not hold. */
const namedIn = ({ serialRanges }: LimitSheet, serial: string) =>
  serialRanges.find((range) => isBounded(range) && rangeHolds(range, serial));

const spanText = ({ serialRanges }: LimitSheet): string =>
  serialRanges.length === 0 ? 'no serial number' : serialRanges.map(rangeText).join('; ');

const isNewerInFamily = (other: LimitSheet, sheet: LimitSheet): boolean =>
  familyOf(other) === familyOf(sheet) && other.validFrom > sheet.validFrom;

/** The family by its name, whatever its case or spaces at the ends. */
export const familyOf = ({ engineFamily }: Pick<LimitSheet, 'engineFamily'>): string =>
  engineFamily.trim().toLowerCase();

function chosen(sheets: readonly LimitSheet[], serial: string): SheetChoice {
  const [sheet, ...others] = sheets;
  if (!sheet || others.length > 0) return several(sheets, serial);
  const range = namedIn(sheet, serial);
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

/** Why none holds: the reason that came nearest to holding. */
function whyNone(weighed: readonly WeighedSheet[], serial: string, onDate: string): string {
  const withCheck = weighed.filter(({ standing }) => standing !== 'invented' && standing !== 'other check');
  if (withCheck.length === 0) return 'No limit sheet of a real engine with this check is kept here.';
  const covering = withCheck.map(({ sheet }) => sheet).filter((sheet) => sheetCovers(sheet, serial));
  const [future] = covering
    .filter(({ validFrom }) => validFrom > onDate)
    .toSorted((a, b) => (a.validFrom < b.validFrom ? -1 : 1));
  const dropped = weighed.find(({ sheet, standing }) => standing === 'replaced' && covering.includes(sheet));
  if (dropped)
    return (
      `Revision ${dropped.sheet.revision} of “${dropped.sheet.title}” held for serial number ${serial}, ` +
      `but the revision that replaced it leaves that number out.`
    );
  if (future)
    return `What is kept here for serial number ${serial} holds only from ${future.validFrom} on: the revision before it is missing.`;
  return `No limit sheet kept here holds for serial number ${serial}.`;
}
