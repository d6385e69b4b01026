import { describe, expect, test } from 'vitest';
import { jobValues } from '../../src/jobs/job-values.ts';
import { at, conclusion, field, job, note, reopened, run, signed, work } from './example-job.ts';

const values = (...entries: Parameters<typeof job>[0] & object) => jobValues(job(entries));

describe('what holds in a job', () => {
  test('is open, revision 1 and empty at the start', () => {
    expect(values()).toMatchObject({ state: 'open', revision: 1, conclusion: null, works: [], notes: [] });
  });

  test('takes what was typed before what the bus says, until it is taken back', () => {
    const heard = field('vin', 'HEARD', 1, 'bus');
    expect(values(heard).fields.get('vin')).toEqual({ value: 'HEARD', from: 'bus', atIso: at(1) });
    expect(values(field('vin', 'TYPED'), heard).fields.get('vin')?.value).toBe('TYPED');
    expect(values(field('vin', 'TYPED'), heard, field('vin', '')).fields.get('vin')?.value).toBe('HEARD');
    expect(values(field('vin', 'TYPED'), field('vin', '')).fields.has('vin')).toBe(false);
  });

  test('keeps the last codes of each kind', () => {
    const codes = (spn: number) => ({
      atIso: at(1),
      kind: 'typed-codes' as const,
      codes: [{ spn, fmi: 18, note: '' }],
    });
    expect(values(codes(157), codes(94)).typedCodes).toEqual([{ spn: 94, fmi: 18, note: '' }]);
    const bus = { atIso: at(2), kind: 'bus-codes' as const, active: [], previous: [] };
    expect(values(bus).busCodes).toEqual(bus);
  });

  test('leaves a check out with its reason, and takes it in again', () => {
    const skip = (skipped: boolean) => ({
      atIso: at(1),
      kind: 'skip' as const,
      checkId: 'supply',
      skipped,
      reason: 'no port',
    });
    expect(values(skip(true)).skipped.get('supply')).toBe('no port');
    expect(values(skip(true), skip(false)).skipped.size).toBe(0);
  });

  test('notes work, its priming and its withdrawal', () => {
    const primed = { atIso: at(6), kind: 'primed' as const, workId: 'work-5' };
    expect(values(work(5)).works).toEqual([{ ...work(5), primedAtIso: null }]);
    expect(values(work(5), work(7), primed).works.map(({ primedAtIso }) => primedAtIso)).toEqual([
      at(6),
      null,
    ]);
    const back = { atIso: at(8), kind: 'work-withdrawn' as const, workId: 'work-5', reason: 'other truck' };
    const after = values(work(5), primed, back);
    expect(after.works).toEqual([]);
    expect(after.withdrawnWorks).toEqual([
      { work: { ...work(5), primedAtIso: at(6) }, reason: 'other truck' },
    ]);
    expect(values(back, primed).withdrawnWorks).toEqual([]);
  });

  test('leaves runs out and counts them again', () => {
    const out = (leftOut: boolean) => ({
      atIso: at(1),
      kind: 'run-left-out' as const,
      runId: 'a',
      leftOut,
      reason: 'spilt',
    });
    expect(values(out(true)).leftOutRuns.get('a')).toBe('spilt');
    expect(values(out(true), out(false)).leftOutRuns.size).toBe(0);
  });
});

describe('the state of a job', () => {
  test('goes from open over concluded to signed, and back to open as a new revision', () => {
    expect(values(conclusion(9)).state).toBe('concluded');
    expect(values(conclusion(9), signed(10))).toMatchObject({ state: 'signed', revision: 1 });
    const again = values(conclusion(9), signed(10), reopened(11));
    expect(again).toMatchObject({ state: 'open', revision: 2, conclusion: null, signed: null });
    expect(again.earlier).toEqual([
      { revision: 1, conclusion: conclusion(9), signed: signed(10), reopened: reopened(11) },
    ]);
    expect(values(conclusion(9), reopened(10)).revision).toBe(2);
  });

  test('does not move by what cannot be', () => {
    expect(values(signed(1)).state).toBe('open');
    expect(values(reopened(1))).toMatchObject({ state: 'open', revision: 1, earlier: [] });
    expect(values(conclusion(9), signed(10), note('late')).notes).toEqual([]);
  });

  test.each([
    ['work', work(12), true],
    ['a check left out', { atIso: at(12), kind: 'skip', checkId: 'x', skipped: true, reason: 'r' }, true],
    ['a run left out', { atIso: at(12), kind: 'run-left-out', runId: 'a', leftOut: true, reason: 'r' }, true],
    ['a note', note('n', 12), false],
    ['a field', field('engineHours', '12', 12), false],
  ] as const)('after %s keeps the conclusion and says whether it is outdated', (_what, entry, outdated) => {
    const after = values(conclusion(9), entry);
    expect(after).toMatchObject({ state: 'concluded', conclusionOutdated: outdated });
    expect(values(conclusion(9), entry, conclusion(13)).conclusionOutdated).toBe(false);
  });

  test('is outdated by a run that was graded after the conclusion, not by one before or without a verdict', () => {
    const concluded = job([conclusion(9)]);
    const pass = { word: 'pass', value: 300 } as const;
    expect(jobValues(concluded, [run('a', 8, pass)]).conclusionOutdated).toBe(false);
    expect(jobValues(concluded, [run('a', 10, null)]).conclusionOutdated).toBe(false);
    expect(jobValues(concluded, [run('a', 10, pass)]).conclusionOutdated).toBe(true);
    const late = { atIso: at(11), reason: '', kind: 'note' as const, text: 'corrected' };
    expect(jobValues(concluded, [run('a', 8, pass, { entries: [late] })]).conclusionOutdated).toBe(true);
  });
});
