import { describe, expect, test } from 'vitest';
import { drawnBoundaries, drawnNearest, drawnPoint } from '../../src/app/chart-drawing.ts';
import { promptOf } from '../../src/app/prompt.ts';
import type { DeskView } from '../../src/app/run-desk.ts';
import { viewRun } from '../../src/app/run-view.ts';
import { IDLE_SESSION, nextState, type SessionState } from '../../src/app/session.ts';
import { sourceCondition } from '../../src/app/source-condition.ts';
import { align, stripOf } from '../../src/app/strip-columns.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import type { LinkChange } from '../../src/link/link-state.ts';
import { startPipeline } from '../../src/pipeline/pipeline.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { NOW_ISO, open, run, speed, speeds, TWO_CRANKS } from './services.ts';

const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;
const after = (changes: readonly LinkChange[]): SessionState =>
  [{ kind: 'opening' } as const, ...changes].reduce<SessionState>(
    (state, change) => nextState(state, change, 0),
    {
      ...IDLE_SESSION,
      runId: 'run-1',
      pipeline: startPipeline(options),
    },
  );
const ENDED: LinkChange = { kind: 'ended' };

function desk(changes: readonly LinkChange[] | null, part: Partial<DeskView> = {}, nowMs = 80_000): DeskView {
  const session = changes ? after(changes) : IDLE_SESSION;
  const stored = part.run ?? run();
  const view = viewRun({ run: stored, session, nowMs, doneCranking: false });
  const base = {
    doneCranking: false,
    problem: null,
    saved: null,
    search: null,
    sheetAdvice: null,
    playback: 'live',
    speed: 1,
    wallMs: 0,
  } as const;
  return { ...base, run: stored, view, session, ...part };
}

const volume: RunEntry = { kind: 'volume', atIso: NOW_ISO, reason: '', readingsMl: [300], typed: '300' };

describe('align', () => {
  test('puts columns on one ascending time, undefined where another has a point, null where a value is missing', () => {
    const [x, a, b] = align([
      { x: [0, 2], y: [1, null] },
      { x: [1, 2, 3], y: [5, 6, 7] },
    ]);
    expect(x).toEqual([0, 1, 2, 3]);
    expect([...a!]).toEqual([1, undefined, null, undefined]);
    expect([...b!]).toEqual([undefined, 5, 6, 7]);
  });

  test('of nothing is one empty time column', () => expect(align([])).toEqual([[]]));
});

describe('the strip', () => {
  const rail = (atMs: number, value: number): LinkChange => ({
    kind: 'reading',
    atMs: millis(atMs),
    reading: { signal: 'railPressure', atMs: millis(atMs), value, quality: 'valid', origin: 0 },
  });
  const state = after([
    open(),
    speed(1000, 160),
    rail(1500, 10_000),
    speed(2000, null),
    speed(3000, 120),
  ]).pipeline!;
  const window = { fromMs: 0, toMs: 4000, pixels: 400 };

  test('counts seconds from the first data and gives pressures in the chosen unit', () => {
    // 100 kPa = 1 bar and 1000 kPa = 1 MPa (NIST SP 811, table B.8); 10 000 kPa is 100 bar, 10 MPa.
    for (const [pressureUnit, expected] of [
      ['bar', 100],
      ['MPa', 10],
    ] as const) {
      const strip = stripOf(state, window, { pressureUnit, supplyUnit: 'kPa' });
      expect(strip.series.map(({ kind, unit }) => `${kind} ${unit}`)).toEqual([
        'speed rpm',
        `rail ${pressureUnit}`,
      ]);
      const x = [...strip.columns[0]!];
      expect(x[0]).toBe(0);
      expect([...strip.columns[2]!].find((value) => value !== undefined)).toBeCloseTo(expected, 9);
    }
  });

  test('shows a missing speed as a gap, and draws through where only another signal has a point', () => {
    const { columns } = stripOf(state, window, { pressureUnit: 'bar', supplyUnit: 'kPa' });
    const x = [...columns[0]!];
    const drawn = [...columns[1]!];
    expect(drawn[x.indexOf(0.5)]).toBeUndefined();
    expect(drawn[x.indexOf(0)]).toBe(160);
    expect(drawn[x.indexOf(2)]).toBe(120);
    expect(drawn.slice(x.indexOf(0), x.indexOf(2))).toContain(null);
  });

  test('takes speed from the address that was chosen', () => {
    const two = after([open(), speed(0, 160, 0), speed(0, 999, 3)]).pipeline!;
    const units = { pressureUnit: 'bar', supplyUnit: 'kPa' } as const;
    expect([...stripOf(two, window, units).columns[1]!]).toEqual([160]);
    expect([...stripOf(two, window, units, 3).columns[1]!]).toEqual([999]);
  });
});

describe('the chart', () => {
  const chart = DEMONSTRATION_SHEET.limits[0] as SpeedChart;
  const judged = (entries: RunEntry[]) => {
    const { view } = desk([...TWO_CRANKS, ENDED], { run: { ...run(), entries } });
    if (!view.judged.ok) throw new Error(view.judged.problem.code);
    return view.judged.value;
  };

  test('straight curves are their own points; cubic ones are dense, through the same ends', () => {
    expect(drawnBoundaries(chart)).toEqual({
      failBelow: chart.failBelow,
      passAbove: chart.passAbove,
      failAbove: null,
    });
    const cubic = drawnBoundaries({ ...chart, join: 'monotone cubic' as never });
    expect(cubic.failBelow.length).toBeGreaterThan(50);
    expect(cubic.failBelow[0]).toEqual(chart.failBelow[0]);
    expect(cubic.failBelow.at(-1)![0]).toBe(260);
    expect(cubic.failBelow.at(-1)![1]).toBeCloseTo(330, 6);
  });

  test('there is no point and no nearest line before a volume', () => {
    expect(drawnPoint(judged([]))).toBeNull();
    expect(drawnNearest(judged([]))).toBeNull();
  });

  test('the point stands at the average speed and the volume, with half-widths', () => {
    const point = drawnPoint(judged([volume]))!;
    expect(point.speedRpm).toBeGreaterThan(155);
    expect(point.speedRpm).toBeLessThanOrEqual(160);
    expect(point.volumeMl).toBe(300);
    expect(point.volumeHalfWidthMl).toBeGreaterThan(0);
    expect(drawnNearest(judged([volume]))!.label).not.toBe('');
  });
});

describe('the prompt', () => {
  const bench = run({ adapter: 'bench' });
  test.each([
    ['prepare', desk(null, { run: bench }), 'Read the cautions'],
    ['connect', desk(null), 'Connect the source'],
    ['opening', desk([]), 'Opening the source'],
    ['waiting', desk([open()]), 'Waiting for the bridge'],
    [
      'reopening',
      desk([open(), { kind: 'gap', atMs: millis(5), problem: problem('link.reopening', { device: 'b' }) }]),
      'Waiting for the bridge to come back',
    ],
    ['playing', desk([open()], { playback: 'playing' }), 'Replaying'],
    [
      'running',
      desk([open(), ...Array.from({ length: 40 }, (_, n) => speed(n * 100, 700))], {}, 4000),
      'The engine is running',
    ],
    ['no crank', desk([open(), ...speeds(5, []), ENDED]), 'No crank was found'],
    ['log read', desk([...TWO_CRANKS, ENDED]), 'Type the volume'],
    ['verdict', desk([...TWO_CRANKS, ENDED], { run: { ...run(), entries: [volume] } }), 'Graded'],
  ] as const)('%s', (_name, view, title) => expect(promptOf(view)?.title).toBe(title));

  test('says nothing while the crank clock says it', () => {
    expect(promptOf(desk([open(), ...speeds(5, [[2, 99]])], {}, 5000))).toBeNull();
  });

  test('counts the cranks of a log in plain words', () => {
    const one = desk([open(), ...speeds(20, [[2, 17]]), ENDED]);
    expect(promptOf(one)?.text).toMatch(/^1 crank found/);
    expect(promptOf(desk([...TWO_CRANKS, ENDED]))?.text).toMatch(/^2 cranks found/);
  });
});

describe('the condition of the source', () => {
  const events = [open(), ...speeds(3, [])];
  test.each([
    ['none', null, 0, 'none', null],
    ['opening', [], 0, 'opening', null],
    ['open without data', [open()], 4000, 'waiting', 4],
    ['fresh', events, 3500, 'live', 0.5],
    ['stale after a second', events, 4500, 'stale', 1.5],
    ['lost after ten', events, 14_000, 'lost', 11],
    ['ended', [...events, ENDED], 3000, 'ended', null],
    ['refused', [{ kind: 'error', problem: problem('link.refused') }], 0, 'none', null],
    [
      'no speed and a gap',
      [open(), { kind: 'gap', atMs: millis(0), problem: problem('link.overrun') }],
      0,
      'error',
      0,
    ],
  ] as const)('%s', (_name, changes, nowMs, ...[state, secondsSinceLast]) => {
    expect(sourceCondition(desk(changes, {}, nowMs))).toEqual({ state, secondsSinceLast });
  });
});
