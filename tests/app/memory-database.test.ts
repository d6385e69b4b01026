import { describe, expect, test } from 'vitest';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { recordingStore } from '../../src/recordings/recording-store.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import type { Database } from '../../src/storage/database.ts';
import { header, run, speed } from './services.ts';

const get = (database: Database, id: string) =>
  database.read(['sheets'], async (reader) => ok(await reader.get('sheets', id)));

describe('the database in memory', () => {
  test('keeps a run so that it can be opened and continued', async () => {
    const runs = runStore(memoryDatabase());
    expect(await runs.put(run())).toEqual(ok(undefined));
    expect(await runs.get('run-1')).toEqual(ok(run()));
    expect((await runs.put({ ...run(), title: 'other', createdAt: '2020-01-01T00:00:00Z' })).ok).toBe(false);
  });

  test('keeps a recording with its pieces in order of their number, ten after nine', async () => {
    const recordings = recordingStore(memoryDatabase());
    await recordings.create(header('r'));
    await recordings.create(header('r2'));
    for (const sequence of [10, 9, 2, 1, 0, 3, 4, 5, 6, 7, 8])
      await recordings.append(packChunk('r', sequence, [speed(sequence * 100, 160)]));
    await recordings.append(packChunk('r2', 0, [speed(5, 1)]));
    await recordings.close('r');
    const loaded = await recordings.loadEvents('r');
    expect(loaded.ok && loaded.value.problems).toEqual([]);
    expect(loaded.ok && loaded.value.events.map(({ atMs }) => atMs / 100)).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10,
    ]);
  });

  test('removes the pieces of one recording and leaves those of the others', async () => {
    const recordings = recordingStore(memoryDatabase());
    for (const id of ['a', 'ab']) {
      await recordings.create(header(id));
      await recordings.append(packChunk(id, 0, [speed(0, 1)]));
    }
    await recordings.remove('a');
    expect((await recordings.loadEvents('a')).ok).toBe(false);
    const left = await recordings.loadEvents('ab');
    expect(left.ok && left.value.events).toHaveLength(1);
  });

  test('undoes a write that answers with a problem, and one that throws', async () => {
    const database = memoryDatabase();
    const refusal = await database.write(['sheets'], async (writer) => {
      await writer.put('sheets', { id: 'x' });
      return failed(problem('storage.full'));
    });
    expect(refusal).toEqual(failed(problem('storage.full')));
    const broken = await database.write(['sheets'], async (writer) => {
      await writer.put('sheets', { id: 'x' });
      throw new Error('broke');
    });
    expect(broken).toEqual(failed(problem('storage.failed', { detail: 'broke' })));
    expect(await get(database, 'x')).toEqual(ok(undefined));
  });

  test('sees its own changes within a write, and makes one write after the other', async () => {
    const database = memoryDatabase();
    const count = () =>
      database.write(['sheets'], async (writer) => {
        const before = (await writer.get('sheets', 'n')) as { n: number } | undefined;
        await Promise.resolve();
        await writer.put('sheets', { id: 'n', n: (before?.n ?? 0) + 1 });
        return ok(await writer.list('sheets'));
      });
    const [, second] = await Promise.all([count(), count()]);
    expect(second).toEqual(ok([{ id: 'n', n: 2 }]));
  });

  test('gives copies: changing what was put or got changes nothing kept', async () => {
    const database = memoryDatabase();
    const document = { id: 'a', list: [1] };
    await database.write(['sheets'], async (writer) => ok(await writer.put('sheets', document)));
    document.list.push(2);
    const got = await get(database, 'a');
    if (got.ok) (got.value as typeof document).list.push(3);
    expect(await get(database, 'a')).toEqual(ok({ id: 'a', list: [1] }));
    database.close();
  });
});
