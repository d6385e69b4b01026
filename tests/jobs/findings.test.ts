import { describe, expect, test } from 'vitest';
import { findingsOf } from '../../src/jobs/findings.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { jobValues } from '../../src/jobs/job-values.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { workEffects } from '../../src/jobs/work-effects.ts';
import { at, job, observation, PROCEDURE, run, work } from './example-job.ts';

const found = (check: string, runs: readonly StoredRun[], entries: readonly JobEntry[] = []) =>
  findingsOf(PROCEDURE, jobValues(job(entries)), runs).find(({ checkId }) => checkId === check)!;
const fail = (id: string, minute: number, value: number) => run(id, minute, { word: 'fail low', value });
const pass = (id: string, minute: number, value: number) => run(id, minute, { word: 'pass', value });

describe('the finding of a check', () => {
  test('is there for each check in order, and empty without a run', () => {
    expect(findingsOf(PROCEDURE, jobValues(job()), []).map(({ checkId }) => checkId)).toEqual([
      'look',
      'supply',
      'return',
    ]);
    expect(found('return', [])).toEqual({
      checkId: 'return',
      word: null,
      leaning: null,
      dataLost: false,
      confidence: null,
      runs: 0,
      runsNeeded: 2,
      skipped: null,
      repeatBecause: null,
      causes: [],
    });
  });

  test('of one run is its verdict, and says how many runs are missing', () => {
    expect(found('return', [fail('a', 3, 100)])).toMatchObject({
      word: 'fail low',
      runs: 1,
      runsNeeded: 2,
      confidence: 0.99,
    });
  });

  // Repeatable within the larger of 10 % of the mean and 2 graduations of 10 mL (measurement.md 7): at a mean of 300 that is 30 mL.
  test.each([
    ['agree', [fail('a', 3, 285), fail('b', 4, 315)], 'fail low'],
    ['lie too far apart', [fail('a', 3, 284), fail('b', 4, 316)], 'disagree'],
    ['have two verdicts', [fail('a', 3, 300), pass('b', 4, 301)], 'disagree'],
  ])('of two runs that %s', (_what, runs, word) => {
    expect(found('return', runs)).toMatchObject({ word, runs: 2 });
  });

  test('passes over runs that are left out, abandoned, not graded or not valid', () => {
    const out: JobEntry = { atIso: at(9), kind: 'run-left-out', runId: 'b', leftOut: true, reason: 'spilt' };
    const runs = [
      fail('a', 3, 300),
      pass('b', 4, 900),
      { ...pass('c', 5, 900), state: 'abandoned' as const },
      run('d', 6, null),
      run('e', 7, { word: 'not valid', value: 900 }),
    ];
    expect(found('return', runs, [out])).toMatchObject({ word: 'fail low', runs: 1 });
    expect(found('return', [runs[4]!])).toMatchObject({ word: 'not valid', runs: 0 });
  });

  test('is to be repeated after work at its station, and stands by the runs after it alone', () => {
    const before = [fail('a', 3, 300), fail('b', 4, 300)];
    const stale = found('return', before, [work(5)]);
    expect(stale).toMatchObject({ word: 'fail low', runs: 0 });
    expect(stale.repeatBecause).toBe('a part was replaced after its last run: pumping element');
    expect(found('return', [...before, pass('c', 6, 600)], [work(5)])).toMatchObject({
      word: 'pass',
      runs: 1,
      repeatBecause: null,
    });
    expect(found('supply', [{ ...pass('s', 3, 1), check: 'supply' }], [work(5)]).repeatBecause).toBeNull();
    expect(found('return', [], [work(5)]).repeatBecause).toBeNull();
  });

  test('is to be repeated where the cause of the work names it, and not once the work is withdrawn', () => {
    const drained = work(5, { station: 'tank', what: 'other', part: 'fuel drained', cause: 'water' });
    const supply = [{ ...pass('s', 3, 1), check: 'supply' }];
    expect(found('supply', supply, [drained]).repeatBecause).toBe(
      'work was done after its last run (fuel drained)',
    );
    const back: JobEntry = { atIso: at(6), kind: 'work-withdrawn', workId: 'work-5', reason: 'mistyped' };
    expect(found('supply', supply, [drained, back]).repeatBecause).toBeNull();
    const leftOut: JobEntry = { atIso: at(7), kind: 'run-left-out', runId: 's2', leftOut: true, reason: 'r' };
    const again = [...supply, { ...pass('s2', 6, 1), check: 'supply' }];
    expect(found('supply', again, [drained]).repeatBecause).toBeNull();
    expect(found('supply', again, [drained, leftOut]).repeatBecause).not.toBeNull();
  });

  test('of an inspection is what was seen last, with the causes of the points not in order', () => {
    const look = (id: string, minute: number, ...entries: StoredRun['entries']) =>
      run(id, minute, { word: 'fail low', value: null }, { check: 'look', kind: 'inspection', entries });
    const first = look('a', 3, observation('water', 'not in order', 3), observation('level', 'in order', 3));
    const both = look(
      'b',
      4,
      observation('water', 'not in order', 4),
      observation('colour', 'not in order', 4),
    );
    expect(found('look', [first]).causes).toEqual(['water']);
    expect(found('look', [both]).causes).toEqual(['water']);
    const clear = { ...look('c', 5, observation('water', 'in order', 5)), verdict: pass('x', 1, 1).verdict };
    expect(found('look', [first, clear])).toMatchObject({ word: 'pass', causes: [], runs: 2 });
  });

  test('says why a check was left out', () => {
    const skip: JobEntry = {
      atIso: at(1),
      kind: 'skip',
      checkId: 'supply',
      skipped: true,
      reason: 'no port',
    };
    expect(found('supply', [], [skip]).skipped).toBe('no port');
  });
});

describe('what a work changed', () => {
  const effects = (runs: readonly StoredRun[], entries: readonly JobEntry[]) =>
    workEffects(PROCEDURE, jobValues(job(entries)), runs);

  test('is the difference of the runs on both sides of it, with its uncertainty', () => {
    const runs = [fail('a', 3, 100), pass('b', 6, 200)];
    const [effect, ...more] = effects(runs, [work(5)]);
    expect(more).toEqual([]);
    expect(effect).toMatchObject({
      checkId: 'return',
      quantity: 'volume',
      work: { part: 'pumping element' },
    });
    // Both uncertainties are 2 mL: combined 2·√2 (JCGM 100, 5.1.2).
    expect(effect?.change).toMatchObject({ difference: 100, moreThanChance: true, spreadKnown: false });
    expect(effect?.change?.standardUncertainty).toBeCloseTo(2 * Math.SQRT2, 12);
  });

  test('is open until the check was repeated, and tells two works apart', () => {
    expect(effects([fail('a', 3, 100)], [work(5)])).toMatchObject([{ after: [], change: null }]);
    const runs = [fail('a', 3, 100), fail('b', 6, 110), pass('c', 8, 200)];
    const two = effects(runs, [work(5), work(7, { part: 'pump' })]);
    expect(two.map(({ change }) => change?.difference)).toEqual([10, 90]);
    expect(effects([], [work(5)])).toEqual([]);
  });

  test('is not said in numbers where the sides measured different quantities, or kept no uncertainty', () => {
    const rate = { ...pass('b', 6, 200) };
    const other = { ...rate, valueSummary: { ...rate.valueSummary!, quantity: 'rate' as const } };
    expect(effects([fail('a', 3, 100), other], [work(5)])).toMatchObject([{ quantity: null, change: null }]);
    const volume = { atIso: at(3), reason: '', kind: 'volume' as const, readingsMl: [100], typed: '100' };
    const old = { ...fail('a', 3, 100), valueSummary: null, entries: [volume] };
    expect(effects([old, rate], [work(5)])).toMatchObject([{ quantity: 'volume', change: null }]);
  });
});
