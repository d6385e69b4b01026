import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'papaparse';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { SHIPPED_CASE_SETS } from '../../src/training/library.ts';
import { mergeResults } from '../../src/training/merge-results.ts';
import { readResults, writeResults } from '../../src/training/result-exchange.ts';
import { CSV_COLUMNS, resultsCsv } from '../../src/training/results-csv.ts';
import type { TrainingResult } from '../../src/training/training-result.ts';
import { trainingStore } from '../../src/training/training-store.ts';
import { caseScenarioId } from '../../src/training/case-id.ts';
import { setOf } from './example-sets.ts';

export const resultWith = (change: Partial<TrainingResult> = {}): TrainingResult => ({
  formatVersion: 1,
  id: 'job-1',
  setId: 'first-steps',
  setTitle: 'First steps',
  setFingerprint: '0123abcd',
  level: 'first steps',
  seed: 4711,
  trainee: 'A. Trainee',
  begunAt: '2026-11-25T08:00:00.000Z',
  endedAt: '2026-11-25T10:00:00.000Z',
  ended: 'concluded',
  truth: [{ kind: 'air leak', severity: 0.75 }],
  named: 'air',
  decided: 'repair now',
  cause: 'right',
  station: 'right',
  decision: 'right',
  runs: 6,
  runsNotValid: 1,
  checksLeftOut: 0,
  partsReplaced: 1,
  partsNotAtFault: 0,
  minutes: 180,
  partPoints: 4,
  shortestMinutes: 140,
  shortestPartPoints: 4,
  ...change,
});

describe('as CSV', () => {
  const cells = (csv: string) => parse<string[]>(csv.replace(/^\uFEFF/, ''), { skipEmptyLines: true }).data;

  test('has a header and a row for each result, read by another reader', () => {
    const [head, row] = cells(resultsCsv([resultWith()])) as [string[], string[]];
    expect(head).toEqual(CSV_COLUMNS);
    const of = (name: string) => row[head.indexOf(name)];
    expect(of('trainee')).toBe('A. Trainee');
    expect(of('what was wrong')).toBe('air leak');
    expect(of('severity')).toBe('0.75');
    expect(of('minutes')).toBe('180');
  });

  test('says nothing was wrong where nothing was', () => {
    expect(resultsCsv([resultWith({ truth: [] })])).toContain(',nothing,');
  });

  test.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '\t=1+1',
    '\r=1+1',
    '\n=1',
    '  =cmd|x',
    '\uFEFF=1',
    '\u200B=1',
    '＝1+1',
    '%0a=1',
    '|calc',
  ])('never lets %j run as a formula', (trainee) => {
    const [, row] = cells(resultsCsv([resultWith({ trainee })])) as [string[], string[]];
    expect(row[0]).toBe(`'${trainee}`);
  });

  test('whatever is typed: as many cells in each row, and no cell that begins a formula', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 30 }), fc.string(), (trainee, named) => {
        const rows = cells(resultsCsv([resultWith({ trainee, named }), resultWith()]));
        expect(rows).toHaveLength(3);
        for (const row of rows) {
          expect(row).toHaveLength(CSV_COLUMNS.length);
          for (const cell of row) expect(cell).not.toMatch(/^\s*[=+\-@]/);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('as JSON', () => {
  test('come back as they were', () => {
    const results = [resultWith(), resultWith({ id: 'job-2', ended: 'given up', decided: null })];
    expect(readResults(writeResults(results))).toEqual({ ok: true, value: results });
  });

  test.each([
    ['no JSON', 'trainee,set', 'it is no JSON text'],
    ['a case set', JSON.stringify(setOf()), 'format'],
    ['a damaged row', writeResults([{ ...resultWith(), minutes: -1 }]), 'results.0.minutes'],
  ])('%s is refused with its place', (_what, text, place) => {
    const read = readResults(text);
    expect(read).toMatchObject({ ok: false, problem: { code: 'training.not-results' } });
    expect(!read.ok && String(read.problem.context['detail'])).toContain(place);
  });
});

describe('of several machines', () => {
  test('lie in one table, oldest end first; what is here already is passed over', () => {
    const early = resultWith({ id: 'early', endedAt: '2026-11-25T09:00:00.000Z' });
    const merged = mergeResults([resultWith()], [early, resultWith()]);
    expect(merged.all.map(({ id }) => id)).toEqual(['early', 'job-1']);
    expect(merged.added).toEqual([early]);
    expect(merged.same).toBe(1);
  });

  test('with the same id and other content both stay', () => {
    const other = resultWith({ trainee: 'B. Trainee' });
    const merged = mergeResults([resultWith()], [other]);
    expect(merged.all.map(({ id, trainee }) => [id, trainee])).toEqual([
      ['job-1', 'A. Trainee'],
      ['job-1#2', 'B. Trainee'],
    ]);
    expect(mergeResults(merged.all, [other, resultWith()]).added).toEqual([]);
  });

  test('whatever the order of files, nothing is lost and nothing doubled', () => {
    const some = fc.array(
      fc.record({ id: fc.constantFrom('a', 'b'), trainee: fc.constantFrom('X', 'Y', 'Z') }),
      { maxLength: 6 },
    );
    const content = (results: readonly TrainingResult[]) =>
      results.map(({ id, trainee }) => `${id.replace(/#\d+$/, '')} ${trainee}`).toSorted();
    fc.assert(
      fc.property(some, some, (first, second) => {
        const [a, b] = [first, second].map((each) => each.map(resultWith)) as [
          TrainingResult[],
          TrainingResult[],
        ];
        const ab = mergeResults(mergeResults([], a).all, b).all;
        const ba = mergeResults(mergeResults([], b).all, a).all;
        const wanted = [...new Set([...content(a), ...content(b)])].toSorted();
        expect(content(ab)).toEqual(wanted);
        expect(content(ba)).toEqual(wanted);
        expect(new Set(ab.map(({ id }) => id)).size).toBe(ab.length);
      }),
      { numRuns: 200 },
    );
  });
});

describe('the store', () => {
  const store = () => trainingStore(memoryDatabase(), SHIPPED_CASE_SETS);

  test('gives the shipped sets, then those that were brought', async () => {
    const training = store();
    expect(await training.addSet(setOf())).toEqual({ ok: true, value: undefined });
    const listed = await training.sets();
    expect(listed.ok && listed.value.sets.map(({ id }) => id)).toEqual([
      ...SHIPPED_CASE_SETS.map(({ id }) => id),
      'small-set',
    ]);
  });

  test('takes the same set twice, and never replaces one by another', async () => {
    const training = store();
    await training.addSet(setOf());
    expect((await training.addSet(setOf())).ok).toBe(true);
    for (const other of [setOf({ about: 'Other.' }), setOf({ id: SHIPPED_CASE_SETS[0]!.id })])
      expect(await training.addSet(other)).toMatchObject({
        ok: false,
        problem: { code: 'training.set-kept' },
      });
    const found = await training.caseOf(caseScenarioId(setOf(), 3));
    expect(found.ok && found.value.set.about).toBe('For tests.');
  });

  test('says that the set of a case is missing', async () => {
    expect(await store().caseOf(caseScenarioId(setOf(), 3))).toMatchObject({
      problem: { code: 'training.set-missing' },
    });
  });

  test('keeps the first end of a case, whatever comes later', async () => {
    const training = store();
    expect(await training.resultOf('job-1')).toEqual({ ok: true, value: null });
    await training.end(resultWith({ ended: 'given up' }));
    const again = await training.end(resultWith({ ended: 'concluded' }));
    expect(again.ok && again.value.ended).toBe('given up');
    const kept = await training.resultOf('job-1');
    expect(kept.ok && kept.value?.ended).toBe('given up');
  });

  test('brings results of another machine beside its own', async () => {
    const training = store();
    await training.end(resultWith());
    await training.bring([resultWith({ trainee: 'B. Trainee' }), resultWith()]);
    const listed = await training.results();
    expect(listed.ok && listed.value.items.map(({ trainee }) => trainee)).toEqual([
      'A. Trainee',
      'B. Trainee',
    ]);
  });
});
