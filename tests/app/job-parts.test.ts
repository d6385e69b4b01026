import { describe, expect, test } from 'vitest';
import { changeRows } from '../../src/app/job-changes.ts';
import { marginalCaveat, suggestionView } from '../../src/app/job-conclusion-view.ts';
import { nextStepView } from '../../src/app/job-evidence.ts';
import { checkRows } from '../../src/app/job-rows.ts';
import { jobSheetOf } from '../../src/app/job-sheet-of.ts';
import { viewJob, type JobView } from '../../src/app/job-view.ts';
import { newJob } from '../../src/app/new-job.ts';
import { repeatOf } from '../../src/app/new-run.ts';
import { benchOfJob, runOfJob, sheetOfJob } from '../../src/app/start-check.ts';
import { workCauses, workItems } from '../../src/app/job-work-items.ts';
import { sheetFor } from '../../src/app/sheet-for.ts';
import { tabNews, type News } from '../../src/app/tab-news.ts';
import { valueWords } from '../../src/app/value-words.ts';
import type { VerdictWord, Zone } from '../../src/grading/verdict.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import { readJob } from '../../src/jobs/read-job.ts';
import { runValues } from '../../src/jobs/run-entries.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import { DEMONSTRATION_JOB_SHEET } from '../../src/limits/demonstration-job-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';

const at = (minute: number) => `2026-11-25T08:${String(minute).padStart(2, '0')}:00.000Z`;
const bench = () => newJob({ id: 'job-1', createdAt: at(0), scenarioId: 'leaking-pump' });
const pumpReturn = checkOf(LOW_RAIL_PRESSURE, 'pump-return')!;

/** A graded run of the pump return, made by hand. */
function graded(minute: number, value: number, word: VerdictWord): StoredRun {
  const job = viewJob(bench(), []);
  const made = { id: `run-${minute}`, createdAt: at(minute), sheet: DEMONSTRATION_JOB_SHEET };
  const zones = { pass: 0, marginal: 0, 'fail low': 0, 'fail high': 0 };
  return {
    ...runOfJob(job, pumpReturn, made),
    state: 'graded',
    gradingRevision: 1,
    valueSummary: { quantity: 'volume', value, standardUncertainty: 2, step: 5, facts: [] },
    verdict: {
      word,
      leaning: word as Zone,
      confidence: 0.99,
      probabilities: zones,
      nearest: null,
      reasons: [],
      warnings: [],
      gradingRevision: 1,
    },
  };
}

const WORK: JobEntry = {
  kind: 'work',
  atIso: at(10),
  workId: 'w1',
  station: 'high-pressure pump',
  what: 'replaced',
  part: 'pump',
  cause: 'worn-elements',
  note: '',
};

/** Two runs before a new pump, two after it. */
function worked(): JobView {
  const job = bench();
  const runs = [
    graded(1, 450, 'fail high'),
    graded(2, 454, 'fail high'),
    graded(11, 180, 'pass'),
    graded(12, 182, 'pass'),
  ];
  return viewJob({ ...job, entries: [...job.entries, WORK] }, runs);
}

describe('a new job', () => {
  test('on the bench carries the complaint and the invented identity, and is a job that the store takes', () => {
    expect(readJob(bench())).toMatchObject({ ok: true });
    const { values } = viewJob(bench(), []);
    expect(values.fields.get('complaint')?.value).toMatch(/rail pressure/);
    expect(values.fields.get('serialNumber')?.value).not.toBe('');
  });

  test('of a real vehicle starts empty, on the shipped procedure', () => {
    const job = newJob({ id: 'job-2', createdAt: at(0) });
    expect(job).toMatchObject({ scenarioId: null, entries: [], procedure: { id: LOW_RAIL_PRESSURE.id } });
  });
});

describe('starting a check', () => {
  const run = { check: 'pump-return', onDate: at(0).slice(0, 10) };

  test('takes the revision that holds on the day of the run, not the one of the day the job began', () => {
    const first: LimitSheet = {
      ...DEMONSTRATION_JOB_SHEET,
      id: 'first',
      sheetId: 'first',
      invented: false,
      serialRanges: [{ from: '100', to: '200' }],
      validFrom: '2026-01-01',
    };
    const second = { ...first, id: 'second', revision: '2', replaces: 'first', validFrom: '2026-11-27' };
    const begun = newJob({ id: 'job-2', createdAt: at(0) });
    const serial = {
      kind: 'field',
      atIso: at(1),
      field: 'serialNumber',
      value: '150',
      from: 'typed',
    } as const;
    const job = viewJob({ ...begun, entries: [serial] }, []);
    const on = (onDate: string) => sheetOfJob(job, { ...run, onDate }, [first, second]).sheet?.id;
    expect([on('2026-11-25'), on('2026-11-26')]).toEqual(['first', 'first']);
    expect([on('2026-11-27'), on('2026-12-24')]).toEqual(['second', 'second']);
    // The run page asks again once the engine is known, and stays with the same one.
    const later = runOfJob(job, pumpReturn, { id: 'r', createdAt: '2026-11-27T08:00:00.000Z', sheet: null });
    const asked = { serial: '150', run: later, values: runValues(null, []) };
    expect(sheetFor([first, second], asked).take?.sheet.id).toBe('second');
  });

  test('of a bench job uses the invented sheet of bench jobs, which holds a limit for each measured check', () => {
    expect(sheetOfJob(viewJob(bench(), []), run, []).sheet).toBe(DEMONSTRATION_JOB_SHEET);
    expect(parseLimitSheet(DEMONSTRATION_JOB_SHEET)).toMatchObject({ ok: true });
    const measured = LOW_RAIL_PRESSURE.checks.filter(({ settings }) => settings.kind !== 'inspection');
    const limited = new Set(DEMONSTRATION_JOB_SHEET.limits.map(({ check }) => check));
    expect(measured.map(({ id }) => id).filter((id) => !limited.has(id))).toEqual([]);
  });

  test('of a real engine without a serial number has no sheet, and says why', () => {
    const job = viewJob(newJob({ id: 'job-2', createdAt: at(0) }), []);
    expect(sheetOfJob(job, run, [DEMONSTRATION_JOB_SHEET])).toMatchObject({ sheet: null });
    expect(sheetOfJob(job, run, []).why).toMatch(/serial number/);
  });

  test('sets the bench up with the parts that the job replaced', () => {
    expect(benchOfJob(viewJob(bench(), []), 7)).toMatchObject({ kind: 'bench', seed: 7, replaced: [] });
    expect(benchOfJob(worked(), 7)).toMatchObject({ replaced: ['high-pressure pump'] });
    expect(benchOfJob(viewJob(newJob({ id: 'job-2', createdAt: at(0) }), []), 7)).toBeNull();
  });

  test('again keeps check, sheet and job, and nothing of what was measured', () => {
    const again = repeatOf(graded(1, 450, 'fail high'), 'run-2', at(3));
    expect(again).toMatchObject({
      check: 'pump-return',
      jobId: 'job-1',
      verdict: null,
      valueSummary: null,
      entries: [],
    });
  });
});

describe('what the job page shows', () => {
  test('after two high returns the check is named, and the causes with their reasons', () => {
    const view = viewJob(bench(), [graded(1, 450, 'fail high'), graded(2, 454, 'fail high')]);
    const row = checkRows(view).find(({ checkId }) => checkId === 'pump-return');
    expect(row).toMatchObject({ word: 'fail high', runs: 2, value: '454 ± 4\u00a0mL' });
    expect(row?.runList.map(({ id }) => id)).toEqual(['run-1', 'run-2']);
    const [first] = nextStepView(view).causes;
    expect(first).toMatchObject({ id: 'worn-elements', because: [expect.stringMatching(/fail high/)] });
  });

  test('before and after a new pump stand side by side, and the difference is more than chance', () => {
    // Means 452 and 181 mL; the difference is -271 mL, many times the uncertainties of 2 mL.
    const [row] = changeRows(worked());
    expect(row).toMatchObject({ checkId: 'pump-return', chance: 'more than chance' });
    expect(row?.difference).toMatch(/^[-−]271 ± /);
    expect(row?.before).toMatchObject({ word: 'fail high', runs: 2 });
  });

  test('the printed page says what was measured against which limit, what was left out, and that it is practice', () => {
    const view = worked();
    const left: JobEntry = {
      kind: 'skip',
      atIso: at(13),
      checkId: 'filters',
      skipped: true,
      reason: 'new last week',
    };
    const sheet = jobSheetOf(viewJob({ ...view.job, entries: [...view.job.entries, left] }, view.runs));
    expect(sheet.practice).toMatch(/simulated/);
    expect(sheet.checks.find(({ title }) => title === pumpReturn.title)).toMatchObject({
      limit: 'at most 200 mL', // pump-return in demonstration-job-sheet.ts
      word: 'pass',
      state: '',
    });
    expect(sheet.checks[1]).toMatchObject({ state: 'left out', notes: ['Left out: new last week'] });
    expect(sheet.works[0]?.notes).toContain('Priming was not noted.');
    expect(sheet.conclusion).toBeNull();
  });
});

test('work stands between the runs before and after it, and names what is to be repeated until it was', () => {
  expect(workItems(worked()).map(({ id }) => id)).toEqual(['run-1', 'run-2', 'w1', 'run-11', 'run-12']);
  const job = bench();
  const before = [graded(1, 450, 'fail high'), graded(2, 454, 'fail high')];
  const view = viewJob({ ...job, entries: [...job.entries, WORK] }, before);
  expect(workItems(view).at(-1)).toMatchObject({ repeat: [pumpReturn.title], primed: null, withdrawn: null });
  const out: JobEntry = { kind: 'work-withdrawn', atIso: at(11), workId: 'w1', reason: 'not done' };
  const withdrawn = viewJob({ ...job, entries: [...job.entries, WORK, out] }, before);
  expect(workItems(withdrawn).at(-1)).toMatchObject({ id: 'w1', repeat: [], withdrawn: 'not done' });
  expect(workItems(viewJob(job, before))).toEqual([]);
  expect(workCauses(view)[0]?.id).toBe(view.next.causes[0]?.causeId);
});

test('a marginal result says what it means under full load and what it does not, each kind of check once', () => {
  const marginal = [graded(1, 290, 'marginal'), graded(2, 292, 'marginal')];
  const view = viewJob(bench(), marginal);
  const [caveat, ...others] = marginalCaveat(view);
  expect(others).toEqual([]);
  expect(caveat).toMatch(/Under full load the rail pressure is higher/);
  expect(caveat).toMatch(/does not prove wear/);
  expect(suggestionView(view)).toMatchObject({ decision: 'run on and watch' });
  expect(suggestionView(view).sentences.join(' ')).not.toMatch(/full load/);
  expect(jobSheetOf(view).caveat).toBe(caveat);
  expect(marginalCaveat(worked())).toEqual([]);
});

test('values are said in the unit in which they are read, with two standard uncertainties', () => {
  const summary = { standardUncertainty: 40, step: 0, facts: [] };
  expect(valueWords({ ...summary, quantity: 'time', value: 1240 })).toBe('1.24 ± 0.08\u00a0s');
  expect(valueWords({ ...summary, quantity: 'pressure', value: 1240, standardUncertainty: 0 })).toMatch(
    /240\u00a0kPa$/,
  );
  expect(valueWords({ ...summary, quantity: 'pressure', value: null })).toBe('');
  expect(valueWords(null)).toBe('');
});

test('tabs hear of each other what was kept, of runs also of their own, and nonsense on the channel is not heard', () => {
  const heard: News[] = [];
  const sent: unknown[] = [];
  const listeners = new Set<(event: { readonly data: unknown }) => void>();
  const news = tabNews({
    postMessage: (message) => void sent.push(message),
    addEventListener: (_type, listener) => void listeners.add(listener),
    removeEventListener: (_type, listener) => void listeners.delete(listener),
    close: () => undefined,
  });
  const watching = news.news$.subscribe((each) => heard.push(each));
  news.tell({ kind: 'job', id: 'job-1', jobId: 'job-1' });
  news.tell({ kind: 'run', id: 'own-run', jobId: 'job-1' });
  for (const data of [{ kind: 'run', id: 'run-1', jobId: 'job-1' }, 'hello', null, { kind: 'job' }])
    listeners.forEach((listener) => listener({ data }));
  watching.unsubscribe();
  expect(sent).toHaveLength(2);
  expect(heard.map(({ id }) => id)).toEqual(['own-run', 'run-1']);
  expect(listeners.size).toBe(0);
});
