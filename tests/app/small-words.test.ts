import { describe, expect, test } from 'vitest';
import { cueOf } from '../../src/app/clock-cue.ts';
import { edgeEntries, edgeText, foundAgain } from '../../src/app/edge-entries.ts';
import { entryLine } from '../../src/app/entry-line.ts';
import { frameRate } from '../../src/app/frame-rate.ts';
import { newRun } from '../../src/app/new-run.ts';
import { readLogNumbers } from '../../src/app/read-log-numbers.ts';
import { shownStep } from '../../src/app/shown-step.ts';
import { vesselById } from '../../src/checks/vessels.ts';
import { readRun } from '../../src/jobs/run-store.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { planSpeedLog } from '../../src/logs/plan-import.ts';
import { ok } from '../../src/problems/result.ts';
import { NOW_ISO } from './services.ts';

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
  const report = (codes: number): Extract<RunEntry, { kind: 'codes' }>['active'][number] => ({
    origin: 0,
    atMs: 0,
    lamps: { malfunction: 'off', redStop: 'off', amberWarning: 'on', protect: 'off' },
    codes: Array.from({ length: codes }, () => ({ spn: 157, fmi: 18, occurrences: 1, otherSpns: [] })),
  });
  const entries: readonly (readonly [RunEntry, string])[] = [
    [{ ...at, kind: 'caution-ticked', caution: 'fire', reason: '' }, 'caution read: fire'],
    [
      { ...at, kind: 'volume', readingsMl: [200, 50], typed: '200+50', reason: 'refilled' },
      'volume 200 + 50 mL (typed “200+50”) – refilled',
    ],
    [
      {
        ...at,
        kind: 'volume',
        readingsMl: [316.8],
        typed: '316.8',
        photo: { photoId: 'p', standardUncertaintyMl: 0.5 },
        reason: '',
      },
      'volume 316.8 mL (read off a photograph)',
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
    [
      {
        ...at,
        kind: 'identity',
        field: 'serialNumber',
        value: 'X12',
        from: 'bus',
        origin: 0x100,
        reason: '',
      },
      'engine serial number: X12 (from address 00)',
    ],
    [
      { ...at, kind: 'identity', field: 'vin', value: 'X', from: 'typed', origin: null, reason: 'plate' },
      'VIN: X (typed) – plate',
    ],
    [
      { ...at, kind: 'identity', field: 'unitNumber', value: '', from: 'typed', origin: null, reason: '' },
      'unit number taken back',
    ],
    [
      { ...at, kind: 'sheet', sheet: DEMONSTRATION_SHEET, reason: 'the right one' },
      `limit sheet: ${DEMONSTRATION_SHEET.title}, revision 1 – the right one`,
    ],
    [
      {
        ...at,
        kind: 'codes',
        active: [report(1), report(2)],
        previous: [report(0)],
        reason: '',
      },
      'trouble codes noted: 3 active, 0 previously active',
    ],
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
    origin: 3,
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
        {
          kind: 'crank-edge',
          crank: 1,
          origin: 3,
          edge: 'end',
          foundMs: 17_500,
          atMs: 17_000,
          reason: 'released late',
        },
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
