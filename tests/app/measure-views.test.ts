import { describe, expect, test } from 'vitest';
import { curveView } from '../../src/app/curve-view.ts';
import { deviationView } from '../../src/app/deviation-view.ts';
import { stopwatchView } from '../../src/app/measure-views.ts';
import { newRun } from '../../src/app/new-run.ts';
import { factRows, resultScale, verdictInUnit, windowView } from '../../src/app/result-view.ts';
import { viewRun, type RunViewInput } from '../../src/app/run-view.ts';
import { IDLE_SESSION, nextState, type SessionState } from '../../src/app/session.ts';
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts';
import { steadyView } from '../../src/app/steady-view.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { DEMONSTRATION_JOB_SHEET } from '../../src/limits/demonstration-job-sheet.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { LinkChange } from '../../src/link/link-state.ts';
import { startPipeline } from '../../src/pipeline/pipeline.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import type { SignalId } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import { NOW_ISO, open } from './services.ts';

type Course = Partial<Record<SignalId, (s: number) => number | null>>;

/** Readings of each signal every 100 ms from 0 to `untilS`, in the order in which they come. */
function heard(untilS: number, course: Course): readonly LinkEvent[] {
  const signals = Object.entries(course) as [SignalId, (s: number) => number | null][];
  return Array.from({ length: untilS * 10 + 1 }, (_, place) => place / 10).flatMap((s) =>
    signals.map(([signal, of]): LinkEvent => {
      const [atMs, value] = [millis(s * 1000), of(s)];
      const quality = value === null ? 'notAvailable' : 'valid';
      return { kind: 'reading', atMs, reading: { signal, atMs, value, quality, origin: 0 } };
    }),
  );
}

interface Heard {
  readonly untilS: number;
  readonly course: Course;
  readonly over?: boolean;
  readonly nowMs?: number;
  readonly entries?: readonly RunEntry[];
}

/** A check of the demonstration job while, or after, it is listened to. */
function measuring(id: string, { untilS, course, over = false, nowMs, entries = [] }: Heard) {
  const run = newRun({
    id: 'run-1',
    createdAt: NOW_ISO,
    source: { adapter: 'bench', device: 'bench' },
    sheet: DEMONSTRATION_JOB_SHEET,
    vessel: vesselById('cylinder-500')!,
    within: { jobId: 'job-1', guide: checkOf(LOW_RAIL_PRESSURE, id)! },
  });
  const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;
  const start: SessionState = { ...IDLE_SESSION, runId: 'run-1', pipeline: startPipeline(options) };
  const changes: readonly LinkChange[] = [
    open(),
    ...heard(untilS, course),
    ...(over ? ([{ kind: 'ended' }] as const) : []),
  ];
  const session = changes.reduce<SessionState>((state, change) => nextState(state, change, 0), start);
  const view = viewRun({
    run: { ...run, entries: [...entries] },
    session,
    nowMs: nowMs ?? untilS * 1000,
    doneCranking: false,
  });
  if (!view.checked?.ok) throw new Error('not judged');
  return { view, checked: view.checked.value, session };
}

describe('a steady pressure while it is measured', () => {
  const IDLE = { supplyPressure: () => 950, engineSpeed: () => 700 };
  const shown = (given: Heard, units = DEFAULT_SETTINGS) => {
    const { view, checked } = measuring('supply-idle', given);
    return steadyView(checked, view, units)!;
  };

  test('shows the value, its limit and how long it has been steady at its speed', () => {
    expect(shown({ untilS: 4, course: IDLE })).toMatchObject({
      label: 'Supply pressure',
      value: 950,
      state: 'fresh',
      unit: 'kPa',
      trend: 'steady',
      min: 900,
      max: null,
      speed: { label: 'Engine speed', state: 'in', asked: '500 to 1\u202f000\u00a0rpm' },
      steadySeconds: 4,
      neededSeconds: 10,
      found: null,
      missing: [],
    });
  });

  test('finds the mean once it is long enough, in the unit of this browser', () => {
    const course = { ...IDLE, supplyPressure: (s: number) => (Math.round(s * 10) % 2 === 0 ? 940 : 960) };
    const found = shown({ untilS: 12, course }, { ...DEFAULT_SETTINGS, supplyUnit: 'bar' }).found!;
    expect(found.mean).toBeCloseTo(9.5, 2);
    expect(found).toMatchObject({ halfSpread: expect.closeTo(0.1, 6) as number, seconds: 12 });
  });

  test('off its speed nothing counts, and it says what to do', () => {
    const slow = shown({ untilS: 12, course: { ...IDLE, engineSpeed: () => 300 } });
    expect(slow).toMatchObject({
      steadySeconds: 0,
      found: null,
      missing: ['Bring the engine up to that speed and hold it.'],
      speed: { state: 'below' },
    });
  });

  test('steady begins anew with a jump and with a hole', () => {
    const jump = { ...IDLE, supplyPressure: (s: number) => (s < 5 ? 600 : 950) };
    expect(shown({ untilS: 8, course: jump })).toMatchObject({ steadySeconds: 3 });
    const hole = { ...IDLE, supplyPressure: (s: number) => (s > 3 && s < 6 ? null : 950) };
    expect(shown({ untilS: 8, course: hole })).toMatchObject({ steadySeconds: 2 });
  });

  test('tells where it goes, and what is old', () => {
    const rises = { ...IDLE, supplyPressure: (s: number) => 600 + 20 * s };
    expect(shown({ untilS: 8, course: rises }).trend).toBe('rising');
    const stale = shown({ untilS: 8, course: IDLE, nowMs: 11_000 });
    expect(stale).toMatchObject({ state: 'stale', speed: { state: 'none' } });
  });

  test('a missing signal is told with its way out', () => {
    const none = shown({ untilS: 3, course: { engineSpeed: () => 700 } });
    expect(none).toMatchObject({ value: null, state: 'waiting' });
    expect(none.missing[0]).toMatch(/no supply pressure.*type the value from a gauge/);
  });
});

describe('a build and a decay while they are measured', () => {
  // p = 30 MPa e^(−t/8) from 2 s on: through 25 and 10 MPa after 8 ln(30/25) and 8 ln(30/10), 8 ln 2.5 = 7.33 s apart (check-values.md D).
  const fall = (s: number) => (s < 2 ? 30_000 : 30_000 * Math.exp(-(s - 2) / 8));
  const decay = (given: Omit<Heard, 'course'>) => {
    const course = { railPressure: fall, engineSpeed: (s: number) => (s < 1 ? 700 : 0) };
    const { view, checked } = measuring('rail-decay', { ...given, course });
    return curveView(checked, view, { ...DEFAULT_SETTINGS, pressureUnit: 'MPa' })!;
  };

  test('a fall that goes on has a beginning, no end and no time yet', () => {
    const going = decay({ untilS: 6 });
    expect(going).toMatchObject({ unit: 'MPa', toSeconds: null, spanSeconds: null, fitted: [] });
    expect(going.fromSeconds).toBeCloseTo(2 + 8 * Math.log(30 / 25), 1);
    // By hand: 30 e^(−4/8) = 18.2.
    expect(going.words).toBe('Falling: 18.2 of 10.0 MPa.');
  });

  test('a whole fall has its time, its time constant and the fit over it', () => {
    const whole = decay({ untilS: 20 });
    expect(whole.spanSeconds).toBeCloseTo(8 * Math.log(2.5), 1);
    expect(whole.tauSeconds).toBeCloseTo(8, 1);
    expect(whole.ratePerSecond).toBeCloseTo(-15 / (8 * Math.log(2.5)), 1);
    const [first, last] = [whole.fitted[0]!, whole.fitted.at(-1)!];
    expect(first[0]).toBeCloseTo(whole.fromSeconds!, 9);
    expect(last[0]).toBeCloseTo(whole.toSeconds!, 9);
    expect(first[1]).toBeCloseTo(25, 1);
    expect(last[1]).toBeCloseTo(10, 6);
    expect(whole.points.length).toBeGreaterThan(50);
  });

  test('before either, it says what is waited for', () => {
    expect(decay({ untilS: 1 }).words).toBe('Waiting for the fall through 25.0 MPa.');
    const still = { railPressure: () => 0, engineSpeed: () => 0 };
    const { view, checked } = measuring('rail-build', { untilS: 3, course: still });
    expect(curveView(checked, view, DEFAULT_SETTINGS)).toMatchObject({
      unit: 'bar',
      words: 'Waiting for the crank.',
      fromSeconds: null,
    });
  });

  test('a build is timed from the crank', () => {
    // A straight rise of 10 MPa/s from 3 s on: 20 MPa at 5 s; the crank from 2 s on.
    const course = {
      railPressure: (s: number) => Math.max(0, Math.min(24_000, 10_000 * (s - 3))),
      engineSpeed: (s: number) => (s > 2 && s < 8 ? 180 : 0),
    };
    const { view, checked } = measuring('rail-build', { untilS: 10, course });
    const built = curveView(checked, view, { ...DEFAULT_SETTINGS, pressureUnit: 'MPa' })!;
    expect(built.spanSeconds).toBeCloseTo(3, 0);
    expect(built.ratePerSecond).toBeCloseTo(10, 0);
    expect(built.words).toBe('From the start of the crank to 20.0 MPa.');
    expect(built.fitted.every(([, pressure]) => pressure! >= 0)).toBe(true);
  });
});

describe('a drive', () => {
  const course = {
    railPressure: (s: number) => (s > 100 && s < 110 ? 88_000 : 99_000),
    commandedRailPressure: () => 100_000,
    engineSpeed: (s: number) => (s < 60 ? 1000 : 1600),
    actualTorque: () => 60,
  };

  test('is quiet while it is recorded', () => {
    const { view, checked } = measuring('final-drive', { untilS: 30, course });
    expect(deviationView(checked, view, DEFAULT_SETTINGS)).toMatchObject({
      recording: true,
      seconds: 30,
      neededSeconds: 120,
    });
  });

  test('then has its table by speed and load, and its worst stretches on the axis of the trace', () => {
    const { view, checked } = measuring('final-drive', { untilS: 130, course, over: true });
    const shown = deviationView(checked, view, { ...DEFAULT_SETTINGS, pressureUnit: 'MPa' })!;
    expect(shown).toMatchObject({ recording: false, worst: expect.closeTo(12, 3) as number, unit: 'MPa' });
    expect(shown.speedBands).toEqual([
      'to 900 rpm',
      '900 to 1200 rpm',
      '1200 to 1500 rpm',
      '1500 to 1800 rpm',
      'above 1800 rpm',
    ]);
    expect(shown.loadBands).toHaveLength(4);
    expect(shown.cells[1]![2]).toMatchObject({
      grade: 'good',
      meanShortfall: expect.closeTo(1, 6) as number,
    });
    expect(shown.cells[0]![0]).toMatchObject({ grade: 'few', meanShortfall: null });
    expect(shown.stretches[0]).toMatchObject({ speedRpm: 1600, loadPercent: 60, mostShortfall: 12 });
    expect(shown.stretches[0]!.startMs).toBeGreaterThanOrEqual(99_000);
    expect(shown.words).toBe('Falls short by more than the 8.0 MPa that are allowed.');
  });

  test('without load says so in its only column', () => {
    const { railPressure, commandedRailPressure, engineSpeed } = course;
    const bare = { railPressure, commandedRailPressure, engineSpeed };
    const { view, checked } = measuring('final-drive', { untilS: 130, course: bare, over: true });
    const shown = deviationView(checked, view, DEFAULT_SETTINGS)!;
    expect(shown.loadBands).toEqual(['any load']);
    expect(shown.cells.every((row) => row.length === 1)).toBe(true);
  });
});

describe('a drive that goes on', () => {
  const course = {
    railPressure: () => 99_000,
    commandedRailPressure: () => 100_000,
    engineSpeed: () => 1600,
  };
  const drive = measuring('final-drive', { untilS: 30, course });
  const look = (untilS: number, change: Partial<RunViewInput> = {}, ended = false) => {
    const more = heard(untilS, course).filter(({ atMs }) => atMs > 30_000);
    const changes: readonly LinkChange[] = [...more, ...(ended ? ([{ kind: 'ended' }] as const) : [])];
    const session = changes.reduce<SessionState>((state, each) => nextState(state, each, 0), drive.session);
    const { run } = drive.view;
    return viewRun({
      run,
      session,
      nowMs: untilS * 1000,
      doneCranking: false,
      earlier: drive.view,
      ...change,
    });
  };

  test('is judged once a second, however often it is looked at', () => {
    expect(look(30.9).checked).toBe(drive.view.checked);
    expect(look(30.9).facts.lastMs).toBe(30_900);
    expect(look(31)).toMatchObject({ judgedAtMs: 31_000 });
    expect(look(31).checked).not.toBe(drive.view.checked);
  });

  test('is judged on everything at its end, and anew with an entry', () => {
    const ended = look(30.5, {}, true);
    expect(ended).toMatchObject({ judgedAtMs: 30_500 });
    expect(ended.verdict).not.toBeNull();
    const { run } = drive.view;
    expect(look(30.5, { run: { ...run } }).judgedAtMs).toBe(30_500);
  });
});

test('a collection shows what has to hold, and for how much of its time it did', () => {
  const started: RunEntry = {
    kind: 'stopwatch',
    atIso: NOW_ISO,
    reason: '',
    clock: 'source',
    startMs: 10_000,
    endMs: null,
    by: 'hand',
  };
  const course = { railPressure: (s: number) => (s < 20 ? 90_000 : 60_000), engineSpeed: () => 700 };
  const { view, checked } = measuring('pump-return', { untilS: 30, course, entries: [started] });
  const units = { ...DEFAULT_SETTINGS, pressureUnit: 'MPa' } as const;
  const clock = stopwatchView(checked, view, { nowMs: 30_000, units });
  expect(clock).toMatchObject({ phase: 'running', elapsedSeconds: 20 });
  expect(clock.held).toMatchObject({
    label: 'Rail pressure',
    value: '60.0',
    asked: 'at least 80.0\u00a0MPa',
    state: 'below',
    share: expect.closeTo(0.5, 1) as number,
  });
});

describe('the result', () => {
  const course = { supplyPressure: () => 850, engineSpeed: () => 700 };
  const { view, checked } = measuring('supply-idle', { untilS: 12, course, over: true });
  const bar = { ...DEFAULT_SETTINGS, supplyUnit: 'bar' } as const;
  const scale = resultScale('pressure', view.guide.settings, bar);

  test('draws the value against its window in the unit of this browser', () => {
    expect(windowView(checked, view.guide.settings, scale)).toMatchObject({
      label: 'Supply pressure',
      unit: 'bar',
      min: 9,
      max: null,
      value: { value: 8.5, label: 'measured' },
    });
    expect(verdictInUnit(checked.verdict!, scale).nearest).toMatchObject({ atValue: 9, distance: -0.5 });
  });

  test('tells what was measured besides in the same unit, to four figures', () => {
    expect(factRows([{ name: 'lowest', value: 812.3456, unit: 'kPa' }], scale)).toEqual([
      { name: 'Lowest', value: '8.123', unit: 'bar' },
    ]);
    expect(factRows([{ name: 'rate', value: -1234.5, unit: 'kPa/s' }], scale)[0]).toMatchObject({
      value: '−12.35',
      unit: 'bar/s',
    });
    expect(factRows([{ name: 'values', value: 120, unit: '' }], scale)[0]).toMatchObject({ value: '120' });
  });
});
