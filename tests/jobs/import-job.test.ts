import { beforeEach, describe, expect, test } from 'vitest';
import { collectJob } from '../../src/jobs/collect-job.ts';
import { importJob, weighImport } from '../../src/jobs/import-job.ts';
import { jobStore } from '../../src/jobs/job-store.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import { ok } from '../../src/problems/result.ts';
import type { Database } from '../../src/storage/database.ts';
import { header } from '../recordings/fixtures.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { codeOf, CONTENTS, photo, valueOf } from './example-file.ts';
import { conclusion, job, note, reopened, run, signed } from './example-job.ts';

describe('bringing a job file in', () => {
  let database: Database;
  let count = 0;
  const newId = () => `new-${count++}`;
  const everything = (from: Database) =>
    from.read(['jobs', 'jobSummaries', 'runs', 'recordings', 'chunks', 'photos'], async (tx) =>
      ok(
        await Promise.all(
          (['jobs', 'jobSummaries', 'runs', 'recordings', 'chunks', 'photos'] as const).map((name) =>
            tx.list(name),
          ),
        ),
      ),
    );
  beforeEach(async () => {
    freshIndexedDb();
    database = await opened('jobs');
    count = 0;
  });

  test('of an unknown job brings everything, and an export of it is the very same', async () => {
    expect(await weighImport(database, CONTENTS)).toMatchObject({
      value: { standing: 'new', choices: ['bring'] },
    });
    expect(await importJob(database, CONTENTS, 'bring', newId)).toEqual(ok(CONTENTS.job));
    const { contents, missing } = valueOf(await collectJob(database, 'job-1'));
    expect(missing).toEqual([]);
    expect(contents).toEqual(CONTENTS);
    expect(valueOf(await jobStore(database).summaries()).items).toMatchObject([{ unitNumber: 'T–12 "β"' }]);
    expect(await weighImport(database, CONTENTS)).toMatchObject({
      value: { standing: 'same', choices: [], differences: [] },
    });
  });

  test.each(['same', 'longer', 'shorter', 'conflicting'] as const)(
    'weighs one that is %s',
    async (standing) => {
      const here = { same: [], longer: [], shorter: [note('here', 9)], conflicting: [note('here', 9)] }[
        standing
      ];
      const there = { same: [], longer: [note('there', 9)], shorter: [], conflicting: [note('there', 9)] }[
        standing
      ];
      const longer = (entries: readonly ReturnType<typeof note>[]) => ({
        ...CONTENTS,
        job: job([...CONTENTS.job.entries, ...entries]),
      });
      await importJob(database, longer(here), 'bring', newId);
      const before = await everything(database);
      const weighed = valueOf(await weighImport(database, longer(there)));
      expect(weighed.standing).toBe(standing);
      expect(weighed.differences).toEqual([
        ...(there.length > 0 ? ['Only in the file: note.'] : []),
        ...(here.length > 0 ? ['Only here: note.'] : []),
      ]);
      for (const choice of (['bring', 'extend', 'copy'] as const).filter(
        (one) => !weighed.choices.includes(one),
      ))
        expect(codeOf(await importJob(database, longer(there), choice, newId))).toBe('job.import-moved');
      expect(await everything(database)).toEqual(before);
    },
  );

  test('extends ours by what the file has more, runs as well', async () => {
    await importJob(database, { ...CONTENTS, runs: CONTENTS.runs.slice(0, 1) }, 'bring', newId);
    const longer = { ...CONTENTS, job: job([...CONTENTS.job.entries, conclusion(9), signed(10)]) };
    const weighed = valueOf(await weighImport(database, longer));
    expect(weighed).toMatchObject({ standing: 'longer', choices: ['extend', 'copy'] });
    expect(weighed.differences[1]).toMatch(/^Run "Run b" of .*: only in the file\.$/);
    valueOf(await importJob(database, longer, 'extend', newId));
    expect(valueOf(await collectJob(database, 'job-1')).contents).toEqual(longer);
    const again = { ...longer, job: job([...longer.job.entries, reopened(11)]) };
    expect(await importJob(database, again, 'extend', newId)).toMatchObject({ ok: true });
  });

  test('is a conflict where one side has another run and the other another entry', async () => {
    await importJob(database, { ...CONTENTS, runs: CONTENTS.runs.slice(0, 1) }, 'bring', newId);
    const less = { ...CONTENTS, runs: [], job: job([...CONTENTS.job.entries, note('x', 9)]) };
    expect(await weighImport(database, less)).toMatchObject({
      value: { standing: 'conflicting', choices: ['copy'] },
    });
  });

  test('beside ours makes a copy with ids of its own, and ours does not move', async () => {
    const out = {
      atIso: conclusion(9).atIso,
      kind: 'run-left-out' as const,
      runId: 'a',
      leftOut: true,
      reason: 'r',
    };
    await importJob(database, CONTENTS, 'bring', newId);
    await jobStore(database).addEntries('job-1', [note('here', 9)]);
    const ours = valueOf(await collectJob(database, 'job-1')).contents;
    const theirs = { ...CONTENTS, job: job([...CONTENTS.job.entries, out]) };
    const copy = valueOf(await importJob(database, theirs, 'copy', newId));
    expect(copy).toMatchObject({ id: 'new-0', entries: { length: 4 } });
    expect(copy.entries.at(-1)).toMatchObject({ runId: 'new-1' });
    const { runs } = valueOf(await collectJob(database, 'new-0')).contents;
    expect(runs.map(({ id, jobId, recordingId }) => [id, jobId, recordingId])).toEqual([
      ['new-1', 'new-0', 'rec-1'],
      ['new-2', 'new-0', 'rec-1'],
    ]);
    expect(valueOf(await collectJob(database, 'job-1')).contents).toEqual(ours);
  });

  test.each([
    ['recording', { recordings: [header('rec-1', { closed: true, device: 'another' })] }],
    ['piece of a recording', { chunks: CONTENTS.chunks.slice(0, 1) }],
    ['photograph', { photos: [{ ...photo, bytes: Uint8Array.of(1) }] }],
  ])('with the same id on another %s is refused', async (_what, change) => {
    await importJob(database, CONTENTS, 'bring', newId);
    const before = await everything(database);
    const other = { ...CONTENTS, ...change, job: job([note('x')], { id: 'job-9' }), runs: [] };
    expect(await weighImport(database, other)).toMatchObject({
      value: { choices: [], refused: { code: 'job.other-content' } },
    });
    expect(codeOf(await importJob(database, other, 'bring', newId))).toBe('job.other-content');
    expect(await everything(database)).toEqual(before);
  });

  test('with a run that lies here in another job, or another run of that id, is no extension', async () => {
    await runStore(database).put(run('a', 3, null, { jobId: 'job-7' }));
    expect(await weighImport(database, CONTENTS)).toMatchObject({ value: { standing: 'conflicting' } });
    valueOf(await importJob(database, CONTENTS, 'copy', newId));
    expect(await runStore(database).get('a')).toMatchObject({ value: { jobId: 'job-7' } });
  });

  test('with entries that no job can have is refused whole', async () => {
    const bad = { ...CONTENTS, job: job([conclusion(1), signed(2), note('late', 3)]) };
    expect(codeOf(await importJob(database, bad, 'bring', newId))).toBe('storage.job-signed');
    expect(valueOf(await everything(database)).flat()).toEqual([]);
  });

  test('says what an export lacks', async () => {
    await importJob(database, { ...CONTENTS, photos: [], recordings: [], chunks: [] }, 'bring', newId);
    const { missing } = valueOf(await collectJob(database, 'job-1'));
    expect(missing.map(({ context }) => context['id'])).toEqual(['rec-1', 'photo-1']);
    expect(codeOf(await collectJob(database, 'job-0'))).toBe('storage.not-found');
  });
});
