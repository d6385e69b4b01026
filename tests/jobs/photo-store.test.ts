import { beforeEach, describe, expect, test } from 'vitest';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { photoStore, photoSum, readPhoto, type PhotoStore } from '../../src/jobs/photo-store.ts';
import { photoTypeOf } from '../../src/jobs/photo-type.ts';
import { MOST_PHOTO_BYTES } from '../../src/jobs/photo.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { examplePhoto, jpegBytes, nodeSum } from './example-photo.ts';

const problemOf = (code: string) => ({ ok: false, problem: { code } });

describe.each([
  ['the browser’s own database', () => opened('photos')],
  ['the database in memory', () => Promise.resolve(memoryDatabase())],
] as const)('photographs in %s', (_, open) => {
  let database: Database;
  let store: PhotoStore;
  beforeEach(async () => {
    freshIndexedDb();
    database = await open();
    store = photoStore(database);
  });
  /** Writes past the store, as a damaged disk or another version would. */
  const plant = (document: object) =>
    database.write(['photos'], async (tx) => ok(await tx.put('photos', document)));

  test('come back byte by byte as they were put', async () => {
    const photo = examplePhoto({ bytes: jpegBytes(5000, 7) });
    expect(await store.put(photo)).toEqual(ok(photo));
    expect(await store.get('photo-1')).toEqual(ok(photo));
    expect(await store.get('photo-2')).toMatchObject(problemOf('storage.not-found'));
  });

  test('may be put again as they are, but never change', async () => {
    await store.put(examplePhoto());
    expect(await store.put(examplePhoto())).toMatchObject({ ok: true });
    expect(await store.put(examplePhoto({ bytes: jpegBytes(40, 3) }))).toMatchObject(problemOf('photo.kept'));
    expect(await store.put(examplePhoto({ name: 'other.jpg' }))).toMatchObject(problemOf('photo.kept'));
    expect(await store.get('photo-1')).toEqual(ok(examplePhoto()));
  });

  test('of the largest size are kept, and one byte more is refused with its size', async () => {
    const full = examplePhoto({ bytes: jpegBytes(MOST_PHOTO_BYTES) });
    expect(await store.put(full)).toMatchObject({ ok: true });
    const over = await store.put(examplePhoto({ id: 'photo-2', bytes: jpegBytes(MOST_PHOTO_BYTES + 1) }));
    expect(over).toMatchObject(problemOf('photo.too-large-to-keep'));
    expect(over.ok ? '' : describeProblem(over.problem).message).toContain('4.1 MB; up to 4 MB');
    expect(await store.get('photo-2')).toMatchObject(problemOf('storage.not-found'));
  });

  test.each([
    ['says it is a PNG', { type: 'image/png' as const }, 'photo.unfit'],
    ['is text', { bytes: new TextEncoder().encode('not a picture at all') }, 'photo.unfit'],
    ['has another sum', { sha256: nodeSum(new Uint8Array(3)) }, 'photo.unfit'],
    ['is a GIF by its type', { type: 'image/gif' as never }, 'storage.damaged'],
    ['has no width', { widthPx: 0 }, 'storage.damaged'],
    ['has a day for a time', { takenAt: '2026-11-25' }, 'storage.damaged'],
    ['comes from a newer version', { formatVersion: 2 as never }, 'storage.newer-document'],
  ])('one that %s is refused and leaves nothing behind', async (_what, change, code) => {
    expect(await store.put(examplePhoto(change))).toMatchObject(problemOf(code));
    expect(await store.get('photo-1')).toMatchObject(problemOf('storage.not-found'));
  });

  test.each([null, undefined, 7, 'photo', [], {}])(
    '%j is no photograph, and nothing throws',
    async (what) => {
      expect(await store.put(what)).toMatchObject(problemOf('storage.damaged'));
    },
  );

  test('whose bytes were changed where they lie are told from those that were not', async () => {
    await plant({ ...examplePhoto(), bytes: jpegBytes(40, 9) });
    expect(await store.get('photo-1')).toMatchObject(problemOf('photo.changed'));
  });

  test('are listed in the order asked for, each once, the missing and damaged named beside them', async () => {
    await store.put(examplePhoto({ id: 'b' }));
    await store.put(examplePhoto({ id: 'a' }));
    await plant({ id: 'torn', formatVersion: 1 });
    await plant({ ...examplePhoto({ id: 'late' }), formatVersion: 9 });
    const listed = await store.listOf(['a', 'gone', 'b', 'a', 'torn', 'late']);
    if (!listed.ok) throw new Error(listed.problem.code);
    expect(listed.value.photos.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(listed.value.missing.map(({ id, problem }) => [id, problem.code])).toEqual([
      ['gone', 'storage.not-found'],
      ['torn', 'storage.damaged'],
      ['late', 'storage.newer-document'],
    ]);
    expect(await store.listOf([])).toEqual(ok({ photos: [], missing: [] }));
  });
});

test('a database that is gone is a problem of every call, and nothing throws', async () => {
  freshIndexedDb();
  const database = await opened('photos');
  const store = photoStore(database);
  database.close();
  for (const outcome of [
    await store.put(examplePhoto()),
    await store.get('photo-1'),
    await store.listOf(['photo-1']),
  ])
    expect(outcome).toMatchObject(problemOf('storage.closed'));
});

test('the sum of a photograph is SHA-256 as Node forms it', () => {
  for (const length of [3, 64, 1000]) expect(photoSum(jpegBytes(length))).toBe(nodeSum(jpegBytes(length)));
});

test('a stored document is read as a photograph, or says why not', () => {
  expect(readPhoto(examplePhoto())).toEqual(ok(examplePhoto()));
  expect(readPhoto({ ...examplePhoto(), place: 'somewhere' })).toMatchObject(problemOf('storage.damaged'));
});

describe('the type of a picture', () => {
  const text = (words: string) => new TextEncoder().encode(words);
  // Signatures: ITU-T T.81 B.1.1.3; ISO/IEC 15948 5.2; RFC 9649 2.4; brands of ISO/IEC 23008-12 (from memory).
  test.each([
    [Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), 'image/jpeg'],
    [Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0), 'image/png'],
    [text('RIFF1234WEBPVP8 '), 'image/webp'],
    [text('RIFF1234WAVEfmt '), null],
    [text('\0\0\0\u0018ftypheic'), 'heif'],
    [text('\0\0\0\u0018ftypmif1'), 'heif'],
    [text('\0\0\0\u0018ftypisom'), null],
    [text('GIF89a'), null],
    [text('%PDF-1.7'), null],
    [Uint8Array.of(0xff, 0xd8), null],
    [new Uint8Array(0), null],
  ])('%j is %s', (bytes, type) => expect(photoTypeOf(bytes)).toBe(type));
});
