import { describe, expect, test } from 'vitest';
import { liveReadingLinesDecoder, readingLinesDecoder } from '../../src/wire/reading-lines.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import { readThrough, type Piece } from './decode-lines.ts';

const live = (...pieces: Piece[]) => readThrough(runDecoder(liveReadingLinesDecoder), pieces);
const file = (lines: string) => readThrough(runDecoder(readingLinesDecoder), [[0, lines]]);

describe('time on a link', () => {
  const at = (read: ReturnType<typeof live>) => read.readings.map(({ atMs }) => atMs);

  test('is that of t, the first at its arrival', () => {
    const read = live(
      [1000, '{"t":50000,"rpm":1}\n'],
      [1024, '{"t":50020,"rpm":1}\n'],
      [1090, '{"t":50040,"rpm":1}\n{"t":50060,"rpm":1}\n'],
    );
    expect(at(read)).toEqual([1000, 1020, 1040, 1060]);
    expect(read.breaks).toEqual([]);
    expect(read.decoder.clock).toBe('source');
  });

  test('may be given in us and s', () => {
    expect(at(live([1000, '{"t_us":5000000,"rpm":1}\n{"t_us":5020500,"rpm":1}\n']))).toEqual([1000, 1020.5]);
    expect(at(live([1000, '{"t_s":5.0,"rpm":1}\n{"t_s":5.25,"rpm":1}\n']))).toEqual([1000, 1250]);
  });

  test('is arrival without t', () => {
    const read = live([1000, '{"rpm":1}\n'], [1030, '{"rpm":1}\n{"rpm":2}\n']);
    expect(at(read)).toEqual([1000, 1030, 1030]);
    expect(read.breaks).toEqual([]);
    expect(read.decoder.clock).toBe('arrival');
  });

  test.each([
    ['t', 2 ** 32],
    ['t_us', 2 ** 32],
  ])('goes on where the 32-bit counter of %s starts again', (key, turn) => {
    const step = key === 't' ? 20 : 20_000;
    const lines = [-2, -1, 0, 1].map((i) => `{"${key}":${i < 0 ? turn + i * step : i * step},"rpm":1}\n`);
    const read = live(...lines.map((line, i): Piece => [1000 + 20 * i, line]));
    for (const [i, atMs] of at(read).entries()) expect(atMs).toBeCloseTo(1000 + 20 * i, 6);
    expect(read.breaks).toEqual([]);
  });

  test('breaks where t runs backwards: the board started again', () => {
    const read = live(
      [1000, '{"t":90000,"rpm":1}\n'],
      [1020, '{"t":90020,"rpm":1}\n'],
      [4000, '{"t":300,"rpm":1}\n'],
      [4020, '{"t":320,"rpm":1}\n'],
    );
    expect(at(read)).toEqual([1000, 1020, 4000, 4020]);
    expect(read.breaks).toEqual([2]);
  });

  test('breaks where t jumps ahead of arrival', () => {
    const read = live(
      [1000, '{"t":0,"rpm":1}\n'],
      [1020, '{"t":9000,"rpm":1}\n'],
      [1040, '{"t":9020,"rpm":1}\n'],
    );
    expect(at(read)).toEqual([1000, 1020, 1040]);
    expect(read.breaks).toEqual([1]);
  });

  test('does not break where t and arrival rest together', () => {
    const read = live([1000, '{"t":0,"rpm":1}\n'], [61_000, '{"t":60000,"rpm":1}\n']);
    expect(at(read)).toEqual([1000, 61_000]);
    expect(read.breaks).toEqual([]);
  });

  test('does not break where lines were held up on the way', () => {
    const late = Array.from({ length: 100 }, (_, i) => `{"t":${i * 100},"rpm":1}\n`);
    const read = live([1000, late[0]!], [11_000, late.slice(1).join('')]);
    expect(read.breaks).toEqual([]);
    expect(at(read).at(-1)! - 10_900).toBeLessThan(100); // held up up to 10 s: stretched by 1 % at most
  });

  test('of a line between those with t is that of the line before', () => {
    const read = live([1000, '{"t":0,"rpm":1}\n{"battery":12}\n{"t":20,"rpm":1}\n']);
    expect(at(read)).toEqual([1000, 1000, 1020]);
    expect(read.breaks).toEqual([]);
  });

  test('a null t is no t', () => {
    expect(at(live([1000, '{"t":null,"rpm":1}\n']))).toEqual([1000]);
  });

  test('a break at a line without values comes before the next reading', () => {
    const read = live([1000, '{"t":500,"rpm":1}\n{"t":5}\n'], [1020, '{"t":25,"rpm":2}\n']);
    expect(read.breaks).toEqual([1]);
    expect(at(read)).toEqual([1000, 1020]);
  });

  test('is tied anew behind an opening, and never falls', () => {
    const read = live([1000, '{"t":0,"rpm":1}\n{"t":500,"rpm":1}\n'], 'open', [1200, '{"t":7,"rpm":1}\n']);
    expect(at(read)).toEqual([1000, 1500, 1500]);
  });
});

describe('time in a file', () => {
  const at = (read: ReturnType<typeof file>) => read.readings.map(({ atMs }) => atMs);

  test('is t as it stands, whatever arrives when', () => {
    const read = file('{"t":50000,"rpm":1}\n{"t":99999,"rpm":1}\n');
    expect(at(read)).toEqual([50_000, 99_999]);
    expect(read.breaks).toEqual([]);
    expect(read.decoder.clock).toBe('source');
  });

  test('goes on where the counter starts again', () => {
    const read = file(`{"t_us":${2 ** 32 - 20_000},"rpm":1}\n{"t_us":0,"rpm":1}\n`);
    expect(at(read)[1]! - at(read)[0]!).toBeCloseTo(20, 6);
    expect(read.breaks).toEqual([]);
  });

  test('breaks where t falls, and goes on from there', () => {
    const read = file('{"t":5000,"rpm":1}\n{"t":10,"rpm":1}\n{"t":30,"rpm":1}\n');
    expect(at(read)).toEqual([5000, 5000, 5020]);
    expect(read.breaks).toEqual([1]);
  });

  test('is none without t', () => {
    const read = file('{"rpm":1}\n');
    expect(at(read)).toEqual([NaN]);
    expect(read.decoder.clock).toBe('none');
  });
});
