import { readExchange } from '../limits/exchange.ts';
import { DEMONSTRATION_SHEET } from '../limits/demonstration-sheet.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import { parseLimitSheet } from '../limits/parse-limit-sheet.ts';
import { sameSheet } from '../limits/revise-sheet.ts';
import { shelfMistakes } from '../limits/shelf-mistakes.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Database, StoreReader } from '../storage/database.ts';

/** What lies on the shelf. */
export interface ShelfListing {
  /** For choice: the demonstration sheet first, then the others by title; all revisions that were not withdrawn. */
  readonly sheets: readonly LimitSheet[];
  /** Taken away by the person, but kept because runs were graded on them. Not for choice. */
  readonly withdrawn: readonly LimitSheet[];
  /** What cannot be read, each by its problem. */
  readonly problems: readonly Problem[];
  /** Overlaps and gaps between the sheets for choice (`shelfMistakes`). */
  readonly mistakes: readonly Problem[];
  /** Ids of the revisions that runs were graded on: they cannot be changed, only revised. */
  readonly usedIds: ReadonlySet<string>;
}

/** The limit sheets of this browser: the demonstration sheet, and what the person brought. */
export interface SheetShelf {
  list(): Promise<ShelfListing>;
  /**
   * Keeps what a file holds, one sheet or a collection, and gives the first of it; all of it or, with the first problem, nothing. A revision that is
   * kept already with other content is refused (`limit.revision-kept`), never overwritten.
   */
  bring(text: string): Promise<Result<LimitSheet>>;
  /** Keeps sheets that were looked through (an import's preview, a new revision): the same rules as `bring`. */
  add(sheets: readonly LimitSheet[]): Promise<Result<void>>;
  /** Keeps a sheet that is still being edited in place of its older state; refused once a run used it (`limit.revision-used`). */
  save(sheet: LimitSheet): Promise<Result<void>>;
  /** Takes a revision away. One that a run used is kept, out of choice: withdrawn. */
  remove(id: string): Promise<Result<void>>;
  /** Brings a withdrawn revision back into choice. */
  restore(id: string): Promise<Result<void>>;
}

/** A sheet as it is stored: itself, with a mark where it was withdrawn. */
type StoredSheet = LimitSheet & { readonly withdrawn?: true };

export function sheetShelf(database: Database): SheetShelf {
  const change = (work: (tx: Writer) => Promise<Result<void>>) => database.write(['sheets', 'runs'], work);
  return {
    list: async () => {
      const stored = await database.read(['sheets', 'runs'], async (reader) =>
        ok({ documents: await reader.list('sheets'), usedIds: await usedIds(reader) }),
      );
      return stored.ok
        ? listingOf(stored.value.documents, stored.value.usedIds)
        : emptyListing(stored.problem);
    },
    bring: async (text) => {
      const { sheets, unread } = readExchange(text);
      const [first] = sheets;
      if (unread[0]) return failed(unread[0].problem);
      if (!first) return failed(problem('limit.not-a-sheet', { detail: 'the collection is empty' }));
      const added = await change((tx) => addAll(tx, sheets));
      return added.ok ? ok(first) : added;
    },
    add: (sheets) => change((tx) => addAll(tx, sheets)),
    save: (sheet) => change((tx) => saveOne(tx, sheet)),
    remove: (id) =>
      change(async (tx) => {
        const sheet = await storedSheet(tx, id);
        if (sheet?.ok && (await usedIds(tx)).has(id))
          await tx.put('sheets', { ...sheet.value, withdrawn: true } satisfies StoredSheet);
        else await tx.remove('sheets', id);
        return ok(undefined);
      }),
    restore: (id) =>
      change(async (tx) => {
        const sheet = await storedSheet(tx, id);
        if (sheet?.ok) await tx.put('sheets', sheet.value);
        return ok(undefined);
      }),
  };
}

type Writer = Parameters<Parameters<Database['write']>[1]>[0];

async function addAll(tx: Writer, sheets: readonly LimitSheet[]): Promise<Result<void>> {
  for (const sheet of sheets) {
    const sound = ownIdOnly(parseLimitSheet(sheet));
    if (!sound.ok) return sound;
    const kept = await storedSheet(tx, sheet.id);
    if (kept?.ok && !sameSheet(kept.value, sound.value))
      return failed(problem('limit.revision-kept', { revision: sheet.revision, sheet: sheet.title }));
    // One that was withdrawn comes back; one that cannot be read any more is replaced by one that can.
    await tx.put('sheets', sound.value);
  }
  return ok(undefined);
}

async function saveOne(tx: Writer, sheet: LimitSheet): Promise<Result<void>> {
  const sound = ownIdOnly(parseLimitSheet(sheet));
  if (!sound.ok) return sound;
  const kept = await storedSheet(tx, sheet.id);
  const changed = kept !== null && !(kept.ok && sameSheet(kept.value, sound.value));
  if (changed && (await usedIds(tx)).has(sheet.id))
    return failed(problem('limit.revision-used', { revision: sheet.revision, sheet: sheet.title }));
  await tx.put('sheets', sound.value);
  return ok(undefined);
}

/** What lies under an id, without its mark; null where nothing does. */
async function storedSheet(reader: StoreReader, id: string): Promise<Result<LimitSheet> | null> {
  const document = await reader.get('sheets', id);
  return document === undefined ? null : parseLimitSheet(unmarked(document).sheet);
}

function listingOf(documents: readonly unknown[], used: ReadonlySet<string>): ShelfListing {
  const read = documents.map((document) => {
    const { sheet, withdrawn } = unmarked(document);
    return { result: ownIdOnly(parseLimitSheet(sheet)), withdrawn };
  });
  const sound = (wanted: boolean) =>
    read
      .flatMap(({ result, withdrawn }) => (result.ok && withdrawn === wanted ? [result.value] : []))
      .toSorted((a, b) => a.title.localeCompare(b.title) || a.validFrom.localeCompare(b.validFrom));
  const own = sound(false);
  return {
    sheets: [DEMONSTRATION_SHEET, ...own],
    withdrawn: sound(true),
    problems: read.flatMap(({ result }) => (result.ok ? [] : [result.problem])),
    mistakes: shelfMistakes(own),
    usedIds: used,
  };
}

const emptyListing = (found: Problem): ShelfListing => ({
  sheets: [DEMONSTRATION_SHEET],
  withdrawn: [],
  problems: [found],
  mistakes: [],
  usedIds: new Set(),
});

function unmarked(document: unknown): { readonly sheet: unknown; readonly withdrawn: boolean } {
  if (typeof document !== 'object' || document === null || !('withdrawn' in document))
    return { sheet: document, withdrawn: false };
  const { withdrawn, ...sheet } = document;
  return { sheet, withdrawn: withdrawn === true };
}

/** The sheets that runs hold copies of. Read from the documents as they lie there: a run that is damaged or of another version counts as well. */
async function usedIds(reader: StoreReader): Promise<ReadonlySet<string>> {
  const runs = await reader.list('runs');
  return new Set(
    runs.flatMap((run) => [sheetIdIn(run), ...entriesOf(run).map(sheetIdIn)]).filter((id) => id !== ''),
  );
}

function entriesOf(run: unknown): readonly unknown[] {
  const entries: unknown = typeof run === 'object' && run !== null && 'entries' in run ? run.entries : [];
  return Array.isArray(entries) ? entries : [];
}

function sheetIdIn(holder: unknown): string {
  const sheet: unknown =
    typeof holder === 'object' && holder !== null && 'sheet' in holder ? holder.sheet : null;
  const id: unknown = typeof sheet === 'object' && sheet !== null && 'id' in sheet ? sheet.id : '';
  return typeof id === 'string' ? id : '';
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
