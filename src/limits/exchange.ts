import { z } from 'zod';
import { problem, type Problem } from '../problems/problem.ts';
import { LimitSheetFormat2, type LimitSheet } from './limit-sheet.ts';
import { parseLimitSheet } from './parse-limit-sheet.ts';
import { sameSheet } from './revise-sheet.ts';
import { sheetDifferences, type SheetDifference } from './sheet-differences.ts';

export const EXCHANGE_FORMAT = 'meniscus-limits';
const EXCHANGE_VERSION = 1;

/** A collection of sheets as one file. */
export const ExchangeFile = z
  .strictObject({
    format: z.literal(EXCHANGE_FORMAT),
    formatVersion: z.literal(EXCHANGE_VERSION),
    sheets: z.array(LimitSheetFormat2).describe('Revisions of sheets; no two with the same id.'),
  })
  .meta({ id: 'LimitCollection', description: 'Several limit sheets as one file.' });

/** A sheet of a file that could not be read: which one, and why. */
export interface UnreadSheet {
  /** In words: "sheet 2 (Shop sheet)", or "the file" where nothing of it could be read. */
  readonly place: string;
  readonly problem: Problem;
}

/** What a file holds: the sheets that are sound, and the others by name. One never hides the other. */
export interface Exchange {
  readonly sheets: readonly LimitSheet[];
  readonly unread: readonly UnreadSheet[];
}

/**
 * Reads a file with one sheet (of any format) or a collection. Text that is no JSON, a file of something else and a collection of a later version
 * give no sheet and one problem; of two revisions with one id the later in the file is refused. Never throws.
 */
export function readExchange(text: string): Exchange {
  const json = parsedJson(text);
  if (!json.ok) return unreadable(json.problem);
  const { value } = json;
  if (!isCollection(value)) return collected([{ place: 'the file', value }]);
  const version = value['formatVersion'];
  if (typeof version === 'number' && version > EXCHANGE_VERSION)
    return unreadable(problem('limit.newer-format', { found: version, known: EXCHANGE_VERSION }));
  const sheets = value['sheets'];
  if (!Array.isArray(sheets) || version !== EXCHANGE_VERSION)
    return unreadable(
      problem('limit.not-a-sheet', {
        detail: `a collection has a formatVersion of ${EXCHANGE_VERSION} and a list of sheets`,
      }),
    );
  return collected(
    sheets.map((sheet: unknown, index) => ({
      place: `sheet ${index + 1}${titleOf(sheet)}`,
      value: sheet,
    })),
  );
}

/** The sheets as the text of one file: a collection, also of one. */
export const writeExchange = (sheets: readonly LimitSheet[]): string =>
  `${JSON.stringify({ format: EXCHANGE_FORMAT, formatVersion: EXCHANGE_VERSION, sheets }, null, 2)}\n`;

/**
 * What taking one sheet of a file would do. `new`: nothing like it is kept. `same`: it is kept already. `revision`: another revision of a sheet
 * that is kept, beside it. `conflict`: a revision of that id is kept with other content, and it stays; the sheet can be taken as a new revision.
 */
export interface PlannedSheet {
  readonly kind: 'new' | 'same' | 'revision' | 'conflict';
  readonly sheet: LimitSheet;
  /** What it is compared with: the kept revision of the same id, or the one it replaces, or the last of the same sheet. */
  readonly before: LimitSheet | null;
  readonly differences: readonly SheetDifference[];
}

/** For the preview of an import: each sheet of the file against what is kept. Nothing kept is ever overwritten. */
export function planImport(
  kept: readonly LimitSheet[],
  sheets: readonly LimitSheet[],
): readonly PlannedSheet[] {
  return sheets.map((sheet): PlannedSheet => {
    const held = kept.find(({ id }) => id === sheet.id);
    if (held) {
      const same = sameSheet(held, sheet);
      return planned(same ? 'same' : 'conflict', sheet, held);
    }
    const family = kept.filter(({ sheetId }) => sheetId === sheet.sheetId);
    const before =
      family.find(({ id }) => id === sheet.replaces) ??
      family.toSorted((a, b) => (a.validFrom < b.validFrom ? -1 : 1)).at(-1);
    return planned(before ? 'revision' : 'new', sheet, before ?? null);
  });
}

const planned = (kind: PlannedSheet['kind'], sheet: LimitSheet, before: LimitSheet | null): PlannedSheet => ({
  kind,
  sheet,
  before,
  differences: before === null ? [] : sheetDifferences(before, sheet),
});

function parsedJson(text: string): { ok: true; value: unknown } | { ok: false; problem: Problem } {
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, '')) };
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return { ok: false, problem: problem('limit.not-a-sheet', { detail }) };
  }
}

const isCollection = (json: unknown): json is Readonly<Record<string, unknown>> =>
  typeof json === 'object' && json !== null && ('format' in json || 'sheets' in json);

const unreadable = (found: Problem): Exchange => ({
  sheets: [],
  unread: [{ place: 'the file', problem: found }],
});

function collected(entries: readonly { readonly place: string; readonly value: unknown }[]): Exchange {
  const sheets: LimitSheet[] = [];
  const unread: UnreadSheet[] = [];
  for (const { place, value } of entries) {
    const read = parseLimitSheet(value);
    if (!read.ok) unread.push({ place, problem: read.problem });
    else if (sheets.some(({ id }) => id === read.value.id))
      unread.push({ place, problem: problem('limit.id-twice', { id: read.value.id }) });
    else sheets.push(read.value);
  }
  return { sheets, unread };
}

function titleOf(sheet: unknown): string {
  const named = typeof sheet === 'object' && sheet !== null && 'title' in sheet ? sheet.title : null;
  return typeof named === 'string' && named !== '' ? ` (${named.slice(0, 60)})` : '';
}
