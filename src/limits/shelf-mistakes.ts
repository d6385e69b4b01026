import { problem, type Problem } from '../problems/problem.ts';
import { familyOf } from './choose-sheet.ts';
import type { LimitSheet } from './limit-sheet.ts';
import { supersededBy } from './revisions.ts';
import { sharedSerial, serialGaps } from './serial-overlap.ts';
import { isBounded, rangeText } from './serial-range.ts';

/**
 * What is doubtful in one sheet, though it may be meant: no serial range at all, ranges that overlap. Gaps between its ranges are meant: a range is
 * given twice to leave something out.
 */
export function sheetDoubts(sheet: LimitSheet): readonly Problem[] {
  const { serialRanges, title } = sheet;
  if (serialRanges.length === 0) return [problem('limit.no-serials', { sheet: title })];
  return pairsOf(serialRanges).flatMap(([one, other]) => {
    const serial = sharedSerial(one, other);
    if (serial === null) return [];
    const context = { sheet: title, one: rangeText(one), other: rangeText(other), serial: named(serial) };
    return [problem('limit.ranges-overlap', context)];
  });
}

/**
 * What is wrong or doubtful between the sheets of a shelf, and in each of them (`sheetDoubts`): two sheets of one family with limits for the same
 * check that hold for the same serial number, and serial numbers between those of a family for which no sheet holds. Sheets for practice and
 * revisions that others have replaced are left out. What is the same for several checks is one problem that names them. Each sheet is taken as sound
 * in itself (`sheetMistakes`).
 */
export function shelfMistakes(sheets: readonly LimitSheet[]): readonly Problem[] {
  const present = sheets.filter((sheet) => !sheet.invented && supersededBy(sheet, sheets) === null);
  const families = [...new Set(present.map(familyOf))];
  return [
    ...present.flatMap(sheetDoubts),
    ...families.flatMap((family) => familyMistakes(present.filter((sheet) => familyOf(sheet) === family))),
  ];
}

/** What is the same for several checks is said once, with the names of them all. */
function familyMistakes(sheets: readonly LimitSheet[]): readonly Problem[] {
  const limits = sheets.flatMap((sheet) => sheet.limits);
  const found = [...new Set(limits.map(({ check }) => check))].flatMap((check) => {
    const title = limits.find((limit) => limit.check === check)?.title ?? check;
    const able = sheets.filter((sheet) => sheet.limits.some((limit) => limit.check === check));
    return [...overlaps(able), ...gaps(able)].map((each) => ({ ...each, title }));
  });
  const sameAs = (one: (typeof found)[number]) => (other: (typeof found)[number]) =>
    one.code === other.code && JSON.stringify(one.context) === JSON.stringify(other.context);
  return found
    .filter((each, index) => found.findIndex(sameAs(each)) === index)
    .map((each) => {
      const titles = found.filter(sameAs(each)).map(({ title }) => title);
      return problem(each.code, { ...each.context, check: listed(titles) });
    });
}

function overlaps(sheets: readonly LimitSheet[]): readonly Problem[] {
  return pairsOf(sheets).flatMap(([one, other]) => {
    const serial = sharedBySheets(one, other);
    if (serial === null) return [];
    const context = {
      one: nameOf(one),
      other: nameOf(other),
      family: one.engineFamily,
      serial: named(serial),
    };
    return [problem('limit.sheets-overlap', context)];
  });
}

/** A sheet that names no serial numbers overlaps with all; it is offered to the person anyway and no mistake. */
function sharedBySheets(one: LimitSheet, other: LimitSheet): string | null {
  for (const left of one.serialRanges.filter(isBounded)) {
    for (const right of other.serialRanges.filter(isBounded)) {
      const serial = sharedSerial(left, right);
      if (serial !== null) return serial;
    }
  }
  return null;
}

function gaps(sheets: readonly LimitSheet[]): readonly Problem[] {
  if (sheets.some(({ serialRanges }) => serialRanges.some((range) => !isBounded(range)))) return [];
  const family = sheets[0]?.engineFamily ?? '';
  return serialGaps(sheets.flatMap(({ serialRanges }) => serialRanges)).map(({ after, before }) =>
    problem('limit.serial-gap', { family, after, before }),
  );
}

/** Names in a sentence: "A", "A and B", "A, B and C"; of more than three "A, B and 12 more": nobody reads a wall of names. */
function listed(names: readonly string[]): string {
  if (names.length > 3) return `${names.slice(0, 2).join(', ')} and ${names.length - 2} more`;
  return [...(names.length > 1 ? [names.slice(0, -1).join(', ')] : []), ...names.slice(-1)].join(' and ');
}

const nameOf = ({ title, revision }: LimitSheet): string => `${title}, revision ${revision}`;

/** Two ranges that are both open and without prefix share even the empty number. */
const named = (serial: string): string => (serial === '' ? 'any' : serial);

const pairsOf = <T>(items: readonly T[]): readonly (readonly [T, T])[] =>
  items.flatMap((one, index) => items.slice(index + 1).map((other) => [one, other] as const));
