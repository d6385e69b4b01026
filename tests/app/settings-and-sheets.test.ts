import { describe, expect, test } from 'vitest';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { DEFAULT_SETTINGS, loadSettings, SettingsStore } from '../../src/app/settings.ts';
import { sheetShelf } from '../../src/app/sheet-shelf.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { ok } from '../../src/problems/result.ts';

describe('settings', () => {
  test('are the defaults where nothing is kept, where a field is missing, and where the document is damaged', async () => {
    const database = memoryDatabase();
    expect(await loadSettings(database)).toEqual(DEFAULT_SETTINGS);
    const put = (document: object) =>
      database.write(['settings'], async (to) =>
        ok(await to.put('settings', { id: 'settings', ...document })),
      );
    await put({ pressureUnit: 'psi' });
    expect(await loadSettings(database)).toEqual({ ...DEFAULT_SETTINGS, pressureUnit: 'psi' });
    await put({ pressureUnit: 'furlong' });
    expect(await loadSettings(database)).toEqual(DEFAULT_SETTINGS);
  });

  test('a change holds at once and is found again', async () => {
    const database = memoryDatabase();
    const store = new SettingsStore(database, DEFAULT_SETTINGS);
    const kept = store.change({ sounds: false });
    expect(store.value.sounds).toBe(false);
    await kept;
    expect((await loadSettings(database)).sounds).toBe(false);
  });

  test('hold without a database', async () => {
    const store = new SettingsStore(null, DEFAULT_SETTINGS);
    await store.change({ appearance: 'dark' });
    expect(store.value.appearance).toBe('dark');
  });
});

describe('the shelf of sheets', () => {
  const own = (id: string, title: string) => JSON.stringify({ ...DEMONSTRATION_SHEET, id, title });

  test('has the demonstration sheet first, then the others by title', async () => {
    const shelf = sheetShelf(memoryDatabase());
    await shelf.bring(own('b', 'Zebra'));
    await shelf.bring(own('a', 'Aspen'));
    expect((await shelf.list()).sheets.map(({ title }) => title)).toEqual([
      DEMONSTRATION_SHEET.title,
      'Aspen',
      'Zebra',
    ]);
  });

  test('does not write over a revision of the same id, and gives it away when asked', async () => {
    const shelf = sheetShelf(memoryDatabase());
    await shelf.bring(own('a', 'Old'));
    expect(await shelf.bring(own('a', 'New'))).toMatchObject({ problem: { code: 'limit.revision-kept' } });
    expect((await shelf.list()).sheets.map(({ title }) => title)).toEqual([DEMONSTRATION_SHEET.title, 'Old']);
    await shelf.remove('a');
    expect((await shelf.list()).sheets).toEqual([DEMONSTRATION_SHEET]);
  });

  test('refuses a sheet that takes the id of the demonstration sheet, also one that lies there already', async () => {
    const database = memoryDatabase();
    const shelf = sheetShelf(database);
    expect(await shelf.bring(own('demonstration', 'Mine'))).toMatchObject({
      ok: false,
      problem: { code: 'limit.bad-entry', context: { place: 'id' } },
    });
    await database.write(['sheets'], async (to) =>
      ok(await to.put('sheets', JSON.parse(own('demonstration', 'Mine')))),
    );
    const { sheets, problems } = await shelf.list();
    expect(sheets).toEqual([DEMONSTRATION_SHEET]);
    expect(problems.map(({ code }) => code)).toEqual(['limit.bad-entry']);
  });

  test('names what is no sheet and keeps nothing of it', async () => {
    const shelf = sheetShelf(memoryDatabase());
    for (const text of ['', '{', '[]', 'null', '{"formatVersion":1}'])
      expect((await shelf.bring(text)).ok).toBe(false);
    expect(await shelf.bring('{')).toMatchObject({ problem: { code: 'limit.not-a-sheet' } });
    expect((await shelf.list()).sheets).toEqual([DEMONSTRATION_SHEET]);
  });
});
