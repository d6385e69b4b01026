import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { ok } from '../../src/problems/result.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import { recordingStore } from '../../src/recordings/recording-store.ts';
import { RECORDING_FORMAT } from '../../src/recordings/recording.ts';
import { millis } from '../../src/quantities/time.ts';
import { openDatabase, type Database } from '../../src/storage/database.ts';
import { UPGRADES, type Upgrade } from '../../src/storage/upgrades.ts';

let name = '';
let count = 0;
const open: Database[] = [];

beforeEach(() => {
  name = `test-${performance.timeOrigin}-${count++}`;
});
afterEach(() => {
  for (const database of open.splice(0)) database.close();
  vi.restoreAllMocks();
  indexedDB.deleteDatabase(name);
});

async function opened(codes: string[] = [], upgrades?: readonly Upgrade[], hold = false) {
  const note = ({ code }: Problem) => void codes.push(code);
  const onBlocking = (told: Problem, release: () => void) => {
    note(told);
    if (!hold) release();
  };
  const result = await openDatabase(name, { onBlocked: note, onTerminated: note, onBlocking }, upgrades);
  if (result.ok) open.push(result.value);
  return result;
}

async function database(upgrades?: readonly Upgrade[]): Promise<Database> {
  const result = await opened([], upgrades);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
}

const readRun = (from: Database) => from.read(['runs'], async (tx) => ok(await tx.get('runs', '1')));
const extra: Upgrade = (db) => void db.createObjectStore('extra');

describe("the browser's own IndexedDB", () => {
  test('writes with strict durability', async () => {
    const durabilities: string[] = [];
    const native = IDBDatabase.prototype.transaction;
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
      const tx = native.apply(this, args);
      if (tx.mode === 'readwrite') durabilities.push(tx.durability);
      return tx;
    });
    const store = await database();
    await store.write(['runs'], async (tx) => ok(await tx.put('runs', { id: '1' })));
    expect(durabilities).toEqual(['strict']);
    expect(await readRun(store)).toEqual(ok({ id: '1' }));
  });

  test('keeps the old data and the old version when a step of an upgrade throws', async () => {
    const before = await database();
    await before.write(['runs'], async (tx) => ok(await tx.put('runs', { id: '1' })));
    before.close();
    const broken: Upgrade = (db) => {
      db.deleteObjectStore('runs');
      throw new Error('broken step');
    };
    const outcome = await opened([], [...UPGRADES, broken]);
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'storage.upgrade-failed' } });
    expect(await readRun(await database())).toEqual(ok({ id: '1' }));
  });

  test('a second tab with a newer version waits until the first lets go', async () => {
    const old: string[] = [];
    const young: string[] = [];
    const first = await opened(old, UPGRADES, true);
    const second = opened(young, [...UPGRADES, extra]);
    await vi.waitFor(() => expect([old, young]).toEqual([['storage.blocking'], ['storage.blocked']]));
    if (first.ok) first.value.close();
    expect((await second).ok).toBe(true);
  });

  test('a first tab that lets go at once never blocks the second', async () => {
    const young: string[] = [];
    await opened([], UPGRADES);
    expect((await opened(young, [...UPGRADES, extra])).ok).toBe(true);
    expect(young).toEqual([]);
  });

  test('a recording comes back with its columns as they were', async () => {
    const store = recordingStore(await database());
    await store.create({
      formatVersion: RECORDING_FORMAT,
      id: 'r',
      source: 'web-serial',
      wire: 'slcan',
      device: 'bridge',
      startedAt: '2026-11-25T08:00:00Z',
      closed: false,
      givenIntervalMs: null,
      fileName: null,
      logPlan: null,
    });
    const events = [
      { kind: 'open', atMs: millis(0), device: 'bridge', write: null },
      { kind: 'bytes', atMs: millis(1.25), bytes: new Uint8Array([0, 13, 255]) },
      { kind: 'gap', atMs: millis(2), problem: problem('link.overrun') },
    ] as const;
    expect(await store.append(packChunk('r', 0, events))).toEqual(ok(undefined));
    await store.close('r');
    const loaded = await store.loadEvents('r');
    expect(loaded).toMatchObject({ ok: true, value: { events, problems: [] } });
  });
});
