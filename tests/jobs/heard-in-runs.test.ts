import { beforeEach, describe, expect, test } from 'vitest';
import { heardInRuns } from '../../src/jobs/heard-in-runs.ts';
import { jobStore } from '../../src/jobs/job-store.ts';
import { jobValues } from '../../src/jobs/job-values.ts';
import type { JobEntry } from '../../src/jobs/job-entry.ts';
import type { IdentityField, RunEntry } from '../../src/jobs/run-entry.ts';
import { runStore } from '../../src/jobs/run-store.ts';
import { freshIndexedDb, opened } from '../storage/fixtures.ts';
import { at, conclusion, field, job, run, signed } from './example-job.ts';

/** Addresses: 0 engine 1, 1 engine 2, 11 brakes (SAE J1939-81, preferred addresses); channel 1 begins at 256. */
const BRAKES = 0x0b;

const says = (
  name: IdentityField,
  value: string,
  { origin = 0, from = 'bus' }: { origin?: number | null; from?: 'bus' | 'typed' } = {},
): RunEntry => ({ atIso: at(3), reason: '', kind: 'identity', field: name, value, from, origin });

const OFF = { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' } as const;
const report = (origin: number, spns: readonly number[], occurrences = 1) => ({
  origin,
  atMs: 1000,
  lamps: OFF,
  codes: spns.map((spn) => ({ spn, fmi: 1, occurrences, otherSpns: [] })),
});
const codes = (minute: number, ...active: ReturnType<typeof report>[]): RunEntry => ({
  atIso: at(minute),
  reason: '',
  kind: 'codes',
  active,
  previous: [],
});
const heard = (...entries: RunEntry[]) => ({ entries });
const taken = (name: Parameters<typeof field>[0], value: string): JobEntry => field(name, value, 9, 'bus');
const now = at(9);

describe('what the runs of a job heard', () => {
  test('is entered field by field, in the order of the runs, each value once', () => {
    const runs = [
      heard(says('serialNumber', 'A100'), says('vin', '1M8GDM9AXKP042788')),
      heard(says('serialNumber', 'A100'), says('unitNumber', '12'), says('engineHours', '8123.5')),
    ];
    expect(heardInRuns(job(), runs, now)).toEqual([
      taken('serialNumber', 'A100'),
      taken('vin', '1M8GDM9AXKP042788'),
      taken('unitNumber', '12'),
      taken('engineHours', '8123.5'),
    ]);
  });

  test('is not entered again where the job has it, whatever was said since', () => {
    const entries = [taken('serialNumber', 'A100'), taken('serialNumber', 'B200')];
    const runs = [heard(says('serialNumber', 'A100')), heard(says('serialNumber', 'B200'))];
    expect(heardInRuns(job(entries), runs, now)).toEqual([]);
    expect(heardInRuns(job(entries), [...runs, heard(says('serialNumber', 'C300'))], now)).toEqual([
      taken('serialNumber', 'C300'),
    ]);
  });

  test.each([
    ['the brakes', says('serialNumber', 'A100', { origin: BRAKES })],
    ['the brakes on channel 1', says('vin', 'A100', { origin: 256 + BRAKES })],
    ['a source without addresses', says('serialNumber', 'A100', { origin: -1 })],
    ['the person', says('serialNumber', 'A100', { origin: null, from: 'typed' })],
    ['nobody: an empty value', says('serialNumber', '')],
    ['the engine, of a make that the job has no field for', says('make', 'ACME')],
  ])('stays in the run where it comes from %s', (_who, entry) => {
    expect(heardInRuns(job(), [heard(entry)], now)).toEqual([]);
  });

  test('counts from engine 2 and from another channel too', () => {
    const runs = [heard(says('serialNumber', 'A100', { origin: 1 }), says('vin', 'V1', { origin: 256 }))];
    expect(heardInRuns(job(), runs, now)).toHaveLength(2);
  });

  test('leaves a field as it was typed, and holds once what was typed is taken back', () => {
    const typed = [field('serialNumber', 'TYPED', 1)];
    const entries = [...typed, ...heardInRuns(job(typed), [heard(says('serialNumber', 'A100'))], now)];
    const values = jobValues({ entries });
    expect(values.fields.get('serialNumber')).toMatchObject({ value: 'TYPED', from: 'typed' });
    expect(values.heardFields.get('serialNumber')?.value).toBe('A100');
    const taking = jobValues({ entries: [...entries, field('serialNumber', '', 10)] });
    expect(taking.fields.get('serialNumber')).toMatchObject({ value: 'A100', from: 'bus' });
  });

  test('is not entered in a signed job; a concluded one takes it and keeps its conclusion', () => {
    const runs = [heard(says('serialNumber', 'A100'))];
    const concluded = [conclusion(4)];
    expect(heardInRuns(job([...concluded, signed(5)]), runs, now)).toEqual([]);
    const entries = [...concluded, ...heardInRuns(job(concluded), runs, now)];
    expect(jobValues({ entries })).toMatchObject({ state: 'concluded', conclusionOutdated: false });
    expect(entries).toHaveLength(2);
  });
});

describe('the trouble codes that the runs of a job heard', () => {
  test('are those noted last, whichever run noted them, of the engine alone', () => {
    const runs = [heard(codes(6, report(0, [157]), report(BRAKES, [639]))), heard(codes(4, report(0, [94])))];
    expect(heardInRuns(job(), runs, now)).toEqual([
      { atIso: now, kind: 'bus-codes', active: [report(0, [157])], previous: [] },
    ]);
  });

  test('are not entered again, also where the count of occurrence went on or an older run is read', () => {
    const first = heard(codes(4, report(0, [157])));
    const entries = heardInRuns(job(), [first], at(5));
    expect(entries).toHaveLength(1);
    expect(heardInRuns(job(entries), [first], now)).toEqual([]);
    expect(heardInRuns(job(entries), [first, heard(codes(6, report(0, [157], 2)))], now)).toEqual([]);
    expect(heardInRuns(job(entries), [heard(codes(3, report(0, [94])))], now)).toEqual([]);
  });

  test('that are gone are entered as gone, and as there again when they come back', () => {
    const runs = [
      heard(codes(2, report(0, [157]))),
      heard(codes(4, report(0, []))),
      heard(codes(6, report(0, [157]))),
    ];
    const entries = [3, 5, 7].reduce<readonly JobEntry[]>(
      (before, minute, place) => [
        ...before,
        ...heardInRuns(job(before), runs.slice(0, place + 1), at(minute)),
      ],
      [],
    );
    expect(
      entries.map((entry) => entry.kind === 'bus-codes' && entry.active[0]!.codes.map(({ spn }) => spn)),
    ).toEqual([[157], [], [157]]);
  });

  test('are none where only others said anything', () => {
    expect(heardInRuns(job(), [heard(codes(6, report(BRAKES, [639])))], now)).toEqual([]);
  });
});

describe('the store', () => {
  beforeEach(() => freshIndexedDb());

  test('enters it once, also for two tabs at the same moment, and tells of a job that is not there', async () => {
    const database = await opened('heard');
    const [jobs, runs] = [jobStore(database), runStore(database)];
    await jobs.put(job());
    const begun = run('run-1', 2, null, {
      entries: [says('serialNumber', 'A100'), codes(3, report(0, [157]))],
    });
    expect((await runs.put(begun)).ok).toBe(true);
    await Promise.all([jobs.enterHeard('job-1', now), jobs.enterHeard('job-1', now)]);
    expect(await jobs.enterHeard('job-1', at(10))).toMatchObject({
      value: { updatedAt: now, entries: [{ kind: 'field', value: 'A100' }, { kind: 'bus-codes' }] },
    });
    expect(await jobs.summaries()).toMatchObject({ value: { items: [{ serialNumber: 'A100' }] } });
    expect(await jobs.enterHeard('job-2', now)).toMatchObject({ problem: { code: 'storage.not-found' } });
  });
});
