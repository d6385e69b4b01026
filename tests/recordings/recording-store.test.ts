import { beforeEach, describe, expect, test } from 'vitest';
import { ok } from '../../src/problems/result.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import { recordingStore, type RecordingStore } from '../../src/recordings/recording-store.ts';
import type { Database } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { bytes, header, open } from './fixtures.ts';

let database: Database;
let store: RecordingStore;

beforeEach(async () => {
  freshIndexedDb();
  database = await opened('recordings');
  store = recordingStore(database);
});

const problemOf = (code: string) => ({ ok: false, problem: { code } });

async function record(id: string, pieces = 3): Promise<void> {
  await store.create(header(id));
  await store.append(packChunk(id, 0, [open(0), bytes(1, 1)]));
  for (let piece = 1; piece < pieces; piece++)
    await store.append(packChunk(id, piece, [bytes(piece * 10, piece)]));
}

async function loaded(id: string) {
  const result = await store.loadEvents(id);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

describe('a recording', () => {
  test('comes back whole and in order once closed', async () => {
    await record('r', 12);
    await store.close('r');
    const { events, problems, header: kept } = await loaded('r');
    expect(events).toEqual([
      open(0),
      bytes(1, 1),
      ...Array.from({ length: 11 }, (_, at) => bytes((at + 1) * 10, at + 1)),
    ]);
    expect(problems).toEqual([]);
    expect(kept).toEqual(header('r', { closed: true }));
  });

  test('that was not closed opens up to its last chunk and says so', async () => {
    await record('r');
    const { events, problems } = await loaded('r');
    expect(events.at(-1)).toEqual(bytes(20, 2));
    expect(problems).toEqual([{ code: 'storage.recording-cut', context: { id: 'r', untilMs: 20 } }]);
  });

  test('of which nothing was written opens empty and says so', async () => {
    await store.create(header('r'));
    expect(await loaded('r')).toMatchObject({ events: [], problems: [{ code: 'storage.recording-cut' }] });
  });

  test('never changes once closed', async () => {
    await record('r');
    await store.close('r');
    expect(await store.append(packChunk('r', 3, [bytes(30, 3)]))).toMatchObject(
      problemOf('storage.recording-closed'),
    );
    expect((await loaded('r')).events).toHaveLength(4);
  });

  test('takes the same chunk twice without doubling it', async () => {
    await record('r');
    await store.append(packChunk('r', 2, [bytes(20, 2)]));
    expect((await loaded('r')).events).toHaveLength(4);
  });

  test('is not begun twice under one id, and not appended to before it is begun', async () => {
    await record('r');
    expect(await store.create(header('r'))).toMatchObject(problemOf('storage.exists'));
    expect(await store.append(packChunk('other', 0, []))).toMatchObject(problemOf('storage.not-found'));
    expect(await store.close('other')).toMatchObject(problemOf('storage.not-found'));
    expect(await store.loadEvents('other')).toMatchObject(problemOf('storage.not-found'));
  });

  test('is removed with all its chunks and leaves the others', async () => {
    await record('r');
    await record('s');
    await store.remove('r');
    expect(await store.loadEvents('r')).toMatchObject(problemOf('storage.not-found'));
    expect((await loaded('s')).events).toHaveLength(4);
    expect(await database.read(['chunks'], async (tx) => ok((await tx.list('chunks')).length))).toEqual(
      ok(3),
    );
  });
});

describe('a damaged recording', () => {
  const gap = (atMs: number) => ({
    kind: 'gap',
    atMs,
    problem: { code: 'storage.chunk-missing', context: { id: 'r' } },
  });

  test('with a missing chunk holds a gap there and keeps the rest', async () => {
    await record('r', 4);
    await store.close('r');
    await database.write(['chunks'], async (tx) => ok(await tx.remove('chunks', ['r', 1])));
    const { events, problems } = await loaded('r');
    expect(events.slice(2)).toEqual([gap(20), bytes(20, 2), bytes(30, 3)]);
    expect(problems.map(({ code }) => code)).toEqual(['storage.chunk-missing']);
  });

  test('with a chunk that cannot be read holds a gap there and keeps the rest', async () => {
    await record('r', 4);
    await store.close('r');
    await database.write(['chunks'], async (tx) =>
      ok(await tx.put('chunks', { recordingId: 'r', sequence: 2, kinds: 'x' })),
    );
    const { events } = await loaded('r');
    expect(events.slice(2)).toEqual([bytes(10, 1), gap(30), bytes(30, 3)]);
  });

  test('with its last chunk unreadable says so even though no event follows', async () => {
    await record('r', 2);
    await store.close('r');
    await database.write(['chunks'], async (tx) =>
      ok(await tx.put('chunks', { recordingId: 'r', sequence: 1 })),
    );
    expect((await loaded('r')).problems.map(({ code }) => code)).toEqual(['storage.chunk-missing']);
  });

  test('header is named in the list and hides none of the others', async () => {
    await store.create(header('old', { startedAt: '2026-11-24T23:59:59.000Z' }));
    await store.create(header('new', { startedAt: '2026-11-25T01:30:00.000+01:00' }));
    await database.write(['recordings'], async (tx) =>
      ok(await tx.put('recordings', { id: 'bad', formatVersion: 1 })),
    );
    const listing = await store.list();
    if (!listing.ok) throw new Error(listing.problem.code);
    expect(listing.value.items.map(({ id }) => id)).toEqual(['new', 'old']);
    expect(listing.value.damaged).toMatchObject([{ id: 'bad', problem: { code: 'storage.damaged' } }]);
    expect(await store.loadEvents('bad')).toMatchObject(problemOf('storage.damaged'));
  });
});
