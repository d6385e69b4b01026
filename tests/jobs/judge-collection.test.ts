import { describe, expect, it } from 'vitest';
import type { CollectedVolumeSettings } from '../../src/checks/check-settings.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import type { RunValues } from '../../src/jobs/run-entries.ts';
import { fromPrinted } from '../../src/limits/printed-unit.ts';
import { entryOf } from '../checks/example-cranks.ts';
import { codesOf, sampled, signalsFrom } from '../checks/example-signals.ts';
import { judgeExample, sheetOf, typedValue, typedVolumeMl } from './example-checks.ts';

const SETTINGS: CollectedVolumeSettings = {
  kind: 'collected volume',
  seconds: 30,
  startedBy: 'hand',
  trigger: null,
  speed: null,
  holds: null,
};
const MINUTE = 60_000;
const typed = (volumeMl: number, collectedMs: number | null): Partial<RunValues> => ({
  vessel: vesselById('cylinder-500'),
  collectedMs,
  ...typedVolumeMl(volumeMl),
});
const aside = (code: string, reason: string) => ({ overrides: new Map([[code, reason]]) });
const judge = (values: Partial<RunValues>, sheet = sheetOf('volume', 125, 525)) =>
  judgeExample(SETTINGS, sheet, {}, { values });

describe('the time that a collection is asked for', () => {
  // 30 s ± 5 % is 28.5 s to 31.5 s.
  it.each([
    [28_499, false],
    [28_500, true],
    [31_500, true],
    [31_501, false],
  ])('is that of the check where the limit states none: %i ms is in order: %s', (ms, inOrder) => {
    const { verdict } = judge(typed(300, ms));
    expect(codesOf(verdict?.reasons ?? [])).toEqual(inOrder ? [] : ['check.time-outside']);
  });

  it('is that of the limit where it states one', () => {
    const minute = sheetOf('volume', 125, 525, { durationSeconds: 60 });
    expect(judge(typed(300, MINUTE), minute).verdict?.word).toBe('pass');
    expect(codesOf(judge(typed(300, 30_000), minute).verdict?.reasons ?? [])).toEqual(['check.time-outside']);
  });

  it('is none of a flow: 300 mL in 47 s are 382.98 mL/min', () => {
    const { verdict, valueSummary } = judge(typed(300, 47_000), sheetOf('rate', null, 600));
    expect(verdict?.word).toBe('pass');
    expect(valueSummary?.value).toBeCloseTo(382.979, 3);
    // One mark of 5 mL in 47 s: 5 · 60/47 = 6.383 mL/min.
    expect(valueSummary?.step).toBeCloseTo(6.383, 3);
  });

  it('missing is said by what the clock says, once', () => {
    const watch = (endMs: number | null) =>
      ({
        kind: 'stopwatch',
        clock: 'wall',
        startMs: 1000,
        endMs,
        by: 'hand',
        atIso: '2026-01-02T10:00:00Z',
        reason: '',
      }) as const;
    const values = { ...typed(300, null), stopwatch: watch(null) };
    expect(codesOf(judge(values).verdict?.reasons ?? [])).toEqual(['check.clock-running']);
    expect(codesOf(judge({ ...values, stopwatch: watch(500) }).verdict?.reasons ?? [])).toEqual([
      'check.clock-reversed',
    ]);
    expect(codesOf(judge(typed(300, null)).verdict?.reasons ?? [])).toEqual(['check.no-time']);
  });
});

describe('what a person sets aside in a collection', () => {
  // 240 mL in 24 s are 300 mL in 30 s; parts grow with it by 30/24.
  it('a wrong time stands with a reason, graded on the volume scaled to 30 s', () => {
    const { verdict, valueSummary } = judge({
      ...typed(240, 24_000),
      ...aside('check.time-outside', 'vessel full'),
    });
    expect(verdict).toMatchObject({ word: 'pass', reasons: [], nearest: { distance: 300 - 125 } });
    expect(valueSummary).toMatchObject({ value: 300, facts: [{ name: 'volume as read', value: 240 }] });
    expect(codesOf(verdict?.warnings ?? [])).toEqual(
      expect.arrayContaining(['check.time-outside', 'check.overridden', 'check.scaled-estimate']),
    );
  });

  it('a clock that ran for 31 min stands with a reason, and without one it does not', () => {
    const slow = sheetOf('rate', null, 600);
    const long = typed(300, 31 * MINUTE);
    expect(codesOf(judge(long, slow).verdict?.reasons ?? [])).toEqual(['check.clock-too-long']);
    const kept = judge(
      { ...long, ...aside('check.clock-too-long', 'a slow drip, timed on purpose') },
      slow,
    ).verdict;
    expect(kept).toMatchObject({ word: 'pass', reasons: [] });
    expect(codesOf(kept?.warnings ?? [])).toEqual(['check.clock-too-long', 'check.overridden']);
    const blank = judge({ ...long, ...aside('check.clock-too-long', '  ') }, slow).verdict;
    expect(codesOf(blank?.reasons ?? [])).toEqual(['check.clock-too-long', 'check.override-without-reason']);
  });

  it('an engine that started while cranking cannot be set aside', () => {
    const cranks = [entryOf(15), entryOf(15, { found: { endedBy: 'engine started' } })];
    const values = { ...typed(300, null), ...aside('check.engine-started', 'only just') };
    const found = judgeExample(
      { ...SETTINGS, startedBy: 'cranks' },
      sheetOf('volume', 125, 525),
      { cranks },
      { values },
    );
    expect(codesOf(found.verdict?.reasons ?? [])).toEqual(['check.engine-started']);
  });
});

describe('a collection over cranks', () => {
  const over = (cranks: readonly ReturnType<typeof entryOf>[], values: Partial<RunValues> = {}) =>
    judgeExample(
      { ...SETTINGS, startedBy: 'cranks' },
      sheetOf('volume', 125, 525),
      { cranks },
      { values: { ...typed(300, null), ...values } },
    );

  it('of two cranks of 15 s passes', () =>
    expect(over([entryOf(15), entryOf(15)]).verdict?.word).toBe('pass'));

  it('of one whose data stopped is not valid, and stands with a reason', () => {
    const lost = [entryOf(15), entryOf(15, { found: { endedBy: 'data lost' } })];
    expect(codesOf(over(lost).verdict?.reasons ?? [])).toEqual(['check.crank-data-lost']);
    expect(over(lost, aside('check.crank-data-lost', 'timed beside it')).verdict).toMatchObject({
      word: 'pass',
    });
  });
});

/* check-values.md I: 1 bar = 100 kPa, 1 psi = 6.894757 kPa, 1 inHg = 3.386389 kPa, 1 US fl oz = 29.57353 mL, 1 imperial fl oz = 28.41306 mL. */
describe('values typed in the units of the instrument', () => {
  const pressure = (value: number, unit: 'bar' | 'psi' | 'MPa' | 'inHg', half: number) =>
    judgeExample(
      {
        kind: 'steady pressure',
        signal: 'supplyPressure',
        speed: null,
        leastSeconds: 5,
        steadyWithinKPa: 40,
        vacuum: false,
      },
      sheetOf('pressure', 400, 700),
      {},
      { values: typedValue(fromPrinted(value, unit), fromPrinted(half, unit)) },
    );

  it.each([
    [5, 'bar', 0.1, 500, 'pass'],
    [72.519, 'psi', 1, 500, 'pass'],
    [0.39, 'MPa', 0.001, 390, 'fail low'],
    [58.1, 'psi', 1, 400.585, 'too close to call'],
    [210, 'inHg', 1, 711.142, 'fail high'],
  ] as const)('%f %s ± %f are %f kPa: %s', (...row) => {
    const [value, unit, half, kPa, word] = row;
    const { valueSummary, verdict } = pressure(value, unit, half);
    expect(valueSummary?.value).toBeCloseTo(kPa, 2);
    expect(verdict?.word).toBe(word);
  });

  it.each([
    [10, 'usFlOz', 295.735, 'pass'],
    [10, 'impFlOz', 284.131, 'pass'],
    [4.25, 'usFlOz', 125.687, 'too close to call'],
    [0.1, 'L', 100, 'fail low'],
  ] as const)('%f %s are %f mL: %s', (value, unit, volumeMl, word) => {
    const found = judge(typed(fromPrinted(value, unit), 30_000));
    expect(found.valueSummary?.value).toBeCloseTo(volumeMl, 2);
    expect(found.verdict?.word).toBe(word);
  });

  it('a flow limit of 36 L/h is one of 600 mL/min', () => {
    const sheet = sheetOf('rate', null, fromPrinted(36, 'L/h'));
    expect(judge(typed(350, 30_000), sheet).verdict?.word).toBe('fail high'); // 700 mL/min
    expect(judge(typed(250, 30_000), sheet).verdict?.word).toBe('pass'); // 500 mL/min
  });
});

describe('conditions of a collection', () => {
  it('are those over the time of collecting', () => {
    const conditions = [{ signal: 'fuelTemperature', min: null, max: 40, outside: 'not valid' } as const];
    const signals = signalsFrom({ fuelTemperature: sampled(60_000, 1000, (s) => (s < 30 ? 60 : 35)) });
    const at = (startMs: number) =>
      judgeExample(
        SETTINGS,
        sheetOf('volume', 125, 525, { conditions }),
        { signals, lastMs: 60_000 },
        {
          values: {
            ...typed(300, null),
            stopwatch: {
              kind: 'stopwatch',
              clock: 'source',
              startMs,
              endMs: startMs + 29_000,
              by: 'hand',
              atIso: '2026-01-02T10:00:00Z',
              reason: '',
            },
          },
        },
      ).verdict;
    expect(codesOf(at(0)?.reasons ?? [])).toEqual(['check.condition-outside']);
    expect(at(30_000)?.word).toBe('pass');
  });
});
