import { beforeEach, describe, expect, test } from 'vitest';
import { copyOfProcedure, procedureStore, type ProcedureStore } from '../../src/jobs/procedure-store.ts';
import { ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { LOW_RAIL_PRESSURE as PROCEDURE } from '../../src/procedures/library.ts';

let database: Database;
let store: ProcedureStore;
beforeEach(async () => {
  freshIndexedDb();
  database = await opened('jobs');
  store = procedureStore(database, [PROCEDURE]);
});
const problemOf = (code: string) => ({ ok: false, problem: { code } });
const ids = async () => {
  const listing = await store.list();
  return listing.ok ? listing.value.items.map(({ id }) => id) : [];
};

describe('the store of procedures', () => {
  test('lists the shipped one first, then copies by title and revision', async () => {
    for (const revision of ['10', '2'])
      await store.put(copyOfProcedure(PROCEDURE, `copy-${revision}`, revision));
    expect(await ids()).toEqual([PROCEDURE.id, 'copy-2', 'copy-10']);
    expect(copyOfProcedure(PROCEDURE, 'c', '2')).toEqual({ ...PROCEDURE, id: 'c', revision: '2' });
  });

  test('never lets the shipped one be changed or taken away', async () => {
    expect(await store.put({ ...PROCEDURE, title: 'Mine' })).toMatchObject(
      problemOf('job.procedure-shipped'),
    );
    expect(await store.remove(PROCEDURE.id)).toMatchObject(problemOf('job.procedure-shipped'));
    expect(await ids()).toEqual([PROCEDURE.id]);
  });

  test('keeps a revision as it is: a change needs an id of its own', async () => {
    const copy = copyOfProcedure(PROCEDURE, 'copy', '1');
    expect(await store.put(copy)).toEqual(ok(copy));
    expect(await store.put(copy)).toEqual(ok(copy));
    expect(await store.put({ ...copy, title: 'Other' })).toMatchObject(problemOf('job.procedure-kept'));
    expect(await store.put({ ...copy, title: 'Other', id: 'copy-2' })).toMatchObject({ ok: true });
    await store.remove('copy');
    expect(await ids()).toEqual([PROCEDURE.id, 'copy-2']);
  });

  test('refuses one with mistakes, one that is none and a newer one, and names a damaged one', async () => {
    const copy = copyOfProcedure(PROCEDURE, 'copy', '1');
    const twice = { ...copy, checks: [...copy.checks, copy.checks[0]] };
    expect(await store.put(twice)).toMatchObject(problemOf('procedure.id-twice'));
    expect(await store.put({ ...copy, checks: [] })).toMatchObject(problemOf('storage.damaged'));
    expect(await store.put({ ...copy, formatVersion: 2 })).toMatchObject(problemOf('storage.newer-document'));
    await database.write(['procedures'], async (tx) => ok(await tx.put('procedures', { id: 'bad' })));
    expect(await store.list()).toMatchObject({ value: { items: { length: 1 }, damaged: [{ id: 'bad' }] } });
  });
});
