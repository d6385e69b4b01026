import { bench, describe } from 'vitest';
import { searchJobs, searchRows } from '../../src/jobs/job-search.ts';
import { jobStore } from '../../src/jobs/job-store.ts';
import { summaryOf } from '../../src/jobs/job-summary.ts';
import { readJob } from '../../src/jobs/read-job.ts';
import { ok } from '../../src/problems/result.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { fill, MANY, manyJob } from './many-jobs.ts';

freshIndexedDb();
const database = await opened('many');
await fill(database);
const store = jobStore(database);
const rows = searchRows(Array.from({ length: MANY }, (_, n) => summaryOf(manyJob(n))));

async function listing(): Promise<void> {
  const all = await store.summaries();
  if (!all.ok || all.value.items.length !== MANY) throw new Error('rows are missing');
}

/** What one writes first: every whole job, each folded. */
async function wholeJobs(): Promise<void> {
  const all = await database.read(['jobs'], async (tx) => ok(await tx.list('jobs')));
  if (!all.ok) throw new Error(all.problem.code);
  const items = all.value.map((document) => {
    const read = readJob(document);
    return read.ok ? summaryOf(read.value) : null;
  });
  if (items.length !== MANY) throw new Error('jobs are missing');
}

// fake-indexeddb copies in JavaScript: times in a browser are printed by job-list.browser.test.ts. Target there: 300 ms and 100 ms.
describe(`the list of ${MANY} jobs`, () => {
  bench('rows', listing, { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 });
  bench('whole jobs', wholeJobs, { iterations: 3, time: 0, warmupIterations: 0, warmupTime: 0 });
});

describe(`the search of ${MANY} jobs`, () => {
  bench('made ready once', () => void searchRows(rows.map(({ summary }) => summary)));
  bench('one unit', () => void searchJobs(rows, 'T-4711'));
  bench('three words of the texts', () => void searchJobs(rows, 'muller stalls week'));
  bench('nothing found', () => void searchJobs(rows, 'zzz'));
});
