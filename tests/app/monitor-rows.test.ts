import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { monitorSource, troubleRows } from '../../src/app/monitor-rows.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { RECENT_FRAMES } from '../../src/pipeline/bus-state.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineState,
} from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { MALFORMED_REASONS } from '../../src/wire/wire-decoder.ts';
import { ascii, CANDUMP, eec1Line } from '../pipeline/fixtures/eec1-log.ts';

const heard = (pieces: readonly string[], state: PipelineState = startPipeline(CANDUMP)): PipelineState =>
  pieces.reduce(
    (before, text, place) => stepPipeline(before, { kind: 'bytes', atMs: millis(place), bytes: ascii(text) }),
    state,
  );
/** The same, and the source has ended: lines that wait for others are taken. */
const whole = (...pieces: readonly string[]): PipelineState => finishPipeline(heard(pieces));
const lines = (count: number, from = 0): string[] =>
  Array.from({ length: count }, (_, place) => eec1Line((from + place) * 10, (from + place) % 1000));
const source = (state: PipelineState | null) => monitorSource(() => state);
const allRows = (state: PipelineState) => {
  const rows = source(state);
  return Array.from({ length: rows.count() - (rows.first?.() ?? 0) }, (_, place) =>
    rows.row((rows.first?.() ?? 0) + place),
  );
};

describe('the raw monitor', () => {
  test('has no rows before anything came, nor without a source', () => {
    for (const state of [null, heard([])]) {
      expect(source(state).count()).toBe(0);
      expect(source(state).first?.()).toBe(0);
      expect(source(state).row(0)).toMatchObject({ kind: 'note', reason: 'no longer held' });
    }
  });

  test('shows a frame as received, with its time from the first data and what it says', () => {
    const [first, second] = allRows(heard([eec1Line(0, 0), eec1Line(12_345, 152.125)]));
    expect(first).toMatchObject({ kind: 'frame', time: '0.000' });
    // 0CF00400: priority 3, PGN 61444 (EEC1), source 00; 152.125 rpm are 1217 = 04C1 hex at 0.125 rpm a bit (J1939-71, SPN 190)
    expect(second).toMatchObject({
      kind: 'frame',
      time: '12.345',
      id: '0CF00400',
      pgn: 61444,
      source: 0,
      data: 'FF FF FF C1 04 FF FF FF',
    });
    expect(second?.kind === 'frame' && second.decoded).toContain('152.1');
  });

  test('shows 11-bit, remote and error frames without making J1939 out of them', () => {
    const [short, remote, error] = allRows(
      whole(
        '(1.000000) can0 123#0102\n',
        '(1.000000) can0 1F8A3FB7#R3\n',
        '(1.000000) can0 20000004#0000000000000000\n',
      ),
    );
    expect(short).toMatchObject({ id: '123', pgn: null, source: null, data: '01 02', decoded: '' });
    expect(remote).toMatchObject({ data: '', decoded: 'remote frame' });
    expect(error).toMatchObject({ decoded: 'error frame', pgn: null });
  });

  test('names the group where nothing is known of its bytes', () => {
    const [row] = allRows(whole('(1.000000) can0 18FEEC00#0102030405060708\n')); // PGN 65260, vehicle identification
    expect(row?.kind === 'frame' && row.decoded).toMatch(/vehicle identification/i);
  });

  test('of a log without time shows no time', () => {
    expect(allRows(heard(['can0 0CF00400#FFFFFF0000FFFFFF\n']))[0]).toMatchObject({ time: '' });
  });

  test('numbers rows from the first frame on and forgets the oldest', () => {
    const state = heard([lines(1500).join(''), lines(1500, 1500).join(''), lines(1500, 3000).join('')]);
    const rows = source(state);
    expect(rows.count()).toBe(4500);
    expect(rows.count() - rows.first!()).toBeGreaterThanOrEqual(RECENT_FRAMES);
    expect(rows.row(4499)).toMatchObject({ time: '44.990' });
    expect(rows.row(rows.first!())).toMatchObject({ kind: 'frame', time: (rows.first!() / 100).toFixed(3) });
    for (const index of [0, rows.first!() - 1, 4500, 9999])
      expect(rows.row(index)).toMatchObject({ kind: 'note', reason: 'no longer held' });
  });

  test('gives each row the same number however the stream was cut', () => {
    const text = lines(60).join('');
    const expected = allRows(heard([text]));
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: text.length - 1 }), { maxLength: 30 }), (cuts) => {
        const edges = [0, ...cuts.sort((a, b) => a - b), text.length];
        const pieces = edges.slice(1).map((to, place) => text.slice(edges[place], to));
        expect(allRows(heard(pieces))).toEqual(expected);
      }),
      { numRuns: 30 },
    );
  });

  test('shows the latest state, and a frozen one for as long as it is wanted', () => {
    let state = heard(lines(2));
    const rows = monitorSource(() => state);
    const frozen = rows.freeze!();
    state = heard(lines(1, 2), state);
    expect([rows.count(), frozen.count()]).toEqual([3, 2]);
    expect(frozen.row(1)).toMatchObject({ kind: 'frame' });
    expect(rows.row(2)).toMatchObject({ kind: 'frame', time: '0.020' });
  });
});

describe('a stream that means nothing to us', () => {
  const dumb = (...pieces: readonly string[]) => heard(pieces);

  test('is shown as bytes, eight a row, the last one as it is so far', () => {
    expect(allRows(dumb('Hello \u0001wo', 'rld'))).toEqual([
      { kind: 'bytes', time: '', hex: '48 65 6C 6C 6F 20 01 77', text: 'Hello .w' },
      { kind: 'bytes', time: '', hex: '6F 72 6C 64', text: 'orld' },
    ]);
  });

  test('keeps its row numbers when the oldest bytes are forgotten', () => {
    const rows = source(dumb('x'.repeat(4096), 'y'.repeat(20)));
    expect(rows.count()).toBe(Math.ceil(4116 / 8));
    expect(rows.first!()).toBe(Math.floor(20 / 8));
    expect(rows.row(rows.first!())).toMatchObject({ text: 'x'.repeat(4) }); // bytes 20 to 23
    expect(rows.row(rows.count() - 1)).toMatchObject({ text: 'y'.repeat(4) });
    expect(rows.row(512)).toMatchObject({ text: 'y'.repeat(8) });
  });

  test('gives way to frames once there are any', () => {
    const state = heard(['noise\n', eec1Line(0, 100)]);
    expect(allRows(state)).toMatchObject([{ kind: 'frame' }]);
  });

  test('shows nothing of a source that delivers numbers', () => {
    const readings = startPipeline({
      wire: 'readings',
      crankSettings: DEFAULT_CRANK_SETTINGS,
      givenIntervalMs: null,
    });
    expect(source(readings).count()).toBe(0);
  });
});

test('lines that were not taken are shown with their reason', () => {
  const [row] = troubleRows(whole('(1.000000) can0 0CF00400#FF\n', 'nonsense\n'));
  expect(row).toMatchObject({ kind: 'malformed', text: 'nonsense' });
  expect(row?.reason).not.toBe('');
  expect(troubleRows({ wire: null, firstMs: null })).toEqual([]);
});

test('every reason has its words, no two the same', () => {
  const state = whole('x\n');
  const [one] = state.wire!.counts.recentMalformed;
  const all = MALFORMED_REASONS.map((reason) => ({ ...one!, reason }));
  const wire = { ...state.wire!, counts: { ...state.wire!.counts, recentMalformed: all } };
  const words = troubleRows({ wire, firstMs: null }).map(({ reason }) => reason);
  expect(new Set(words).size).toBe(MALFORMED_REASONS.length);
});
