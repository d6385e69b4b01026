import { describe, expect, test } from 'vitest';
import { cueOf } from '../../src/app/clock-cue.ts';
import { drawnBoundaries, drawnNearest, drawnPoint } from '../../src/app/chart-drawing.ts';
import { edgeEntries, edgeText, foundAgain } from '../../src/app/edge-entries.ts';
import { entryLine } from '../../src/app/entry-line.ts';
import { frameRate } from '../../src/app/frame-rate.ts';
import { memoryDatabase } from '../../src/app/memory-database.ts';
import { newRun } from '../../src/app/new-run.ts';
import { promptOf } from '../../src/app/prompt.ts';
import { readLogNumbers } from '../../src/app/read-log-numbers.ts';
import type { DeskView } from '../../src/app/run-desk.ts';
import { viewRun } from '../../src/app/run-view.ts';
import { IDLE_SESSION, nextState, type SessionState } from '../../src/app/session.ts';
import { DEFAULT_SETTINGS, loadSettings, SettingsStore } from '../../src/app/settings.ts';
import { readSheetText, sheetShelf } from '../../src/app/sheet-shelf.ts';
import { shownStep } from '../../src/app/shown-step.ts';
import { sourceCondition } from '../../src/app/source-condition.ts';
import { align, stripOf } from '../../src/app/strip-columns.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { readRun } from '../../src/jobs/run-store.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { SpeedChart } from '../../src/limits/limit-sheet.ts';
import type { LinkChange } from '../../src/link/link-state.ts';
import { planSpeedLog } from '../../src/logs/plan-import.ts';
import { startPipeline } from '../../src/pipeline/pipeline.ts';
import { problem } from '../../src/problems/problem.ts';
import { ok } from '../../src/problems/result.ts';
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
  ] as const)('%s', (_name, changes, nowMs, state, secondsSinceLast) => {
    expect(sourceCondition(desk(changes, {}, nowMs))).toEqual({ state, secondsSinceLast });
  });
});

describe('small words', () => {
  test('the rate of frames is told once a second, and starts anew with another source', () => {
    const first = frameRate(null, 100, 0);
    expect(first.perSecond).toBeNull();
    expect(frameRate(first, 300, 999)).toBe(first);
    const second = frameRate(first, 350, 2000);
    expect(second.perSecond).toBe(125);
    expect(frameRate(second, 10, 2500)).toEqual({ frames: 10, sinceMs: 2500, perSecond: null });
  });

  test('each warning of the clock has its sound', () => {
    expect([null, 3, 2, 1, 'now', 'over'].map((each) => cueOf(each as never))).toEqual([
      null,
      '3',
      '2',
      '1',
      'target',
      'over',
    ]);
  });

  const at = { atIso: '2026-11-25T08:01:02.000Z' };
  const entries: readonly (readonly [RunEntry, string])[] = [
    [{ ...at, kind: 'caution-ticked', caution: 'fire', reason: '' }, 'caution read: fire'],
    [
      { ...at, kind: 'volume', readingsMl: [200, 50], typed: '200+50', reason: 'refilled' },
      'volume 200 + 50 mL (typed “200+50”) – refilled',
    ],
    [
      { ...at, kind: 'vessel', vessel: vesselById('cylinder-500')! as never, reason: '' },
      `vessel: ${vesselById('cylinder-500')!.name}`,
    ],
    [
      { ...at, kind: 'crank-left-out', crank: 0, leftOut: true, reason: 'slipped' },
      'crank 1 left out – slipped',
    ],
    [
      { ...at, kind: 'crank-left-out', crank: 1, leftOut: false, reason: 'why' },
      'crank 2 counts again – why',
    ],
    [
      { ...at, kind: 'crank-edge', crank: 0, edge: 'start', foundMs: 1, atMs: 2, reason: 'r' },
      'start of crank 1 set – r',
    ],
    [
      { ...at, kind: 'crank-edge', crank: 0, edge: 'end', foundMs: 1, atMs: null, reason: 'r' },
      'end of crank 1 set back – r',
    ],
    [
      { ...at, kind: 'origin-chosen', signal: 'engineSpeed', origin: 0x103, reason: '' },
      'engineSpeed taken from address 03',
    ],
    [
      { ...at, kind: 'override', code: 'check.crank-cut', holds: true, reason: 'r' },
      'check.crank-cut let stand – r',
    ],
    [
      { ...at, kind: 'override', code: 'check.crank-cut', holds: false, reason: 'r' },
      'check.crank-cut no longer let stand – r',
    ],
    [{ ...at, kind: 'note', text: 'cold', reason: '' }, 'note: cold'],
    [{ ...at, kind: 'interval', intervalMs: 20, reason: '' }, 'interval between speed readings: 20 ms'],
  ];
  test.each(entries)('an entry in a line: $kind', (entry, expected) => {
    expect(entryLine(entry)).toBe(`08:01:02 UTC  ${expected}`);
  });

  test('a step is shown with six significant figures, and a dash where there is no number', () => {
    const numbers = [
      { name: 'V', value: 123.456789, unit: 'mL' },
      { name: 'p', value: NaN, unit: '' },
    ];
    expect(
      shownStep({
        label: 'l',
        formula: 'f',
        numbers,
        result: { name: 'r', value: 0.00012345678, unit: 'mL' },
      }),
    ).toEqual({ label: 'l', formula: 'f', numbers: 'V 123.457 mL · p –', result: '0.000123457 mL' });
    expect(shownStep({ label: '', formula: '', numbers: [], result: { text: 'pass' } }).result).toBe('pass');
  });

  test('a new run is open, empty, and such as the store takes', () => {
    const made = newRun({
      id: 'x',
      createdAt: NOW_ISO,
      source: { adapter: 'bench', device: 'b' },
      sheet: DEMONSTRATION_SHEET,
      vessel: vesselById('cylinder-500')!,
    });
    expect(made).toMatchObject({ state: 'open', entries: [], verdict: null, recordingId: null });
    expect(readRun(made)).toEqual(ok(made));
  });

  test('a log is read by its plan; a plan that is none gives a problem', () => {
    const bytes = new TextEncoder().encode('Time (s);Engine speed (rpm)\n0;0\n0,1;150\n0,2;151\n0,3;152\n');
    const plan = planSpeedLog(bytes);
    const read = readLogNumbers(bytes, plan.ok && JSON.parse(JSON.stringify(plan.value)));
    const values = read.ok
      ? [...read.value].flatMap((event) => (event.kind === 'reading' ? [event.reading.value] : []))
      : [];
    expect(values).toEqual([0, 150, 151, 152]);
    for (const none of [null, {}, 'x', 4])
      expect(readLogNumbers(bytes, none)).toMatchObject({ ok: false, problem: { code: 'log.bad-plan' } });
  });
});

describe('edges set by hand', () => {
  const edges = {
    place: 1,
    firstMs: 500,
    startMs: 2503.4,
    endMs: 17_500,
    foundStartMs: 2503.4,
    foundEndMs: 17_500,
  };
  test('only the edge whose text was changed is entered, with where it was found', () => {
    const start = edgeText(edges.startMs, edges.firstMs);
    expect(edgeEntries(edges, { start, end: '16,5', reason: ' released late ' })).toEqual({
      entries: [
        { kind: 'crank-edge', crank: 1, edge: 'end', foundMs: 17_500, atMs: 17_000, reason: 'released late' },
      ],
    });
  });

  test.each([
    [{ start: '2.00', end: '17.00', reason: 'r' }, 'Neither edge was changed.'],
    [{ start: '3', end: '17.00', reason: ' ' }, 'Say why the edges are set by hand.'],
    [{ start: '17', end: '17.00', reason: 'r' }, 'The end must lie after the start.'],
    [{ start: 'x', end: '17.00', reason: 'r' }, 'Start: “x” is not a plain number.'],
    [{ start: '2.00', end: '', reason: 'r' }, 'End: Type a number first.'],
    [{ start: '-1', end: '17.00', reason: 'r' }, 'Start: The least that can be entered is 0 s.'],
  ])('%o is refused in plain words', (typed, refusal) =>
    expect(edgeEntries(edges, typed)).toEqual({ refusal }),
  );

  test('setting back names only the moved edges', () => {
    expect(foundAgain(edges)).toEqual([]);
    expect(foundAgain({ ...edges, startMs: 2600 })).toMatchObject([
      { edge: 'start', atMs: null, foundMs: 2503.4 },
    ]);
  });
});

describe('settings', () => {
  test('are the defaults where nothing is kept, where a field is missing, and where the document is damaged', async () => {
    const database = memoryDatabase();
    expect(await loadSettings(database)).toEqual(DEFAULT_SETTINGS);
    const put = (document: object) =>
      database.write(['settings'], async (to) =>
        ok(await to.put('settings', { id: 'settings', ...document })),
      );
    await put({ pressureUnit: 'psi' });
    expect(await loadSettings(database)).toEqual({ ...DEFAULT_SETTINGS, pressureUnit: 'psi' });
    await put({ pressureUnit: 'furlong' });
    expect(await loadSettings(database)).toEqual(DEFAULT_SETTINGS);
  });

  test('a change holds at once and is found again', async () => {
    const database = memoryDatabase();
    const store = new SettingsStore(database, DEFAULT_SETTINGS);
    const kept = store.change({ sounds: false });
    expect(store.value.sounds).toBe(false);
    await kept;
    expect((await loadSettings(database)).sounds).toBe(false);
  });

  test('hold without a database', async () => {
    const store = new SettingsStore(null, DEFAULT_SETTINGS);
    await store.change({ appearance: 'dark' });
    expect(store.value.appearance).toBe('dark');
  });
});

describe('the shelf of sheets', () => {
  const own = (id: string, title: string) => JSON.stringify({ ...DEMONSTRATION_SHEET, id, title });

  test('has the demonstration sheet first, then the others by title', async () => {
    const shelf = sheetShelf(memoryDatabase());
    await shelf.bring(own('b', 'Zebra'));
    await shelf.bring(own('a', 'Aspen'));
    expect((await shelf.list()).sheets.map(({ title }) => title)).toEqual([
      DEMONSTRATION_SHEET.title,
      'Aspen',
      'Zebra',
    ]);
  });

  test('replaces a sheet of the same id', async () => {
    const shelf = sheetShelf(memoryDatabase());
    await shelf.bring(own('a', 'Old'));
    await shelf.bring(own('a', 'New'));
    expect((await shelf.list()).sheets.map(({ title }) => title)).toEqual([DEMONSTRATION_SHEET.title, 'New']);
    await shelf.remove('a');
    expect((await shelf.list()).sheets).toEqual([DEMONSTRATION_SHEET]);
  });

  test('refuses a sheet that takes the id of the demonstration sheet, also one that lies there already', async () => {
    const database = memoryDatabase();
    const shelf = sheetShelf(database);
    expect(await shelf.bring(own('demonstration', 'Mine'))).toMatchObject({
      ok: false,
      problem: { code: 'limit.bad-entry', context: { place: 'id' } },
    });
    await database.write(['sheets'], async (to) =>
      ok(await to.put('sheets', JSON.parse(own('demonstration', 'Mine')))),
    );
    const { sheets, problems } = await shelf.list();
    expect(sheets).toEqual([DEMONSTRATION_SHEET]);
    expect(problems.map(({ code }) => code)).toEqual(['limit.bad-entry']);
  });

  test('names what is no sheet and keeps nothing of it', async () => {
    const shelf = sheetShelf(memoryDatabase());
    for (const text of ['', '{', '[]', 'null', '{"formatVersion":1}'])
      expect((await shelf.bring(text)).ok).toBe(false);
    expect(readSheetText('{')).toMatchObject({ problem: { code: 'limit.not-a-sheet' } });
    expect((await shelf.list()).sheets).toEqual([DEMONSTRATION_SHEET]);
  });
});
