import { describe, expect, it } from 'vitest';
import { originsOf, traceOf } from '../../src/signals/trace-set.ts';
import { ascii, CANDUMP, eec1Data, linesOf, readPieces, tableOf, TWO_CRANKS } from './fixtures/eec1-log.ts';

/** Found by tests/fuzz: a line without a stamp beside lines with one, as where a recording begins within a line. */
const LINES = linesOf(TWO_CRANKS);
const UNSTAMPED = `can0 0CF00400#${eec1Data(150)}\n`;
const through = (lines: readonly string[], options = CANDUMP) => readPieces([ascii(lines.join(''))], options);
const speeds = (state: ReturnType<typeof through>) => traceOf(state.traces, 'engineSpeed', 0).length;

describe('a log in which single lines lost their stamp', () => {
  it.each([
    ['the first', 0],
    ['one in a crank', 150],
    ['the last', TWO_CRANKS.length],
  ])('leaves out %s alone, counts it, and reads every other frame', (_, place) => {
    const state = through(LINES.toSpliced(place, 0, UNSTAMPED));
    expect(state.untimedFrames).toBe(1);
    expect(speeds(state)).toBe(LINES.length);
    expect(tableOf(state).cranks).toEqual(tableOf(through(LINES)).cranks);
    expect(state.firstMs).toBe(1_700_000_000_000); // the stamp of the first stamped line
  });

  it('reads the same whether the lines came together or one by one', () => {
    const lines = LINES.toSpliced(100, 0, UNSTAMPED, UNSTAMPED);
    const apart = readPieces(lines.map(ascii));
    expect(speeds(apart)).toBe(speeds(through(lines)));
    expect(apart.untimedFrames).toBe(2);
  });

  it('knows of no origin that sent nothing with a time', () => {
    const state = through([...LINES, `can0 0CF00421#${eec1Data(150)}\n`]);
    expect([...state.finders.keys()]).toEqual([0]);
    expect([...originsOf(state.traces, 'engineSpeed')].map(({ origin }) => origin)).toEqual([0]);
    expect(state.traces.traces.size).toBe(through(LINES).traces.traces.size);
  });

  it('with an interval given, times the lines without a stamp by it and leaves the others their own', () => {
    const bare = linesOf([0, 150, 150]).map((line) => line.slice(line.indexOf(') ') + 2));
    const state = through([...bare, ...LINES.slice(0, 2)], { ...CANDUMP, givenIntervalMs: 500 });
    const { atMs, length } = traceOf(state.traces, 'engineSpeed', 0);
    expect([...atMs.subarray(0, length)]).toEqual([0, 500, 1000, 1_700_000_000_000, 1_700_000_000_020]);
    expect(state.firstMs).toBe(0);
    expect(state.untimedFrames).toBe(0);
  });
});
