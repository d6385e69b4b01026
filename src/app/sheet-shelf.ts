import { DEMONSTRATION_SHEET } from '../limits/demonstration-sheet.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import { parseLimitSheet } from '../limits/parse-limit-sheet.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database } from '../storage/database.ts';

/** The limit sheets of this browser: the demonstration sheet, and what the person brought. */
export interface SheetShelf {
  /** The demonstration sheet first, then the others by title; what cannot be read is named beside them. */
  list(): Promise<{ readonly sheets: readonly LimitSheet[]; readonly problems: readonly Problem[] }>;
  /** Keeps a sheet read from text; refuses the id of the demonstration sheet. A sheet of the same id is replaced: runs hold a copy of the sheet they were graded on. */
  bring(text: string): Promise<Result<LimitSheet>>;
  remove(id: string): Promise<Result<void>>;
}

export function sheetShelf(database: Database): SheetShelf {
  return {
    list: async () => {
      const stored = await database.read(['sheets'], async (reader) => ok(await reader.list('sheets')));
      if (!stored.ok) return { sheets: [DEMONSTRATION_SHEET], problems: [stored.problem] };
      const read = stored.value.map(parseLimitSheet).map(ownIdOnly);
      const own = read.flatMap((sheet) => (sheet.ok ? [sheet.value] : []));
      return {
        sheets: [DEMONSTRATION_SHEET, ...own.toSorted((a, b) => a.title.localeCompare(b.title))],
        problems: read.flatMap((sheet) => (sheet.ok ? [] : [sheet.problem])),
      };
    },
    bring: async (text) => {
      const sheet = ownIdOnly(readSheetText(text));
      if (!sheet.ok) return sheet;
      const kept = await database.write(['sheets'], async (writer) => {
        await writer.put('sheets', sheet.value);
        return ok(undefined);
      });
      return kept.ok ? sheet : kept;
    },
    remove: (id) =>
      database.write(['sheets'], async (writer) => {
        await writer.remove('sheets', id);
        return ok(undefined);
      }),
  };
}

/**
 * Refuses a sheet that calls itself the demonstration sheet, as an edited copy of it does: a run would be graded on the invented
 * numbers while its person believes that it was their own.
 */
function ownIdOnly(sheet: Result<LimitSheet>): Result<LimitSheet> {
  if (!sheet.ok || sheet.value.id !== DEMONSTRATION_SHEET.id) return sheet;
  const detail = `"${sheet.value.id}" belongs to the demonstration sheet; this one needs an id of its own`;
  return failed(problem('limit.bad-entry', { place: 'id', detail }));
}

/** A sheet from the text of a file; text that is no JSON gives the same kind of problem as a wrong field. */
export function readSheetText(text: string): Result<LimitSheet> {
  try {
    return parseLimitSheet(JSON.parse(text));
  } catch (error) {
    return failed({
      code: 'limit.not-a-sheet',
      context: { detail: error instanceof Error ? error.message : String(error) },
    });
  }
}
