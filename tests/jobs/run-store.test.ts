import { beforeEach, describe, expect, test } from 'vitest';
import { ok } from '../../src/problems/result.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { runStore, type RunStore } from '../../src/jobs/run-store.ts';
import { StoredRun } from '../../src/jobs/run.ts';
import type { Database } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { presentForm } from './present-form.ts';
import { RUN_V1 } from './run-v1.ts';

let database: Database;
let store: RunStore;

beforeEach(async () => {
  freshIndexedDb();
  database = await opened('jobs');
  store = runStore(database);
});

/** The golden run of version 1 in the present form. */
const KEPT = presentForm(RUN_V1);
const run = (change: Partial<StoredRun> = {}): StoredRun => ({
  ...StoredRun.parse(structuredClone(KEPT)),
  ...change,
});
const volume = (ml: number, atIso = '2026-11-25T08:03:00.000Z'): RunEntry => ({
  atIso,
  reason: '',
  kind: 'volume',
  readingsMl: [ml],
  typed: String(ml),
});
const problemOf = (code: string) => ({ ok: false, problem: { code } });

describe('the store of runs', () => {
  test('gives back what was put', async () => {
    expect(await store.put(run())).toEqual(ok(undefined));
    expect(await store.get('run-1')).toEqual(ok(KEPT));
    expect(await store.get('run-2')).toMatchObject(problemOf('storage.not-found'));
  });

  test('takes more entries, and a new verdict with them', async () => {
    await store.put(run());
    const verdict = { ...run().verdict!, word: 'pass' as const };
    expect(await store.put(run({ entries: [...run().entries, volume(120)], verdict }))).toEqual(
      ok(undefined),
    );
    expect(await store.get('run-1')).toMatchObject({
      value: { verdict: { word: 'pass' }, entries: { length: 3 } },
    });
  });

  test.each([
    ['drops an entry', run().entries.slice(0, 1)],
    ['drops them all', []],
    ['changes an entry', [run().entries[0]!, volume(81, '2026-11-25T08:02:00.000Z')]],
    ['changes their order', run().entries.toReversed()],
    ['puts one in front', [volume(1), ...run().entries]],
  ])('refuses a run that %s', async (_what, entries) => {
    await store.put(run());
    expect(await store.put(run({ entries }))).toMatchObject(problemOf('storage.entries-dropped'));
    expect(await store.get('run-1')).toEqual(ok(KEPT));
  });

  test('refuses one of two tabs that both added to the same state', async () => {
    await store.put(run());
    await store.put(run({ entries: [...run().entries, volume(90)] }));
    const late = await store.put(run({ entries: [...run().entries, volume(70)] }));
    expect(late).toMatchObject(problemOf('storage.entries-dropped'));
  });

  test.each([
    ['limit sheet', { sheet: { ...run().sheet!, revision: '2' } }, 'sheet'],
    ['crank settings', { crankSettings: { ...run().crankSettings, startRpm: 60 } }, 'crankSettings'],
    ['job', { jobId: 'job-2' }, 'jobId'],
    ['kind of check', { kind: 'inspection' as const }, 'kind'],
    ['vessel it began with', { vessel: null }, 'vessel'],
    ['recording', { recordingId: 'rec-2' }, 'recording'],
    ['device', { source: { ...run().source, device: 'another' } }, 'source'],
    ['kind of source', { source: { ...run().source, adapter: 'web-usb' as const } }, 'source'],
    ['time it began', { createdAt: '2026-11-26T08:00:00.000Z' }, 'createdAt'],
  ])('refuses a change of the %s', async (_name, change, what) => {
    await store.put(run());
    const outcome = await store.put(run({ ...change, entries: [...run().entries, volume(1)] }));
    expect(outcome).toMatchObject({ problem: { code: 'storage.run-fixed', context: { what } } });
  });

  test('takes what the bridge was found to be once it is known, and never another or none', async () => {
    const { source } = run();
    const found = {
      baudRate: 115_200,
      protocol: 'slcan',
      bitRate: 250_000,
      version: null,
      listenOnly: 'confirmed',
    } as const;
    await store.put(run({ source: { ...source, found: null } }));
    const known = { ...source, found, deviceKey: 'usb:1' };
    expect(await store.put(run({ source: known }))).toEqual(ok(undefined));
    expect(await store.get('run-1')).toMatchObject({ value: { source: known } });
    for (const changed of [
      { ...known, found: { ...found, bitRate: 500_000 as const } },
      { ...known, found: null },
      { ...known, deviceKey: 'usb:2' },
      source,
    ])
      expect(await store.put(run({ source: changed }))).toMatchObject({
        problem: { code: 'storage.run-fixed', context: { what: 'source' } },
      });
  });

  test('adds to a run of version 1 that lies there, and keeps it in the present form', async () => {
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', structuredClone(RUN_V1))));
    const entries = [...run().entries, volume(120)];
    expect(await store.put(run({ entries, verdict: null }))).toEqual(ok(undefined));
    expect(await store.get('run-1')).toMatchObject({ value: { formatVersion: 3, entries: { length: 3 } } });
  });

  test('refuses another verdict on the same entries', async () => {
    await store.put(run());
    const verdict = { ...run().verdict!, gradingRevision: 2 };
    expect(await store.put(run({ verdict }))).toMatchObject(problemOf('storage.verdict-fixed'));
    expect(await store.put(run({ verdict: null }))).toMatchObject(problemOf('storage.verdict-fixed'));
  });

  test('takes the first verdict and the first recording of an open run', async () => {
    await store.put(run({ verdict: null, gradingRevision: null, state: 'open', recordingId: null }));
    expect(await store.put(run())).toEqual(ok(undefined));
  });

  test('refuses what is no run, and does not write over a damaged one', async () => {
    expect(await store.put(run({ state: 'lost' as 'open' }))).toMatchObject(problemOf('storage.damaged'));
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', { id: 'run-1' })));
    expect(await store.put(run())).toMatchObject(problemOf('storage.damaged'));
    expect(await store.get('run-1')).toMatchObject(problemOf('storage.damaged'));
  });

  test('lists the newest first and names the damaged ones', async () => {
    await store.put(run({ id: 'old', createdAt: '2026-11-24T23:30:00.000Z' }));
    await store.put(run({ id: 'new', createdAt: '2026-11-25T01:00:00.000+01:00' }));
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', { id: 'bad' })));
    await database.write(['runs'], async (tx) =>
      ok(await tx.put('runs', { ...RUN_V1, id: 'far', formatVersion: 9 })),
    );
    const listing = await store.list();
    if (!listing.ok) throw new Error(listing.problem.code);
    expect(listing.value.items.map(({ id }) => id)).toEqual(['new', 'old']);
    expect(listing.value.damaged).toMatchObject([
      { id: 'bad', problem: { code: 'storage.damaged' } },
      { id: 'far', problem: { code: 'storage.newer-document' } },
    ]);
  });
});
