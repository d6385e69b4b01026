import { describe, expect, test } from 'vitest';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { jobStore } from '../../src/jobs/job-store.ts';
import { readJob } from '../../src/jobs/read-job.ts';
import { readRun, runStore } from '../../src/jobs/run-store.ts';
import { summaryOf } from '../../src/jobs/job-summary.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { problem } from '../../src/problems/problem.ts';
import type { Database, StoreWriter } from '../../src/storage/database.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { conclusion, field, job, note, reopened, run, signed, work } from './example-job.ts';

/** What a person does in the job, one write a step. */
const STEPS: readonly ((database: Database) => Promise<unknown>)[] = [
  (database) => jobStore(database).put(job()),
  ...(
    [
      [field('unitNumber', 'T-12')],
      [field('complaint', 'stalls', 2), field('vin', 'X', 2)],
      [note('smells', 3)],
    ] satisfies JobEntry[][]
  ).map((entries) => (database: Database) => jobStore(database).addEntries('job-1', entries)),
  (database) => runStore(database).put(run('a', 4, null)),
  (database) =>
    runStore(database).addEntries('a', [
      { atIso: note('', 5).atIso, reason: '', kind: 'note', text: 'slow' },
    ]),
  (database) => jobStore(database).addEntries('job-1', [work(6)]),
  (database) => runStore(database).put(run('b', 7, { word: 'pass', value: 300 })),
  (database) => jobStore(database).addEntries('job-1', [conclusion(9), signed(10)]),
  (database) => jobStore(database).addEntries('job-1', [reopened(11), note('again', 12)]),
];

type Death = 'transaction aborted' | 'connection closed';
const STOPPED = new Error('killed');

/** A database that dies at its n-th request of any kind, counted over the whole script; `requests` says how many there were. */
function dyingAt(database: Database, at: number, death: Death) {
  let requests = 0;
  const reached = (): void => {
    if (++requests < at) return;
    if (death === 'connection closed') database.close();
    throw STOPPED;
  };
  const over = (tx: StoreWriter): StoreWriter => ({
    get: (...given) => (reached(), tx.get(...given)),
    list: (...given) => (reached(), tx.list(...given)),
    keys: (...given) => (reached(), tx.keys(...given)),
    count: (...given) => (reached(), tx.count(...given)),
    listRunsOf: (...given) => (reached(), tx.listRunsOf(...given)),
    remove: (...given) => (reached(), tx.remove(...given)),
    put: async (...given) => {
      reached();
      await tx.put(...given);
      reached(); // killed after the request, before the transaction could end
    },
  });
  const dying: Database = {
    read: (stores, work) => database.read(stores, (tx) => work(over(tx as StoreWriter))),
    write: (stores, work) =>
      requests >= at
        ? Promise.resolve(failed(problem('storage.closed')))
        : database.write(stores, (tx) => work(over(tx))),
    close: () => database.close(),
  };
  return { dying, count: () => requests };
}

/** Everything that lies there, as it lies there. */
async function lying(database: Database): Promise<string> {
  const all = await database.read(['jobs', 'jobSummaries', 'runs'], async (tx) =>
    ok([await tx.list('jobs'), await tx.list('jobSummaries'), await tx.list('runs')]),
  );
  if (!all.ok) throw new Error(all.problem.code);
  const [jobs, packs, runs] = all.value as [unknown[], { rows: string }[], unknown[]];
  const rows = packs.flatMap(({ rows }) => JSON.parse(rows) as unknown[]);
  const wanted = jobs.map((document) => {
    const read = readJob(document);
    return read.ok ? Object.values(summaryOf(read.value)) : read;
  });
  expect(rows).toEqual(wanted);
  expect(runs.every((document) => readRun(document).ok)).toBe(true);
  return JSON.stringify(all.value);
}

/** The states between the steps of a script that nothing disturbs, and how many requests it makes. */
async function wholeStates(): Promise<{ states: readonly string[]; requests: number }> {
  freshIndexedDb();
  const database = await opened('jobs');
  const { dying, count } = dyingAt(database, Infinity, 'transaction aborted');
  const states = [await lying(database)];
  for (const step of STEPS) {
    await step(dying);
    states.push(await lying(database));
  }
  return { states, requests: count() };
}

/** Seeded, so that a failure can be had again: a linear congruential generator (constants of Numerical Recipes, from memory). */
function* draws(seed: number): Generator<number> {
  for (let state = seed; ;) yield (state = (1_664_525 * state + 1_013_904_223) >>> 0) / 2 ** 32;
}

describe('a job that is killed at any point', () => {
  test('lies there as after one of its steps, fifty times over, and goes on from there', async () => {
    const { states, requests } = await wholeStates();
    expect(new Set(states).size).toBe(STEPS.length + 1);
    expect(requests).toBeGreaterThan(40);
    const chance = draws(20_261_125);
    const reached = new Set<number>();
    for (let round = 0; round < 50; round++) {
      const at = 1 + Math.floor(chance.next().value! * requests);
      const death: Death = round % 2 === 0 ? 'transaction aborted' : 'connection closed';
      freshIndexedDb();
      const first = await opened('jobs');
      const { dying } = dyingAt(first, at, death);
      let done = 0;
      for (const step of STEPS) {
        const outcome = (await step(dying)) as { ok: boolean };
        if (!outcome.ok) break;
        done++;
      }
      first.close();
      const again = await opened('jobs');
      const place = states.indexOf(await lying(again));
      // Whole, with every step that answered ok, and never more than was begun.
      expect(place, `${death} at request ${at}`).toBe(done);
      reached.add(place);
      for (const step of STEPS.slice(done)) await step(again);
      expect(await lying(again)).toBe(states.at(-1));
      again.close();
    }
    expect(reached.size).toBeGreaterThan(5);
  }, 60_000);
});
