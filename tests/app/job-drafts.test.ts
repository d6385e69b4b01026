import { expect, test } from 'vitest';
import { EMPTY_DRAFT, jobDrafts } from '../../src/app/job-drafts.ts';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';

const words = (text: string) => ({ ...EMPTY_DRAFT.conclusion, words: text });

/** The database, and how often something was written into it. */
function counted(): { database: Database; writes: () => number } {
  const database = memoryDatabase();
  let writes = 0;
  return {
    database: {
      ...database,
      write: (stores, work) => {
        writes += 1;
        return database.write(stores, work);
      },
    },
    writes: () => writes,
  };
}

const keptIn = (database: Database) =>
  database.read(['settings'], async (tx) => ok(await tx.list('settings')));

test('a draft is read again by the next page, each job by itself, each part by itself', async () => {
  const database = memoryDatabase();
  const before = jobDrafts(database);
  await before.change('job-1', { conclusion: words('The pump lo') });
  await before.change('job-1', { note: { text: 'Swarf', photoIds: ['p1'] } });
  await before.change('job-2', { conclusion: words('Nothing') });
  const after = jobDrafts(database);
  expect(await after.read('job-1')).toEqual({
    conclusion: words('The pump lo'),
    note: { text: 'Swarf', photoIds: ['p1'] },
  });
  expect((await after.read('job-2')).conclusion.words).toBe('Nothing');
  expect(await after.read('job-3')).toEqual(EMPTY_DRAFT);
});

test('keys that come faster than the disk are written together, the last one for certain', async () => {
  const { database, writes } = counted();
  const drafts = jobDrafts(database);
  const typed = Array.from('The pump loses fuel.', (_, at) => 'The pump loses fuel.'.slice(0, at + 1));
  for (const text of typed) void drafts.change('job-1', { conclusion: words(text) });
  expect((await drafts.read('job-1')).conclusion.words).toBe('The pump loses fuel.');
  expect(writes()).toBe(1);
});

test('an emptied draft leaves nothing behind', async () => {
  const database = memoryDatabase();
  const drafts = jobDrafts(database);
  await drafts.change('job-1', { conclusion: words('x') });
  await drafts.change('job-1', { conclusion: EMPTY_DRAFT.conclusion });
  expect(await keptIn(database)).toEqual(ok([]));
});

test.each([
  ['damaged', { conclusion: 7 }],
  ['of a newer form', { formatVersion: 99, ...EMPTY_DRAFT, note: { text: 'from later', photoIds: [] } }],
])('a draft that is %s counts as none', async (_, document) => {
  const database = memoryDatabase();
  await database.write(['settings'], async (tx) => {
    await tx.put('settings', { id: 'draft of job job-1', ...document });
    return ok(undefined);
  });
  expect(await jobDrafts(database).read('job-1')).toEqual(EMPTY_DRAFT);
});

test('storage that fails takes nothing from the page: typing goes on', async () => {
  const broken: Database = {
    read: () => Promise.resolve(failed(problem('storage.terminated'))),
    write: () => Promise.resolve(failed(problem('storage.terminated'))),
    close: () => undefined,
  };
  const drafts = jobDrafts(broken);
  await expect(drafts.change('job-1', { conclusion: words('x') })).resolves.toBeUndefined();
  expect(await drafts.read('job-1')).toEqual(EMPTY_DRAFT);
});
