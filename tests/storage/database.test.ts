import { beforeEach, describe, expect, test, vi } from 'vitest';
import { openDatabase } from '../../src/storage/database.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { UPGRADES, type Upgrade } from '../../src/storage/upgrades.ts';
import { freshIndexedDb, notes, opened } from './fixtures.ts';

beforeEach(freshIndexedDb);

const run = (id: string, note = '') => ({ id, note });

describe('a database', () => {
  test('gives back what was put, and undefined where nothing was', async () => {
    const database = await opened('a');
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', run('1', 'first'))));
    const read = await database.read(['runs'], async (tx) =>
      ok([await tx.get('runs', '1'), await tx.get('runs', '2')]),
    );
    expect(read).toEqual(ok([run('1', 'first'), undefined]));
  });

  test('lists chunks of one recording only, in order of their sequence', async () => {
    const database = await opened('a');
    const chunk = (recordingId: string, sequence: number) => ({ recordingId, sequence });
    await database.write(['chunks'], async (tx) => {
      for (const [id, sequence] of [
        ['a', 10],
        ['a', 2],
        ['b', 0],
        ['a', 0],
      ] as const)
        await tx.put('chunks', chunk(id, sequence));
      return ok(undefined);
    });
    const read = await database.read(['chunks'], async (tx) =>
      ok(await tx.list('chunks', { from: ['a', 0], to: ['a', 99] })),
    );
    expect(read).toEqual(ok([chunk('a', 0), chunk('a', 2), chunk('a', 10)]));
  });

  test('removes one key or a range of keys', async () => {
    const database = await opened('a');
    await database.write(['chunks', 'runs'], async (tx) => {
      for (const sequence of [0, 1, 2]) await tx.put('chunks', { recordingId: 'a', sequence });
      await tx.put('runs', run('1'));
      await tx.remove('chunks', { from: ['a', 0], to: ['a', 1] });
      await tx.remove('runs', '1');
      return ok(undefined);
    });
    const left = await database.read(['chunks', 'runs'], async (tx) =>
      ok([await tx.list('chunks'), await tx.list('runs')]),
    );
    expect(left).toEqual(ok([[{ recordingId: 'a', sequence: 2 }], []]));
  });

  test('keeps nothing of a write that ends in a problem', async () => {
    const database = await opened('a');
    const outcome = await database.write(['runs'], async (tx) => {
      await tx.put('runs', run('1'));
      return failed(problem('storage.exists', { what: 'Run', id: '1' }));
    });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.exists' } });
    expect(await database.read(['runs'], async (tx) => ok(await tx.list('runs')))).toEqual(ok([]));
  });

  test('answers a document that cannot be stored with a problem, and undoes the rest of that write', async () => {
    const database = await opened('a');
    const outcome = await database.write(['runs'], async (tx) => {
      await tx.put('runs', run('1'));
      await tx.put('runs', { id: '2', note: () => undefined });
      return ok(undefined);
    });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.failed' } });
    expect(await database.read(['runs'], async (tx) => ok(await tx.list('runs')))).toEqual(ok([]));
  });

  test('is a problem, not an exception, once closed', async () => {
    const database = await opened('a');
    database.close();
    const outcome = await database.write(['runs'], async (tx) => ok(await tx.put('runs', run('1'))));
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.closed' } });
  });

  test('tells a full disk by its own code', async () => {
    const database = await opened('a');
    const outcome = await database.write(['runs'], async () => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.full' } });
  });

  test('asks for strict durability on every write', async () => {
    const database = await opened('a');
    const durabilities: unknown[] = [];
    const prototype = Object.getPrototypeOf(await nativeConnection('a')) as {
      transaction: (...args: unknown[]) => unknown;
    };
    const native = prototype.transaction;
    vi.spyOn(prototype, 'transaction').mockImplementation(function (this: unknown, ...args: unknown[]) {
      durabilities.push((args[2] as { durability?: string } | undefined)?.durability);
      return native.apply(this, args);
    });
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', run('1'))));
    vi.restoreAllMocks();
    expect(durabilities).toEqual(['strict']);
  });
});

function nativeConnection(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

describe('opening', () => {
  const addStore: Upgrade = (db) => void db.createObjectStore('extra', { keyPath: 'id' });

  test('takes the steps from the version found to the newest, and keeps what was there', async () => {
    const before = await opened('a', UPGRADES);
    await before.write(['runs'], async (tx) => ok(await tx.put('runs', run('1', 'kept'))));
    before.close();
    const after = await opened('a', [...UPGRADES, addStore]);
    expect(await after.read(['runs'], async (tx) => ok(await tx.get('runs', '1')))).toEqual(
      ok(run('1', 'kept')),
    );
    after.close();
    expect((await nativeConnection('a')).version).toBe(UPGRADES.length + 1);
  });

  test('undoes a step that throws half-way, and says so', async () => {
    const before = await opened('a');
    await before.write(['runs'], async (tx) => ok(await tx.put('runs', run('1', 'kept'))));
    before.close();
    const broken: Upgrade = (db) => {
      db.deleteObjectStore('runs');
      throw new Error('step is broken');
    };
    const outcome = await openDatabase('a', notes(), [...UPGRADES, broken]);
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.upgrade-failed' } });
    const again = await opened('a');
    expect(await again.read(['runs'], async (tx) => ok(await tx.get('runs', '1')))).toEqual(
      ok(run('1', 'kept')),
    );
  });

  test('refuses what a newer version wrote and leaves it as it is', async () => {
    (await opened('a', [...UPGRADES, addStore])).close();
    expect(await openDatabase('a', notes())).toMatchObject({
      ok: false,
      problem: { code: 'storage.newer-version' },
    });
    expect((await nativeConnection('a')).version).toBe(UPGRADES.length + 1);
  });

  test('says that another tab blocks it, tells that tab, and goes on when that tab lets go', async () => {
    const old = notes();
    await openDatabase('a', old);
    const young = notes();
    const opening = openDatabase('a', young, [...UPGRADES, addStore]);
    await vi.waitFor(() => expect(young.codes).toEqual(['storage.blocked']));
    expect(old.codes).toEqual(['storage.blocking']);
    old.releases[0]?.();
    expect((await opening).ok).toBe(true);
  });

  test('without any IndexedDB is a problem that lets the person go on', async () => {
    Object.assign(globalThis, { indexedDB: undefined });
    expect(await openDatabase('a', notes())).toMatchObject({
      ok: false,
      problem: { code: 'storage.unavailable' },
    });
  });
});
