import { beforeEach, describe, expect, test } from 'vitest';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { sheetShelf, type SheetShelf } from '../../src/app/sheet-shelf.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { writeExchange } from '../../src/limits/exchange.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { reviseSheet } from '../../src/limits/revise-sheet.ts';
import { ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { run } from './services.ts';

const sheet = (id: string, change: Partial<LimitSheet> = {}): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: `Sheet ${id}`,
  invented: false,
  serialRanges: [{ from: 'A1', to: 'A99' }],
  ...change,
});
const codeOf = (result: { ok: boolean; problem?: { code: string } }) => result.problem?.code;

let database: Database;
let shelf: SheetShelf;
beforeEach(() => {
  database = memoryDatabase();
  shelf = sheetShelf(database);
});
const ids = async () => (await shelf.list()).sheets.map(({ id }) => id);

/** A run kept with a copy of the sheet, from its beginning or taken later. */
async function useInRun(used: LimitSheet, later = false): Promise<void> {
  const entry = { atIso: '2026-11-25T08:00:00.000Z', kind: 'sheet' as const, sheet: used, reason: 'holds' };
  const began = later ? { ...run(), entries: [entry] } : { ...run(), sheet: used };
  expect(await runStore(database).put(began)).toEqual(ok(undefined));
}

describe('a revision that no run used', () => {
  test('can be saved again while it is edited, and be taken away', async () => {
    expect(await shelf.save(sheet('a'))).toEqual(ok(undefined));
    expect(await shelf.save(sheet('a', { title: 'Better' }))).toEqual(ok(undefined));
    expect((await shelf.list()).sheets[1]?.title).toBe('Better');
    expect(await shelf.remove('a')).toEqual(ok(undefined));
    expect(await shelf.list()).toMatchObject({ sheets: [DEMONSTRATION_SHEET], withdrawn: [] });
  });

  test('is not saved with a mistake in it', async () => {
    expect(codeOf(await shelf.save(sheet('a', { replaces: 'a' })))).toBe('limit.replaces-itself');
    expect(await ids()).toEqual(['demonstration']);
  });
});

describe.each([
  ['from its beginning', false],
  ['taken later in it', true],
])('a revision that a run used, %s', (_, later) => {
  beforeEach(async () => {
    await shelf.save(sheet('a'));
    await useInRun(sheet('a'), later);
  });

  test('is named as used', async () => {
    expect([...(await shelf.list()).usedIds]).toContain('a');
  });

  test('is not changed by saving, adding or bringing', async () => {
    const other = sheet('a', { title: 'Other' });
    expect(codeOf(await shelf.save(other))).toBe('limit.revision-used');
    expect(codeOf(await shelf.add([other]))).toBe('limit.revision-kept');
    expect(codeOf(await shelf.bring(JSON.stringify(other)))).toBe('limit.revision-kept');
    expect((await shelf.list()).sheets[1]).toEqual(sheet('a'));
  });

  test('may be saved as it is', async () => {
    expect(await shelf.save(sheet('a'))).toEqual(ok(undefined));
  });

  test('is withdrawn instead of taken away, and can be brought back', async () => {
    expect(await shelf.remove('a')).toEqual(ok(undefined));
    expect(await shelf.list()).toMatchObject({ sheets: [DEMONSTRATION_SHEET], withdrawn: [sheet('a')] });
    expect(codeOf(await shelf.save(sheet('a', { title: 'Other' })))).toBe('limit.revision-used');
    await shelf.restore('a');
    expect(await shelf.list()).toMatchObject({ sheets: [{}, sheet('a')], withdrawn: [] });
  });

  test('comes back into choice when the same file is brought again', async () => {
    await shelf.remove('a');
    expect((await shelf.bring(JSON.stringify(sheet('a')))).ok).toBe(true);
    expect(await ids()).toEqual(['demonstration', 'a']);
  });

  test('gets a new revision beside it', async () => {
    const next = reviseSheet(sheet('a'), { title: 'Sheet a, corrected' });
    expect(await shelf.add([next])).toEqual(ok(undefined));
    expect(await ids()).toEqual(['demonstration', 'a', next.id]);
  });
});

describe('what runs used', () => {
  test('counts where the run is damaged or of a version to come', async () => {
    await shelf.save(sheet('a'));
    const damaged = { id: 'r', formatVersion: 99, sheet: { id: 'a' } };
    await database.write(['runs'], async (to) => ok(await to.put('runs', damaged)));
    await shelf.remove('a');
    expect((await shelf.list()).withdrawn.map(({ id }) => id)).toEqual(['a']);
  });

  test('is read from runs of any form without falling over', async () => {
    for (const [index, document] of [
      { sheet: 7 },
      { entries: 'x' },
      { entries: [null, 3, { sheet: null }] },
    ].entries())
      await database.write(['runs'], async (to) =>
        ok(await to.put('runs', { id: `r${index}`, ...document })),
      );
    expect((await shelf.list()).usedIds.size).toBe(0);
  });
});

describe('bringing a file', () => {
  test('takes a collection as a whole', async () => {
    expect(await shelf.bring(writeExchange([sheet('b'), sheet('c')]))).toMatchObject({ value: { id: 'b' } });
    expect(await ids()).toEqual(['demonstration', 'b', 'c']);
  });

  test('takes nothing of a collection with a mistake, or with a revision that is kept otherwise', async () => {
    await shelf.save(sheet('c'));
    const bad = { ...sheet('d'), title: '' };
    expect(codeOf(await shelf.bring(writeExchange([sheet('b'), bad])))).toBe('limit.bad-entry');
    const clash = writeExchange([sheet('b'), sheet('c', { title: 'Otherwise' })]);
    expect(codeOf(await shelf.bring(clash))).toBe('limit.revision-kept');
    expect(await ids()).toEqual(['demonstration', 'c']);
  });

  test('says so where a collection is empty', async () => {
    expect(codeOf(await shelf.bring(writeExchange([])))).toBe('limit.not-a-sheet');
  });

  test('reads a sheet of format 1 and keeps it in the present form', async () => {
    const old = { ...sheet('old'), formatVersion: 1, sheetId: undefined, replaces: undefined };
    await shelf.bring(JSON.stringify(old));
    const stored = await database.read(['sheets'], async (from) => ok(await from.get('sheets', 'old')));
    expect(stored).toMatchObject({ value: { formatVersion: 2, sheetId: 'old', replaces: null } });
  });
});

describe('the listing', () => {
  test('tells overlaps between the sheets for choice, not with those withdrawn', async () => {
    await shelf.save(sheet('a'));
    await shelf.save(sheet('b', { serialRanges: [{ from: 'A50', to: null }] }));
    expect(new Set((await shelf.list()).mistakes.map(({ code }) => code))).toEqual(
      new Set(['limit.sheets-overlap']),
    );
    await useInRun(sheet('b', { serialRanges: [{ from: 'A50', to: null }] }));
    await shelf.remove('b');
    expect((await shelf.list()).mistakes).toEqual([]);
  });

  test('has the demonstration sheet and the problem where the store fails', async () => {
    const failing: Database = {
      ...database,
      read: async () => ({ ok: false, problem: { code: 'storage.unavailable', context: {} } }),
    };
    expect(await sheetShelf(failing).list()).toMatchObject({
      sheets: [DEMONSTRATION_SHEET],
      problems: [{ code: 'storage.unavailable' }],
    });
  });
});
