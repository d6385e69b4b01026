import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import { packIdOf } from '../../src/jobs/job-rows.ts';
import { jobStore, type JobStore } from '../../src/jobs/job-store.ts';
import { summaryOf, type JobSummary } from '../../src/jobs/job-summary.ts';
import type { StoredJob } from '../../src/jobs/job.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { UPGRADES } from '../../src/storage/upgrades.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { at, field, job, note } from './example-job.ts';
import { JOB_V1 } from './job-v1.ts';

let database: Database;
let store: JobStore;
const JOBS = Array.from({ length: 300 }, (_, n) =>
  job([field('unitNumber', `T-${n}`, n)], { id: `job-${n}` }),
);
const ROWS = JOBS.map(summaryOf).toReversed();

beforeEach(async () => {
  freshIndexedDb();
  database = await opened('jobs');
  store = jobStore(database);
  await database.write(['jobs'], async (tx) => {
    for (const one of JOBS) await tx.put('jobs', one);
    return ok(undefined);
  });
  await store.summaries();
});

const packsOf = async (from: Database) => {
  const read = await from.read(['jobSummaries'], async (tx) => ok(await tx.list('jobSummaries')));
  if (!read.ok) throw new Error(read.problem.code);
  return read.value as { id: string; formatVersion: number; rows: string }[];
};
/** The rows of a pack, each as its values; the second is the job's id. */
const valuesIn = ({ rows }: { rows: string }) => JSON.parse(rows) as unknown[][];
const idsIn = (pack: { rows: string }) => valuesIn(pack).map(([, id]) => String(id));
const put = (document: object) =>
  database.write(['jobSummaries'], async (tx) => ok(await tx.put('jobSummaries', document)));
const listed = async (from = store) => {
  const listing = await from.summaries();
  if (!listing.ok) throw new Error(listing.problem.code);
  return listing.value;
};

// FNV-1a, 32 bits: of '' 811c9dc5, of 'a' e40c292c, of 'foobar' bf9cf968 (its authors' test vectors, from memory); the last eight bits: c5, 2c, 68.
test.each([
  ['', '197'],
  ['a', '44'],
  ['foobar', '104'],
])('the pack of %j is %s', (id, pack) => {
  expect(packIdOf(id)).toBe(pack);
});

describe('the rows of jobs', () => {
  test('lie in packs, each in the one that its id says, written with the job', async () => {
    const packs = await packsOf(database);
    expect(packs.length).toBeLessThan(JOBS.length);
    for (const pack of packs) for (const id of idsIn(pack)) expect(packIdOf(id)).toBe(pack.id);
    expect(await listed()).toEqual({ items: ROWS, damaged: [] });
    await store.put(job([], { id: 'one more' }));
    const pack = (await packsOf(database)).find(({ id }) => id === packIdOf('one more'))!;
    expect(valuesIn(pack).at(-1)).toEqual(Object.values(summaryOf(job([], { id: 'one more' }))));
  });

  test('follow an entry, and the others stay', async () => {
    await store.addEntries('job-3', [field('unitNumber', 'new', 400)]);
    const { items } = await listed();
    expect(items[0]).toMatchObject({ id: 'job-3', unitNumber: 'new', updatedAt: at(400) });
    expect(items.slice(1)).toEqual(ROWS.filter(({ id }) => id !== 'job-3'));
  });

  test.each<[string, (pack: { id: string; formatVersion: number; rows: string }) => object]>([
    ['is cut off', ({ rows, ...rest }) => ({ ...rest, rows: rows.slice(0, -5) })],
    ['holds no list', (pack) => ({ ...pack, rows: '{}' })],
    ['holds a list of something else', (pack) => ({ ...pack, rows: '[null,[1],"x"]' })],
    ['holds no text', (pack) => ({ ...pack, rows: 7 })],
    ['is of another version', (pack) => ({ ...pack, formatVersion: 2 })],
    ['holds one spoiled row', (pack) => ({ ...pack, rows: pack.rows.replace('"open"', '"ajar"') })],
    [
      'holds the row of a job that is nowhere',
      (pack) => ({ ...pack, rows: pack.rows.replace('job-', 'gone-') }),
    ],
    ['is empty', (pack) => ({ ...pack, rows: '[]' })],
  ])('are made again from their jobs where a pack %s, and lie there as before', async (_what, spoil) => {
    const before = await listed();
    const packs = await packsOf(database);
    await put(spoil(packs[3]!));
    expect(await listed()).toEqual(before);
    const after = await packsOf(database);
    expect(after.length).toBe(packs.length);
    for (const [place, pack] of after.entries())
      expect(idsIn(pack).toSorted()).toEqual(idsIn(packs[place]!).toSorted());
  });

  test('are whole again after an entry went into a damaged pack', async () => {
    const pack = (await packsOf(database)).find((one) => idsIn(one).length > 1)!;
    const [first] = idsIn(pack);
    await put({ id: pack.id });
    await store.addEntries(first!, [note('later', 400)]);
    expect(new Set((await listed()).items.map(({ id }) => id))).toEqual(new Set(ROWS.map(({ id }) => id)));
  });

  test('are all shown where they cannot be written back', async () => {
    await put({ id: (await packsOf(database))[0]!.id });
    const full = { ...database, write: async () => failed(problem('storage.full')) };
    expect((await listed(jobStore(full))).items).toEqual(ROWS);
  });

  test('hold every job of any id once, whatever was damaged between', async () => {
    const id = fc.string({ minLength: 1, maxLength: 4 });
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(id, fc.boolean()), { maxLength: 12 }), async (steps) => {
        freshIndexedDb();
        database = await opened('jobs');
        const jobs = jobStore(database);
        for (const [one, damage] of steps) {
          if (damage) await put({ id: packIdOf(one), rows: 'no' });
          else await jobs.put(job([], { id: one }));
        }
        const wanted = new Set(steps.flatMap(([one, damage]) => (damage ? [] : [one])));
        expect((await listed(jobs)).items.map((row) => row.id).toSorted()).toEqual([...wanted].toSorted());
      }),
      { numRuns: 40 },
    );
  });
});

/** The row that the version before wrote for JOB_V1, one document a job. Golden: written by hand from the fields of the job. */
const ROW_V1: JobSummary = {
  formatVersion: 1,
  id: 'job-1',
  createdAt: '2026-11-25T08:00:00.000Z',
  updatedAt: '2026-11-25T08:12:00.000Z',
  scenarioId: null,
  state: 'open',
  revision: 2,
  decision: null,
  unitNumber: 'T-12',
  vin: '',
  engineFamily: '',
  serialNumber: '',
  customer: '',
  complaint: '',
  technician: '',
  codes: ['157/18'],
};

test('a database of version 3, one document a row, shows the same list in this version', async () => {
  freshIndexedDb();
  const before = await opened('jobs', UPGRADES.slice(0, 3));
  await before.write(['jobs', 'jobSummaries'], async (tx) => {
    await tx.put('jobs', JOB_V1);
    await tx.put('jobSummaries', ROW_V1);
    return ok(undefined);
  });
  before.close();
  const now = await opened('jobs');
  expect(await packsOf(now)).toEqual([]);
  expect(await listed(jobStore(now))).toEqual({ items: [ROW_V1], damaged: [] });
  expect(await packsOf(now)).toEqual([
    {
      id: packIdOf('job-1'),
      formatVersion: 1,
      rows: '[[1,"job-1","2026-11-25T08:00:00.000Z","2026-11-25T08:12:00.000Z",null,"open",2,null,"T-12","","","","","","",["157/18"]]]',
    },
  ]);
  expect(await jobStore(now).get('job-1')).toEqual(ok(JOB_V1 as unknown as StoredJob));
});
