import type { LimitSheet } from './limit-sheet.ts';

/**
 * Of each sheet the revision that holds on the day (yyyy-mm-dd). A revision goes out of force when one that replaces it is valid, or one valid from
 * a later day. More than one of a sheet is left only where two are valid from the same day and neither replaces the other.
 */
export function revisionsInForce(sheets: readonly LimitSheet[], onDate: string): readonly LimitSheet[] {
  const valid = sheets.filter(({ validFrom }) => validFrom <= onDate);
  return valid.filter((sheet) => supersededBy(sheet, valid) === null);
}

/** The revision of the same sheet, among those given, that puts this one out of force; null when none does. */
export function supersededBy(sheet: LimitSheet, among: readonly LimitSheet[]): LimitSheet | null {
  const others = among.filter((other) => other.sheetId === sheet.sheetId && other.id !== sheet.id);
  const replacing = others.filter((other) => other.replaces === sheet.id && sheet.replaces !== other.id);
  // What this one replaces cannot put it out of force, whatever its date.
  const later = others.filter((other) => other.id !== sheet.replaces && other.validFrom > sheet.validFrom);
  return newest([...replacing, ...later]);
}

const newest = (sheets: readonly LimitSheet[]): LimitSheet | null =>
  sheets.reduce<LimitSheet | null>(
    (found, sheet) => (found === null || sheet.validFrom > found.validFrom ? sheet : found),
    null,
  );

/** The revisions of one sheet, first to last: by what replaces what, then by day. */
export function historyOf(sheets: readonly LimitSheet[], sheetId: string): readonly LimitSheet[] {
  const own = sheets.filter((sheet) => sheet.sheetId === sheetId);
  const depth = (sheet: LimitSheet, seen: readonly string[] = []): number => {
    const before = own.find(({ id }) => id === sheet.replaces && !seen.includes(id));
    return before ? 1 + depth(before, [...seen, sheet.id]) : 0;
  };
  return own.toSorted(
    (a, b) => depth(a) - depth(b) || compareText(a.validFrom, b.validFrom) || compareText(a.id, b.id),
  );
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
