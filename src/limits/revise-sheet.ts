import type { LimitSheet } from './limit-sheet.ts';

/** What a revision may change: everything but what it is. */
export type SheetChange = Partial<Omit<LimitSheet, 'formatVersion' | 'id' | 'sheetId' | 'replaces'>>;

/**
 * The next revision of a sheet: an id of its own, the same sheet id, and the name of the revision that it replaces. The revision is counted on
 * unless `change` names one. A confirmation was one of the old numbers: it is dropped unless `change` brings a new one, or touches nothing that
 * was confirmed. A change that changes nothing gives the same sheet.
 * @param kept the revisions there are, so that the new one takes no id or revision of theirs.
 */
export function reviseSheet(
  sheet: LimitSheet,
  change: SheetChange,
  kept: readonly LimitSheet[] = [],
): LimitSheet {
  const changed = { ...sheet, ...change };
  if (sameSheet(changed, sheet)) return sheet;
  const own = [sheet, ...kept.filter(({ sheetId }) => sheetId === sheet.sheetId)];
  const revision =
    change.revision ??
    nextRevision(
      sheet.revision,
      own.map((each) => each.revision),
    );
  const id = freeId(
    `${sheet.sheetId}@${revision}`,
    [sheet, ...kept].map((each) => each.id),
  );
  const confirmation =
    change.confirmedOn === undefined && !keepsNumbers(sheet, changed)
      ? { confirmedBy: '', confirmedOn: null }
      : {};
  return { ...changed, ...confirmation, id, revision, replaces: sheet.id };
}

/** Whether two sheets say the same in every field. */
export const sameSheet = (a: LimitSheet, b: LimitSheet): boolean => canonicalText(a) === canonicalText(b);

/** What a person confirms: the numbers, and for which engines they hold. */
const keepsNumbers = (a: LimitSheet, b: LimitSheet): boolean =>
  canonicalText([a.limits, a.serialRanges, a.engineFamily, a.validFrom]) ===
  canonicalText([b.limits, b.serialRanges, b.engineFamily, b.validFrom]);

/** JSON with the names in order and without what is absent: the same text for the same content. */
function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).toSorted(([a], [b]) => (a < b ? -1 : 1)));
  });
}

/** The number at the end counted on: "3" to "4", "B2" to "B3"; one without gets ".2". */
function nextRevision(revision: string, taken: readonly string[]): string {
  const found = /^(.*?)(\d{1,9})$/.exec(revision);
  const stem = found ? (found[1] ?? '') : `${revision}.`;
  let count = found ? Number(found[2]) + 1 : 2;
  while (taken.includes(`${stem}${count}`)) count += 1;
  return `${stem}${count}`;
}

function freeId(wanted: string, taken: readonly string[]): string {
  let id = wanted;
  for (let count = 2; taken.includes(id); count += 1) id = `${wanted}-${count}`;
  return id;
}
