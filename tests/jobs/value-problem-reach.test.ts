import { describe, expect, it } from 'vitest';
import type { CheckSettings } from '../../src/checks/check-settings.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { NO_FACTS } from '../../src/jobs/check-facts.ts';
import { judgeCheck } from '../../src/jobs/judge-check.ts';
import { startingValues, type RunValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { describeProblem, type Problem } from '../../src/problems/problem.ts';
import { VALUE_PROBLEMS } from '../../src/problems/value-problems.ts';
import type { SignalId } from '../../src/quantities/reading.ts';
import { entryOf } from '../checks/example-cranks.ts';
import { sampled, signalsFrom, type Point } from '../checks/example-signals.ts';
import { judgeExample, observed, sheetOf, typedValue, typedVolumeMl } from './example-checks.ts';

type Of = (seconds: number) => number | null;
const signals = (each: Partial<Record<SignalId, Of>>, seconds = 30) =>
  signalsFrom(
    Object.fromEntries(
      Object.entries(each).map(([signal, of]): [string, readonly Point[]] => [
        signal,
        sampled(seconds * 1000, 100, of),
      ]),
    ),
  );
const QUANTITY = {
  'crank delivery': 'volume',
  'collected volume': 'volume',
  'steady pressure': 'pressure',
  'pressure build': 'time',
  'pressure decay': 'time',
  'pressure deviation': 'pressure',
  inspection: 'pressure',
} as const;
const met = (
  settings: CheckSettings,
  each: Partial<Record<SignalId, Of>>,
  values: Partial<RunValues> = {},
  cranks = [] as ReturnType<typeof entryOf>[],
): readonly Problem[] => {
  const facts = { signals: signals(each), cranks, lastMs: 30_000 };
  const sheet = sheetOf(QUANTITY[settings.kind], 1, null);
  const { verdict, measurement } = judgeExample(settings, sheet, facts, { values });
  const nothing = { reasons: [], warnings: [] };
  const own = 'value' in measurement ? measurement.value : nothing;
  const { reasons, warnings } = verdict ?? nothing;
  return [...reasons, ...warnings, ...own.reasons, ...own.warnings];
};

const STEADY: CheckSettings = {
  kind: 'steady pressure',
  signal: 'supplyPressure',
  speed: { minRpm: 500, maxRpm: 1000 },
  leastSeconds: 5,
  steadyWithinKPa: 20,
  vacuum: false,
};
const SUCTION: CheckSettings = { ...STEADY, speed: null, vacuum: true };
const BUILD: CheckSettings = {
  kind: 'pressure build',
  signal: 'railPressure',
  fromKPa: 1000,
  toKPa: 20_000,
  from: 'pressure',
};
const DECAY: CheckSettings = {
  kind: 'pressure decay',
  signal: 'railPressure',
  fromKPa: 25_000,
  toKPa: 10_000,
};
const DRIVE: CheckSettings = {
  kind: 'pressure deviation',
  actual: 'railPressure',
  commanded: 'commandedRailPressure',
  stretchSeconds: 5,
  speedBandsRpm: [1000],
  loadBandsPercent: [50],
  leastCommandedKPa: 80_000,
  leastSeconds: 120,
};
const RETURN: CheckSettings = {
  kind: 'collected volume',
  seconds: 20,
  startedBy: 'hand',
  trigger: null,
  speed: null,
  holds: { signal: 'railPressure', min: 80_000, max: null },
};
const LOOK: CheckSettings = {
  kind: 'inspection',
  points: [{ id: 'water', ask: 'Is it free of water?', look: 'Look.', whenNot: 'fail low', cause: null }],
};
const idle = { engineSpeed: () => 700, supplyPressure: () => 500 };
const stretch = (startMs: number, endMs: number) => ({ stretch: { startMs, endMs, reason: 'looks steady' } });
const watch = (startMs: number, endMs: number | null): Partial<RunValues> => ({
  ...typedVolumeMl(300),
  vessel: vesselById('cylinder-500'),
  stopwatch: {
    kind: 'stopwatch',
    clock: 'source',
    startMs,
    endMs,
    by: 'hand',
    atIso: '2026-01-02T10:00:00Z',
    reason: '',
  },
});
const noSettings = judgeCheck({
  kind: 'inspection',
  guide: null,
  check: 'example',
  sheet: null,
  facts: NO_FACTS,
  values: startingValues(null),
});
const onChart = judgeExample(
  { ...STEADY, speed: null },
  { ...DEMONSTRATION_SHEET, limits: [{ ...DEMONSTRATION_SHEET.limits[0]!, check: 'example' }] },
  { signals: signals(idle) },
);
const topped = judgeExample({ ...STEADY, speed: null }, sheetOf('pressure', null, 1200), {
  signals: signalsFrom({ supplyPressure: sampled(20_000, 100, () => 1000) }, 0),
});
const fall = (s: number) => 40_000 * Math.exp(-s / 5);
const drive = { railPressure: () => 90_000, commandedRailPressure: () => 90_000, engineSpeed: () => 1200 };

/** Each code with what a person does to meet it. */
/** Every fifth message of engine speed is gone: not empty, but never sent. */
const thinned = (): readonly Problem[] => {
  const heard = (of: Of) => sampled(30_000, 100, of);
  const facts = {
    signals: signalsFrom({
      supplyPressure: heard(() => 500),
      engineSpeed: heard(() => 700).filter((_, place) => place % 5 !== 4),
    }),
  };
  return judgeExample(STEADY, sheetOf('pressure', 1, null), facts).verdict?.warnings ?? [];
};

const MET: Readonly<Record<keyof typeof VALUE_PROBLEMS, readonly Problem[]>> = {
  'check.no-settings': noSettings.ok ? [] : [noSettings.problem],
  'check.limit-not-a-window': onChart.verdict?.reasons ?? [],
  'check.value-negative': met(DECAY, {}, typedValue(-3)),
  'check.instrument-unknown': met(STEADY, {}, typedValue(500)),
  'check.no-signal': met(STEADY, {}),
  'check.speed-not-known': met(STEADY, { supplyPressure: () => 500 }),
  'check.speed-below-window': met(STEADY, { ...idle, engineSpeed: () => 200 }),
  'check.speed-above-window': met(STEADY, { ...idle, engineSpeed: () => 1900 }),
  'check.not-steady': met(STEADY, { ...idle, supplyPressure: (s) => 100 * (s % 3) }),
  'check.step-unknown': met(STEADY, idle),
  'check.stretch-chosen': met(STEADY, idle, stretch(5000, 20_000)),
  'check.stretch-empty': met(STEADY, idle, stretch(90_000, 99_000)),
  'check.stretch-not-steady': met(STEADY, idle, stretch(5000, 6000)),
  'check.stretch-off-speed': met(STEADY, { ...idle, engineSpeed: () => 1900 }, stretch(5000, 20_000)),
  'check.at-top-of-range': topped.verdict?.reasons ?? [],
  'check.restriction-negative': met(SUCTION, { supplyPressure: () => 80 }),
  'check.restriction-impossible': met(SUCTION, {}, typedValue(130, 1, 1)),
  'check.build-starts-above': met({ ...BUILD, from: 'crank start' }, { railPressure: () => 30_000 }, {}, [
    entryOf(5),
  ]),
  'check.build-not-begun': met(BUILD, { railPressure: () => 0 }),
  'check.frames-missing': thinned(),
  'check.build-not-reached': met(BUILD, { railPressure: (s) => Math.min(9000, 1000 * s) }),
  'check.build-later-try': met(BUILD, {
    railPressure: (s) => (s < 4 ? 1000 * s : s < 8 ? 0 : 5000 * (s - 8)),
  }),
  'check.decay-not-begun': met(DECAY, { railPressure: () => 30_000 }),
  'check.decay-not-ended': met(DECAY, { railPressure: (s) => 30_000 - 300 * s }),
  'check.decay-not-exponential': met(DECAY, { railPressure: (s) => Math.max(0, 30_000 - 2000 * s) }),
  'check.engine-still-turns': met(DECAY, { railPressure: fall, engineSpeed: () => 600 }),
  'check.engine-stop-unknown': met(DECAY, { railPressure: fall }),
  'check.drive-too-short': met(DRIVE, drive),
  'check.commanded-too-low': met(DRIVE, { ...drive, commandedRailPressure: () => 30_000 }),
  'check.drive-without-speed': met(DRIVE, { ...drive, engineSpeed: () => null }),
  'check.drive-without-load': met(DRIVE, drive),
  'check.clock-running': met(RETURN, {}, watch(1000, null)),
  'check.clock-reversed': met(RETURN, {}, watch(9000, 1000)),
  'check.clock-too-long': met(RETURN, {}, watch(0, 3_600_000)),
  'check.hold-unknown': met(RETURN, {}, watch(1000, 21_000)),
  'check.not-held': met(RETURN, { railPressure: (s) => (s < 10 ? 40_000 : 90_000) }, watch(1000, 21_000)),
  'check.hold-partly-known': met(
    RETURN,
    { railPressure: (s) => (s < 10 ? null : 90_000) },
    watch(1000, 21_000),
  ),
  'check.signal-hole': met(DECAY, { railPressure: (s) => (s > 4 && s < 7 ? null : fall(s)) }),
  'check.points-open': met(LOOK, {}),
  'check.point-not-in-order': met(LOOK, {}, observed({ water: 'not in order' })),
};

describe('every problem of the checks that give one value can be met', () => {
  it('has an input here that meets it', () => {
    expect(Object.keys(MET).sort()).toEqual(Object.keys(VALUE_PROBLEMS).sort());
  });

  it.each(Object.entries(MET))('%s is met, and its texts are whole', (code, problems) => {
    const found = problems.find((each) => each.code === code);
    expect(found).toBeDefined();
    const { message, remedy } = describeProblem(found ?? { code: 'check.no-cranks', context: {} });
    expect(`${message} ${remedy}`).not.toMatch(/\{\w+\}|undefined|null|NaN|Infinity|\[object/);
  });
});
