import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { jobStore, type JobStore } from '../../src/jobs/job-store.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { ok, type Result } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { at, conclusion, field, job, note, reopened, run, signed, work } from './example-job.ts';

let database: Database;
let store: JobStore;

beforeEach(async () => {
  freshIndexedDb();
  database = await opened('jobs');
  store = jobStore(database);
});

const problemOf = (code: string) => ({ ok: false, problem: { code } });
const raw = (name: 'jobs', document: object) =>
  database.write([name], async (tx) => ok(await tx.put(name, document)));
function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
}

describe('the store of jobs', () => {
  test('gives back what was put, and its row with it', async () => {
    const kept = job([field('unitNumber', 'T-12'), field('complaint', 'stalls', 2)]);
    expect(await store.put(kept)).toEqual(ok(kept));
    expect(await store.get('job-1')).toEqual(ok(kept));
    expect(await store.summaries()).toMatchObject({
      value: { items: [{ id: 'job-1', unitNumber: 'T-12', complaint: 'stalls', state: 'open' }] },
    });
    expect(await store.get('job-2')).toMatchObject(problemOf('storage.not-found'));
  });

  test.each([
    ['drops entries', job([note('a')])],
    ['changes one', job([note('a'), note('c', 2)])],
    ['puts one in front', job([note('0'), note('a'), note('b', 2)])],
  ])('refuses a job that %s', async (_what, stale) => {
    const kept = job([note('a'), note('b', 2)]);
    await store.put(kept);
    expect(await store.put(stale)).toMatchObject(problemOf('storage.entries-dropped'));
    expect(await store.get('job-1')).toEqual(ok(kept));
  });

  test.each([
    ['createdAt', { createdAt: at(3) }],
    ['scenarioId', { scenarioId: 'leak' }],
    ['procedure', { procedure: { ...job().procedure, revision: '2' } }],
  ])('refuses a change of the %s', async (what, change) => {
    await store.put(job());
    expect(await store.put(job([note('a')], change))).toMatchObject({
      problem: { code: 'storage.job-fixed', context: { what } },
    });
  });

  test('takes nothing for a signed job but that it is opened again', async () => {
    const entries = [conclusion(9), signed(10)];
    await store.put(job(entries));
    for (const entry of [note('x', 11), conclusion(11), signed(11), work(11)])
      expect(await store.addEntries('job-1', [entry])).toMatchObject(problemOf('storage.job-signed'));
    expect(await store.put(job([...entries, note('x', 11)]))).toMatchObject(problemOf('storage.job-signed'));
    expect(await store.put(job(entries))).toMatchObject({ ok: true });
    expect(await store.addEntries('job-1', [reopened(11), note('x', 12)])).toMatchObject({
      value: { entries: { length: 4 }, updatedAt: at(12) },
    });
  });

  test.each([
    ['signing without a conclusion', signed(1), 'job.not-concluded'],
    ['opening an open one', reopened(1), 'job.not-closed'],
    ['priming after no work', { atIso: at(1), kind: 'primed', workId: 'w' } as JobEntry, 'job.no-such-work'],
  ])('refuses %s, and the entries given with it', async (_what, entry, code) => {
    await store.put(job());
    expect(await store.addEntries('job-1', [note('a'), entry])).toMatchObject(problemOf(code));
    expect(await store.get('job-1')).toEqual(ok(job()));
  });

  test('refuses what is no job or no entry, and does not write over a damaged or newer one', async () => {
    await store.put(job());
    const bad = { ...note('x'), atIso: 'yesterday' };
    expect(await store.addEntries('job-1', [bad])).toMatchObject(problemOf('storage.damaged'));
    await raw('jobs', { id: 'job-1', formatVersion: 1 });
    expect(await store.put(job([note('a')]))).toMatchObject(problemOf('storage.damaged'));
    await raw('jobs', { ...job(), formatVersion: 2 });
    expect(await store.put(job([note('a')]))).toMatchObject(problemOf('storage.newer-document'));
    expect(await store.addEntries('job-1', [])).toMatchObject(problemOf('storage.newer-document'));
  });

  test('lists the job last worked on first, and names what cannot be read', async () => {
    await store.put(job([], { id: 'old' }));
    await store.put(job([note('a', 30)], { id: 'worked on', createdAt: '2026-11-20T08:00:00.000+01:00' }));
    await raw('jobs', { id: 'bad', formatVersion: 1 });
    await raw('jobs', { ...job(), id: 'newer', formatVersion: 9 });
    const { items, damaged } = valueOf(await store.summaries());
    expect(items.map(({ id }) => id)).toEqual(['worked on', 'old']);
    expect(damaged).toMatchObject([
      { id: 'bad', problem: { code: 'storage.damaged' } },
      { id: 'newer', problem: { code: 'storage.newer-document' } },
    ]);
  });

  test('finds other jobs on the same engine however its number was typed, and on the same vehicle', async () => {
    const serial = (id: string, number: string, vin = '') =>
      store.put(job([field('serialNumber', number), field('vin', vin)], { id }));
    await serial('a', 'X 12-345');
    await serial('b', 'x12345', 'V1');
    await serial('c', 'Y9', 'v-1');
    await serial('d', '');
    const found = valueOf(await store.historyOf({ serialNumber: 'X12345', vin: 'V1' }, 'b'));
    expect(found.map(({ summary, by, otherEngine }) => [summary.id, by, otherEngine]).sort()).toEqual([
      ['a', 'serial number', false],
      ['c', 'VIN', true],
    ]);
    expect(await store.historyOf({ serialNumber: '', vin: ' ' }, 'b')).toEqual(ok([]));
  });
});

describe('two tabs on one job', () => {
  test('lose nothing of what both added, in whatever order they write', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }), async (turns) => {
        freshIndexedDb();
        const tabs = [jobStore(await opened('jobs')), jobStore(await opened('jobs'))] as const;
        await tabs[0].put(job());
        const texts = turns.map((second, place) => `${second ? 'B' : 'A'}${place}`);
        const adding = texts.map((text, place) =>
          tabs[turns[place] ? 1 : 0].addEntries('job-1', [note(text)]),
        );
        expect((await Promise.all(adding)).every((outcome) => outcome.ok)).toBe(true);
        const { entries } = valueOf(await tabs[1].get('job-1'));
        expect(entries.map((entry) => (entry.kind === 'note' ? entry.text : '')).sort()).toEqual(
          texts.sort(),
        );
      }),
      { numRuns: 25 },
    );
  });

  test('are told apart where one puts what it read before the other wrote', async () => {
    await store.put(job());
    await store.addEntries('job-1', [note('first')]);
    expect(await store.put(job([note('second')]))).toMatchObject({
      problem: { code: 'storage.entries-dropped', context: { what: 'Job', id: 'job-1' } },
    });
  });
});

describe('runs of a job', () => {
  const volume = (ml: number, minute: number): RunEntry => ({
    atIso: at(minute),
    reason: '',
    kind: 'volume',
    readingsMl: [ml],
    typed: `${ml}`,
  });

  test('are given with it, oldest first', async () => {
    const runs = runStore(database);
    await store.put(job());
    await runs.put(run('late', 9, null));
    await runs.put(run('early', 3, null));
    await runs.put(run('other', 4, null, { jobId: 'job-2' }));
    await database.write(['runs'], async (tx) => ok(await tx.put('runs', { id: 'bad', jobId: 'job-1' })));
    expect(valueOf(await store.runsOf('job-1')).items.map(({ id }) => id)).toEqual(['early', 'late']);
    const both = valueOf(await store.withRuns('job-1'));
    expect(both.job.id).toBe('job-1');
    expect(both.runs.damaged).toMatchObject([{ id: 'bad' }]);
    expect(await store.withRuns('job-9')).toMatchObject(problemOf('storage.not-found'));
  });

  test('stand fast once the job is signed, and take entries again once it is opened', async () => {
    const runs = runStore(database);
    await store.put(job());
    await runs.put(run('a', 3, null));
    await store.addEntries('job-1', [conclusion(9), signed(10)]);
    expect(await runs.put(run('b', 11, null))).toMatchObject(problemOf('storage.job-signed'));
    expect(await runs.addEntries('a', [volume(1, 11)])).toMatchObject(problemOf('storage.job-signed'));
    expect(await runs.put(run('a', 3, null))).toEqual(ok(undefined));
    await store.addEntries('job-1', [reopened(12)]);
    expect(await runs.addEntries('a', [volume(1, 13)])).toMatchObject({ value: { entries: { length: 1 } } });
  });

  test('keep the entries of two tabs, and are judged over all of them', async () => {
    const tabs = [runStore(await opened('jobs')), runStore(await opened('jobs'))] as const;
    await tabs[0].put(run('a', 3, { word: 'pass', value: 100 }));
    const judge = ({ entries }: { entries: readonly unknown[] }) => ({ title: `${entries.length} entries` });
    const outcomes = await Promise.all([
      tabs[0].addEntries('a', [volume(1, 4)], judge),
      tabs[1].addEntries('a', [volume(2, 4)], judge),
    ]);
    expect(outcomes.map(({ ok: done }) => done)).toEqual([true, true]);
    expect(await tabs[0].get('a')).toMatchObject({ value: { entries: { length: 2 }, title: '2 entries' } });
    expect(await tabs[0].addEntries('z', [])).toMatchObject(problemOf('storage.not-found'));
  });
});
