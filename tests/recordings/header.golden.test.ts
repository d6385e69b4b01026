import { beforeEach, describe, expect, expectTypeOf, test } from 'vitest';
import type { z } from 'zod';
import { runStore } from '../../src/jobs/run-store.ts';
import { ok } from '../../src/problems/result.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import { readHeader, type StoredHeader } from '../../src/recordings/recording-schema.ts';
import { recordingStore } from '../../src/recordings/recording-store.ts';
import type { RecordingHeader } from '../../src/recordings/recording.ts';
import { openDatabase } from '../../src/storage/database.ts';
import { UPGRADES } from '../../src/storage/upgrades.ts';
import { RUN_V1 } from '../jobs/run-v1.ts';
import { freshIndexedDb, notes, opened } from '../storage/fixtures.ts';
import { bytes, open } from './fixtures.ts';
import { HEADER_V1, HEADER_V2, LOG_HEADER_V1 } from './golden-headers.ts';

beforeEach(freshIndexedDb);

describe('a header', () => {
  test.each([HEADER_V1, LOG_HEADER_V1])('of version 1 ($id) opens with everything in it', (header) => {
    expect(readHeader(structuredClone(header))).toEqual(ok({ ...header, formatVersion: 2 }));
  });

  test('of version 2 opens with everything in it', () => {
    expect(readHeader(structuredClone(HEADER_V2))).toEqual(ok(HEADER_V2));
  });

  test('of a version to come is told apart from a damaged one', () => {
    expect(readHeader({ ...HEADER_V2, formatVersion: 3, wire: 'of tomorrow' })).toEqual({
      ok: false,
      problem: { code: 'storage.newer-document', context: { what: 'Recording', id: 'rec-2' } },
    });
    expect(readHeader({ ...HEADER_V2, wire: 'of tomorrow' })).toMatchObject({
      problem: { code: 'storage.damaged' },
    });
    for (const document of [null, undefined, 7, 'x', [], {}])
      expect(readHeader(document)).toMatchObject({ problem: { code: 'storage.damaged' } });
  });

  test('has the very type of the contract', () => {
    expectTypeOf<z.infer<typeof StoredHeader>>().toExtend<RecordingHeader>();
    expectTypeOf<RecordingHeader['wire']>().toEqualTypeOf<z.infer<typeof StoredHeader>['wire']>();
  });
});

describe('what a Meniscus of format 1 left behind', () => {
  const FIRST = UPGRADES.slice(0, 1);

  async function leaveBehind(): Promise<void> {
    const old = await opened('m', FIRST);
    await old.write(['recordings', 'chunks', 'runs'], async (tx) => {
      await tx.put('recordings', structuredClone(HEADER_V1));
      await tx.put('recordings', { ...LOG_HEADER_V1, closed: false });
      await tx.put('chunks', packChunk('rec-1', 0, [open(0), bytes(5, 13)]));
      await tx.put('runs', structuredClone(RUN_V1));
      return ok(undefined);
    });
    old.close();
  }

  test('opens whole: recordings with their events, runs with their verdict', async () => {
    await leaveBehind();
    const database = await opened('m');
    expect(await recordingStore(database).loadEvents('rec-1')).toMatchObject({
      ok: true,
      value: { events: [open(0), bytes(5, 13)], problems: [] },
    });
    const listing = await recordingStore(database).list();
    expect(listing).toMatchObject({ value: { items: { length: 2 }, damaged: [] } });
    expect(await runStore(database).get('run-1')).toMatchObject({ value: { verdict: RUN_V1.verdict } });
  });

  test('can still be closed, and is then kept in the present form', async () => {
    await leaveBehind();
    const database = await opened('m');
    await recordingStore(database).close('rec-log');
    const stored = await database.read(['recordings'], async (tx) =>
      ok(await tx.get('recordings', 'rec-log')),
    );
    expect(stored).toEqual(ok({ ...LOG_HEADER_V1, formatVersion: 2, closed: true }));
  });

  test('is newer to it once this version opened it: it says so, and calls nothing damaged', async () => {
    await leaveBehind();
    (await opened('m')).close();
    expect(await openDatabase('m', notes(), FIRST)).toMatchObject({
      ok: false,
      problem: { code: 'storage.newer-version' },
    });
  });
});

test('a list names the newer recording beside those that can be read', async () => {
  const database = await opened('m');
  await database.write(['recordings'], async (tx) => {
    await tx.put('recordings', structuredClone(HEADER_V2));
    await tx.put('recordings', { ...HEADER_V2, id: 'far', formatVersion: 9 });
    return ok(undefined);
  });
  expect(await recordingStore(database).list()).toMatchObject({
    value: {
      items: [{ id: 'rec-2', wire: 'auto' }],
      damaged: [{ id: 'far', problem: { code: 'storage.newer-document' } }],
    },
  });
  expect(await recordingStore(database).loadEvents('far')).toMatchObject({
    problem: { code: 'storage.newer-document' },
  });
});
