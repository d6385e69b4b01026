import fc from 'fast-check';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { deviceMemory, type RememberedDevice } from '../../src/app/device-memory.ts';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import type { FoundBridge } from '../../src/wire/found-bridge.ts';

const FOUND: FoundBridge = {
  baudRate: 115_200,
  protocol: 'slcan',
  bitRate: 250_000,
  version: 'V1013',
  listenOnly: 'confirmed',
};

const device = (key: string, change: Partial<RememberedDevice> = {}): RememberedDevice => ({
  key,
  adapter: 'web-serial',
  name: `port ${key}`,
  found: FOUND,
  choice: null,
  lastUsedIso: '2026-11-25T08:00:00.000Z',
  ...change,
});
const stored = (database: Database) =>
  database.read(['settings'], async (reader) => ok(await reader.get('settings', 'devices')));
const store = (database: Database, document: object) =>
  database.write(['settings'], async (writer) =>
    ok(await writer.put('settings', { id: 'devices', ...document })),
  );
const keysOf = (devices: readonly RememberedDevice[]) => devices.map(({ key }) => key);

/** A database on which every write fails, as on a full disk. */
const full = (database: Database): Database => ({
  ...database,
  write: () => Promise.resolve(failed(problem('storage.full'))),
});

describe.each([
  ['with a database', () => memoryDatabase()],
  ['without a database', () => null],
])('the memory of devices %s', (_how, make) => {
  test('knows nothing at first', async () => {
    const memory = deviceMemory(make());
    expect(await memory.list()).toEqual([]);
    expect(await memory.recall('a')).toBeNull();
  });

  test('gives back what worked with a device', async () => {
    const memory = deviceMemory(make());
    await memory.remember(device('a'));
    expect(await memory.recall('a')).toEqual(device('a'));
    expect(await memory.recall('b')).toBeNull();
  });

  test('does not mix up devices that cannot be told apart', async () => {
    const memory = deviceMemory(make());
    await memory.remember(device('a'));
    expect(await memory.recall(null)).toBeNull();
  });

  test('lists the one used last first, each once with what is known of it last', async () => {
    const memory = deviceMemory(make());
    await memory.remember(device('a'));
    await memory.remember(device('b'));
    const again = device('a', { found: { ...FOUND, bitRate: 500_000 } });
    await memory.remember(again);
    expect(await memory.list()).toEqual([again, device('b')]);
  });

  test('keeps the order of use also where the clock went backwards', async () => {
    const memory = deviceMemory(make());
    await memory.remember(device('a', { lastUsedIso: '2030-01-01T00:00:00Z' }));
    await memory.remember(device('b', { lastUsedIso: '2020-01-01T00:00:00Z' }));
    expect(keysOf(await memory.list())).toEqual(['b', 'a']);
  });

  test('forgets one and leaves the others', async () => {
    const memory = deviceMemory(make());
    for (const key of ['a', 'b', 'c']) await memory.remember(device(key));
    await memory.forget('b');
    await memory.forget('never known');
    expect(keysOf(await memory.list())).toEqual(['c', 'a']);
  });

  test('holds twenty, and forgets the one used longest ago', async () => {
    const memory = deviceMemory(make());
    for (let count = 0; count < 20; count++) await memory.remember(device(`${count}`));
    await memory.remember(device('0'));
    await memory.remember(device('new'));
    const keys = keysOf(await memory.list());
    expect(keys).toHaveLength(20);
    expect(keys.slice(0, 2)).toEqual(['new', '0']);
    expect(keys).not.toContain('1');
  });

  test('keeps what an adapter wants to find again, whatever plain data it is', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue({ maxDepth: 3 }), async (json) => {
        const choice = JSON.parse(JSON.stringify(json)) as RememberedDevice['choice']; // -0 is 0 there
        const memory = deviceMemory(make());
        await memory.remember(device('ws://bridge.local/', { adapter: 'web-socket', choice }));
        expect((await memory.recall('ws://bridge.local/'))?.choice).toEqual(choice);
      }),
      { numRuns: 30 },
    );
  });

  test('loses none of several that are remembered at once', async () => {
    const memory = deviceMemory(make());
    await Promise.all(['a', 'b', 'c'].map((key) => memory.remember(device(key))));
    expect(keysOf(await memory.list())).toEqual(['c', 'b', 'a']);
  });
});

describe('what is kept of devices', () => {
  test('is found again by the next page', async () => {
    const database = memoryDatabase();
    await deviceMemory(database).remember(device('a'));
    expect(await deviceMemory(database).recall('a')).toEqual(device('a'));
    expect(await stored(database)).toEqual(ok({ id: 'devices', formatVersion: 1, devices: [device('a')] }));
  });

  test('of two tabs comes together', async () => {
    const database = memoryDatabase();
    const [one, two] = [deviceMemory(database), deviceMemory(database)];
    await one.list();
    await two.remember(device('of two'));
    await one.remember(device('of one'));
    expect(keysOf(await two.list())).toEqual(['of one', 'of two']);
  });

  test.each([
    ['no text as key', { key: 7 }],
    ['an adapter of tomorrow', { adapter: 'telepathy' }],
    ['an impossible bit rate', { found: { ...FOUND, bitRate: 1 } }],
    ['no time', { lastUsedIso: 'yesterday' }],
    ['something unknown in it', { colour: 'red' }],
  ])('drops an entry with %s and none of the others', async (_what, change) => {
    const database = memoryDatabase();
    await store(database, {
      formatVersion: 1,
      devices: [device('a'), { ...device('bad'), ...change }, null, 'text', device('b')],
    });
    const memory = deviceMemory(database);
    expect(keysOf(await memory.list())).toEqual(['a', 'b']);
    await memory.remember(device('c'));
    expect(keysOf(await deviceMemory(database).list())).toEqual(['c', 'a', 'b']);
  });

  test.each([[{}], [{ formatVersion: 1 }], [{ formatVersion: 1, devices: 'none' }], [{ devices: [] }]])(
    'is begun anew where it is no list: %j',
    async (document) => {
      const database = memoryDatabase();
      await store(database, document);
      const memory = deviceMemory(database);
      expect(await memory.list()).toEqual([]);
      await memory.remember(device('a'));
      expect(keysOf(await deviceMemory(database).list())).toEqual(['a']);
    },
  );

  test('by a newer Meniscus is not written over; this page goes on in memory', async () => {
    const database = memoryDatabase();
    const newer = { formatVersion: 2, devices: { a: 1 } };
    await store(database, newer);
    const memory = deviceMemory(database);
    await memory.remember(device('a'));
    expect(keysOf(await memory.list())).toEqual(['a']);
    expect(await stored(database)).toEqual(ok({ id: 'devices', ...newer }));
  });

  test('holds nothing new on a full disk, and what was there is still given', async () => {
    const database = memoryDatabase();
    await deviceMemory(database).remember(device('a'));
    const memory = deviceMemory(full(database));
    await memory.remember(device('b'));
    expect(keysOf(await memory.list())).toEqual(['a']);
  });
});

test('the stored form of a found bridge is the contract’s', () => {
  expectTypeOf<RememberedDevice['found']>().toExtend<FoundBridge | null>();
  expectTypeOf<FoundBridge | null>().toExtend<RememberedDevice['found']>();
});
