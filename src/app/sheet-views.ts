import { familyOf, weighSheets, chooseSheet } from '../limits/choose-sheet.ts';
import { sheetWarnings } from '../limits/choose-limit.ts';
import { confirmationState } from '../limits/confirmation.ts';
import { DEMONSTRATION_SHEET } from '../limits/demonstration-sheet.ts';
import type { Exchange, PlannedSheet } from '../limits/exchange.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import { isBounded } from '../limits/serial-range.ts';
import { supersededBy } from '../limits/revisions.ts';
import { describeProblem } from '../problems/problem.ts';
import { coverageWords } from '../ui/sheet-draft.ts';
import type { ImportSheetView } from '../ui/sheet-import-preview.ts';
import type { SheetFamilyView, SheetRevisionView } from '../ui/sheet-list.ts';
import type { SerialAnswer, SerialAsked } from '../ui/sheet-serial-check.ts';
import type { ConfirmationView } from '../ui/sheet-words.ts';
import type { ShelfListing } from './sheet-shelf.ts';

/** The shelf by engine family, newest revision first, as it stands on a day (yyyy-mm-dd). */
export function familyViews({ sheets, withdrawn }: ShelfListing, onDate: string): readonly SheetFamilyView[] {
  const gone = new Set(withdrawn.map(({ id }) => id));
  const all = [...sheets, ...withdrawn];
  const families = [...new Set(all.map(familyOf))];
  return families.map((family) => {
    const own = all.filter((sheet) => familyOf(sheet) === family);
    const inForce = own.filter(
      (sheet) => !gone.has(sheet.id) && forceOf(sheet, sheets, onDate).force === 'in force',
    );
    return {
      family: own[0]!.engineFamily,
      revisions: own
        .toSorted((a, b) => b.validFrom.localeCompare(a.validFrom) || b.revision.localeCompare(a.revision))
        .map((sheet) => revisionView(sheet, { sheets, onDate, withdrawn: gone.has(sheet.id) })),
      // Made-up numbers hold for no engine, and a range without bounds names none.
      ranges: inForce.flatMap((sheet) =>
        (sheet.invented ? [] : sheet.serialRanges.filter(isBounded)).map(({ prefix, from, to }) => ({
          prefix: prefix ?? '',
          from,
          to,
          sheet: `${sheet.title}, revision ${sheet.revision}`,
        })),
      ),
    };
  });
}

interface Standing {
  readonly sheets: readonly LimitSheet[];
  readonly onDate: string;
  readonly withdrawn: boolean;
}

function revisionView(sheet: LimitSheet, { sheets, onDate, withdrawn }: Standing): SheetRevisionView {
  const standing = withdrawn
    ? { force: 'withdrawn' as const, why: 'Taken out of choice; runs that were graded on it keep it.' }
    : forceOf(sheet, sheets, onDate);
  return {
    id: sheet.id,
    title: sheet.title,
    revision: sheet.revision,
    validFrom: sheet.validFrom,
    ...standing,
    confirmation: confirmationView(sheet, onDate),
    covers: coverageWords(
      sheet.serialRanges.map(({ prefix, from, to }) => ({
        prefix: prefix ?? '',
        from: from ?? '',
        to: to ?? '',
      })),
    ),
    limits: sheet.limits.map(({ title }) => title),
    fixed: sheet.id === DEMONSTRATION_SHEET.id,
  };
}

function forceOf(
  sheet: LimitSheet,
  sheets: readonly LimitSheet[],
  onDate: string,
): Pick<SheetRevisionView, 'force' | 'why'> {
  if (sheet.validFrom > onDate)
    return { force: 'not yet valid', why: `It holds from ${sheet.validFrom} on.` };
  const valid = sheets.filter(({ validFrom }) => validFrom <= onDate);
  const later = supersededBy(sheet, valid);
  if (later) return { force: 'replaced', why: `Revision ${later.revision} holds since ${later.validFrom}.` };
  return { force: 'in force', why: `The newest revision that is valid today, since ${sheet.validFrom}.` };
}

/** Whether the numbers were compared with current service information, for the screen. */
export function confirmationView(sheet: LimitSheet, onDate: string): ConfirmationView {
  const state = confirmationState(sheet, onDate);
  if (state.kind !== 'confirmed') return { state: state.kind, days: null, by: sheet.confirmedBy };
  return { state: state.again ? 'due' : 'confirmed', days: state.days, by: sheet.confirmedBy };
}

/**
 * Which sheet holds for a serial number on a day, with those that were passed over and why: one answer for all checks for which it is the same.
 * Checks are those that a sheet of a real engine has limits for. None while nothing is asked.
 */
export function serialAnswers(
  sheets: readonly LimitSheet[],
  { serial, onDate }: SerialAsked,
): readonly SerialAnswer[] {
  if (serial.trim() === '' || onDate === '') return [];
  const limits = sheets.flatMap((sheet) => (sheet.invented ? [] : sheet.limits));
  const checks = [...new Set(limits.map(({ check }) => check))];
  const titled = checks.map((check) => limits.find((limit) => limit.check === check)?.title ?? check);
  const single = checks.map((check, at) =>
    serialAnswer(sheets, { serial, onDate }, { check, title: titled[at]! }),
  );
  if (single.length === 0) return [serialAnswer(sheets, { serial, onDate }, { check: '', title: '' })];
  const said = ({ kind, why }: SerialAnswer) => `${kind} ${why}`;
  return [...new Set(single.map(said))].map((words) =>
    mergedAnswers(single.filter((each) => said(each) === words)),
  );
}

/** One answer for the checks of several that say the same. A sheet is passed over by the reason of a check that it has. */
function mergedAnswers(answers: readonly SerialAnswer[]): SerialAnswer {
  const passed = answers.flatMap(({ passedOver }) => passedOver);
  const reasons = passed.filter(
    ({ id, otherCheck }) => !otherCheck || passed.every((each) => each.id !== id || each.otherCheck),
  );
  return {
    ...answers[0]!,
    checks: answers.flatMap(({ checks }) => checks),
    passedOver: reasons.filter(({ id }, at) => reasons.findIndex((each) => each.id === id) === at),
  };
}

function serialAnswer(
  sheets: readonly LimitSheet[],
  { serial, onDate }: SerialAsked,
  { check, title }: { readonly check: string; readonly title: string },
): SerialAnswer {
  const use = { serial, onDate, check };
  const choice = chooseSheet(sheets, use);
  const chosen = choice.kind === 'one' ? [choice.sheet] : choice.kind === 'several' ? choice.sheets : [];
  const ids = new Set(chosen.map(({ id }) => id));
  return {
    kind: choice.kind,
    why: choice.why,
    checks: title === '' ? [] : [title],
    sheets: chosen.map((sheet) => ({
      id: sheet.id,
      title: sheet.title,
      revision: sheet.revision,
      validFrom: sheet.validFrom,
      confirmation: confirmationView(sheet, onDate),
    })),
    passedOver: weighSheets(sheets, use)
      .filter(({ sheet }) => !ids.has(sheet.id))
      .map(({ sheet, standing, why }) => ({
        id: sheet.id,
        title: sheet.title,
        revision: sheet.revision,
        why,
        otherCheck: standing === 'other check',
      })),
    warnings: chosen.flatMap((sheet) => sheetWarnings(sheet, { serial, onDate })).map(describeProblem),
  };
}

const KINDS = { new: 'new', same: 'same', revision: 'changed', conflict: 'refused' } as const;

/** An import as the preview shows it: what each sheet of the file would change. What conflicts, or cannot be read, cannot be taken. */
export function importViews(
  planned: readonly PlannedSheet[],
  { unread }: Exchange,
): readonly ImportSheetView[] {
  const read = planned.map(({ kind, sheet, differences }): ImportSheetView => ({
    id: sheet.id,
    title: sheet.title,
    engineFamily: sheet.engineFamily,
    revision: sheet.revision,
    kind: KINDS[kind],
    changes: differences.map(({ place, before, after }) => ({
      place: titledPlace(place, sheet),
      before,
      after,
    })),
    problems: kind === 'conflict' ? [CONFLICT] : [],
  }));
  const refused = unread.map(({ place, problem }, index): ImportSheetView => ({
    id: `unread ${index}`,
    title: place,
    engineFamily: '',
    revision: '',
    kind: 'refused',
    changes: [],
    problems: [describeProblem(problem)],
  }));
  return [...read, ...refused];
}

/** "crank-delivery, fail below at 140 rpm" with the check by its title. */
function titledPlace(place: string, { limits }: LimitSheet): string {
  const of = limits.find(({ check }) => place.startsWith(`${check}, `));
  return of ? `${of.title}${place.slice(of.check.length)}` : place;
}

const CONFLICT = {
  message: 'A revision of this id is kept here with other content, and it stays.',
  remedy: 'Have it exported as a new revision, or type the change here.',
};
