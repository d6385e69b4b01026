import { describe, expect, it } from 'vitest';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineOptions,
} from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { originsOf, traceOf } from '../../src/signals/trace-set.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { ascii, CANDUMP, cranksOf, INTERVAL_MS, linesOf, TWO_CRANKS } from './fixtures/eec1-log.ts';

const LINK: PipelineOptions = { ...CANDUMP, wire: 'auto' };
const FILE: PipelineOptions = { ...CANDUMP, wire: 'reading-lines' };
const NO_ADDRESS = -1;

/** One event a line, each a little late, as from a link. */
const live = (lines: readonly string[]): LinkEvent[] =>
  lines.map((line, i) => ({
    kind: 'bytes',
    atMs: millis(10_000 + i * INTERVAL_MS + (i % 3)),
    bytes: ascii(line),
  }));
const through = (events: readonly LinkEvent[], options = LINK) =>
  finishPipeline(events.reduce(stepPipeline, startPipeline(options)));
const inFile = (text: string, options = FILE) =>
  through([{ kind: 'bytes', atMs: millis(0), bytes: ascii(text) }], options);
const edges = (state: ReturnType<typeof through>) =>
  crankTable(state, { over: true }).cranks.map(({ startMs, endMs, crank }) => [
    startMs,
    endMs,
    crank.endedBy,
  ]);
const speedOf = (state: ReturnType<typeof through>) => traceOf(state.traces, 'engineSpeed', NO_ADDRESS);

const json = TWO_CRANKS.map((rpm, i) => `{"t":${5000 + i * INTERVAL_MS},"rpm":${rpm}}\r\n`);
const csv = [
  't;rpm;battery\n',
  ...TWO_CRANKS.map((rpm, i) => `${5000 + i * INTERVAL_MS};${String(rpm).replace('.', ',')};11,5\n`),
];
/** The same speeds as frames; their raw value is rounded to 0.125 rpm. */
const WHOLE = cranksOf(linesOf(TWO_CRANKS));
const WHOLE_FROM_MS = 1_700_000_000_000;

describe('lines of values through the pipeline', () => {
  it.each([
    ['JSON objects', json],
    ['cells under a header', csv],
  ])('%s give the cranks that frames with the same speeds give', (_what, lines) => {
    const state = through(live(lines));
    expect(state.wire!.protocol).toBe('reading-lines');
    expect(speedOf(state).length).toBe(TWO_CRANKS.length);
    const found = edges(state);
    expect(found.map(([, , endedBy]) => endedBy)).toEqual(['released', 'released']);
    const firstMs = speedOf(state).atMs[0]!;
    found.forEach(([startMs, endMs], i) => {
      expect(Math.abs((startMs as number) - firstMs - (WHOLE[i]!.startMs - WHOLE_FROM_MS))).toBeLessThan(1);
      expect(Math.abs((endMs as number) - firstMs - (WHOLE[i]!.endMs - WHOLE_FROM_MS))).toBeLessThan(1);
    });
    expect(originsOf(state.traces, 'engineSpeed').map(({ origin }) => origin)).toEqual([NO_ADDRESS]);
  });

  it('a recording of the link, replayed, gives the very same', () => {
    const events = live([...csv.slice(0, 100), ...json.slice(100)]);
    expect(edges(through(events))).toEqual(edges(through(events)));
    expect([...speedOf(through(events)).atMs]).toEqual([...speedOf(through(events)).atMs]);
  });

  it('a board that starts again within a crank ends it as lost, and the rest is another', () => {
    const middle = 150; // 1 s into the first crank of 3 s
    const again = json.map((line, i) =>
      i < middle ? line : line.replace(/\d+/, String(i * INTERVAL_MS - middle * INTERVAL_MS)),
    );
    const found = edges(through(live(again)));
    expect(found.map(([, , endedBy]) => endedBy)).toEqual(['data lost', 'released', 'released']);
  });

  it('a link that is opened again within a crank likewise, and the count of lines goes on', () => {
    const events = live(json);
    events.splice(150, 0, { kind: 'open', atMs: millis(13_000), device: 'board', write: null });
    const state = through(events);
    expect(edges(state).map(([, , endedBy]) => endedBy)).toEqual(['data lost', 'released', 'released']);
    expect(state.wire!.counts.frames).toBe(json.length);
  });

  it('several breaks in one piece each end what goes on', () => {
    const lines = [0, 1, 2].flatMap(() =>
      Array.from({ length: 50 }, (_, i) => `{"t":${i * 20},"rpm":150}\n`),
    );
    const state = inFile(lines.join(''));
    expect(edges(state).map(([, , endedBy]) => endedBy)).toEqual(['data lost', 'data lost', 'cut']);
    expect(speedOf(state).length).toBe(150);
  });

  it('a file keeps the time of its own clock', () => {
    const state = inFile(json.join(''));
    expect(state.firstMs).toBe(5000);
    expect(speedOf(state).atMs[1]).toBe(5020);
    expect(state.untimedFrames).toBe(0);
  });

  it('a file without t gives no time, unless the person gives the interval', () => {
    const text = '{"rpm":150,"battery":11}\n{"rpm":151}\n';
    const none = inFile(text);
    expect(none.untimedFrames).toBe(3);
    expect(none.firstMs).toBeNull();
    expect(none.traces.traces.size).toBe(0);
    const given = inFile(text, { ...FILE, givenIntervalMs: 100 });
    expect([...speedOf(given).atMs.subarray(0, 2)]).toEqual([0, 100]);
  });

  it('tells keys that mean nothing in the notes', () => {
    expect(inFile('{"t":1,"rpm":1,"gear":2}\n').notes).toEqual([{ kind: 'unknownKey', text: 'gear' }]);
  });
});

describe('frames through recognition', () => {
  it('of candump text give the cranks of the file, in the time of the link', () => {
    const state = through(live(linesOf(TWO_CRANKS)));
    expect(state.wire!.protocol).toBe('candump');
    const table = crankTable(state, { over: true }).cranks;
    expect(table.map(({ crank }) => crank.endedBy)).toEqual(WHOLE.map(({ crank }) => crank.endedBy));
    expect(traceOf(state.traces, 'engineSpeed', 0).atMs[0]).toBe(10_000);
    table.forEach(({ time }, i) => expect(time.spanMs).toBeCloseTo(WHOLE[i]!.time.spanMs, 3));
  });

  it('of SLCAN give what the pipeline gives that was told so', () => {
    const slcan = TWO_CRANKS.map((rpm) => {
      const raw = Math.round(rpm * 8)
        .toString(16)
        .toUpperCase()
        .padStart(4, '0');
      return `T0CF004008FFFFFF${raw.slice(2)}${raw.slice(0, 2)}FFFFFF\r`;
    });
    const found = through(live(slcan));
    const told = through(live(slcan), { ...CANDUMP, wire: 'slcan' });
    expect(edges(found)).toEqual(edges(told));
    expect(found.wire!.counts).toEqual(told.wire!.counts);
  });
});
