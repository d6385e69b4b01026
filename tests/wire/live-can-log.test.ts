import { describe, expect, test } from 'vitest';
import { liveCanLogDecoder } from '../../src/wire/can-log.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import { readThrough, refused, type Piece } from './decode-lines.ts';

// Forms of lines: can-text-formats.md, Part 2.
const live = (...pieces: Piece[]) => readThrough(runDecoder(liveCanLogDecoder), pieces);
const at = (read: ReturnType<typeof live>) => read.frames.map(({ atMs }) => Number(atMs.toFixed(3)));
const stamped = (seconds: number, rest = 'can0 123#11') => `(${seconds.toFixed(6)}) ${rest}\n`;

describe('candump text that comes over a link', () => {
  test('with absolute stamps: the first stands at its arrival, the others at their distance from it', () => {
    const read = live(
      [5000, stamped(1_589_326_646)],
      [5013, stamped(1_589_326_646.01) + stamped(1_589_326_646.0125)],
    );
    expect(at(read)).toEqual([5000, 5010, 5012.5]);
    expect(read.frameBreaks).toEqual([]);
    expect(read.decoder.clock).toBe('source');
  });

  test('with date and time, and with zero-based stamps, likewise', () => {
    const date = (ms: string) => ` (2026-11-24 12:00:00.${ms})  can0  123   [1]  11\n`;
    expect(at(live([5000, date('000000') + date('020000')]))).toEqual([5000, 5020]);
    expect(at(live([5000, stamped(64.75) + stamped(64.77)]))).toEqual([5000, 5020]);
  });

  test('with zero-based stamps is read line by line: nothing waits for more', () => {
    const read = readThrough(runDecoder(liveCanLogDecoder), [[0, stamped(0.5)]], false);
    expect(read.frames).toHaveLength(1);
  });

  test('without stamps: arrival', () => {
    const read = live([5000, '  can0  123   [1]  11\n'], [5030, '  can0  123   [1]  11\n'.repeat(2)]);
    expect(at(read)).toEqual([5000, 5030, 5030]);
    expect(read.decoder.clock).toBe('arrival');
    expect(read.frameBreaks).toEqual([]);
  });

  test.each([
    ['falls', 1_589_326_640],
    ['jumps ahead', 1_589_326_700],
  ])('breaks where a stamp %s, and counts from its arrival on', (_what, seconds) => {
    const read = live(
      [0, stamped(1_589_326_646)],
      [20, stamped(1_589_326_646.02)],
      [40, stamped(seconds)],
      [60, stamped(seconds + 0.02)],
    );
    expect(at(read)).toEqual([0, 20, 40, 60]);
    expect(read.frameBreaks).toEqual([2]);
  });

  test('does not break at slight disorder between interfaces', () => {
    const read = live([0, stamped(1.0) + stamped(1.03, 'can1 123#11') + stamped(1.02) + stamped(1.04)]);
    expect(at(read)).toEqual([0, 30, 30, 40]);
    expect(read.frameBreaks).toEqual([]);
    expect(read.frames.map(({ channel }) => channel)).toEqual([0, 1, 0, 0]);
  });

  test('with delta stamps: they are added up once enough of them fell', () => {
    const deltas = Array.from({ length: 400 }, (_, i) => (i % 2 === 0 ? 0.001 : 0.003));
    let arrivalMs = 0;
    const read = live(...deltas.map((delta): Piece => [(arrivalMs += delta * 1000), stamped(delta)]));
    expect(read.frameBreaks).toEqual([]);
    const times = at(read);
    const after = times.slice(20);
    after.slice(1).forEach((atMs, i) => expect([1, 3]).toContain(Number((atMs - after[i]!).toFixed(3))));
    expect(Math.abs(times.at(-1)! - arrivalMs)).toBeLessThan(30);
  });

  test('a logger that starts again with zero-based stamps is a break, not delta stamps', () => {
    const run = (from: number): Piece[] =>
      Array.from({ length: 50 }, (_, i): Piece => [from + i * 20, stamped(i * 0.02)]);
    const read = live(...run(1000), ...run(5000));
    expect(read.frameBreaks).toEqual([50]);
    expect(at(read).slice(48, 52)).toEqual([1960, 1980, 5000, 5020]);
  });

  test('begins anywhere in a line: a rest that looks whole is not taken', () => {
    const read = live([0, `n0 123#22\n${stamped(1)}`]);
    expect(read.frames.map(({ data }) => data)).toEqual([[0x11]]);
    expect(refused(read)).toEqual({ cutLine: 1 });
  });

  test('is tied anew behind an opening; time goes on and never falls', () => {
    const read = live([1000, stamped(10)], 'open', [4000, stamped(99)], [4020, stamped(99.02)], 'open', [
      4000,
      stamped(3),
    ]);
    expect(at(read)).toEqual([1000, 4000, 4020, 4020]);
    expect(read.decoder.counts.frames).toBe(4);
  });

  test('a break at a frame that is not kept comes before the next that is', () => {
    const fd = 'can0 123##1112233445566778899AABBCC';
    const read = live([0, stamped(50)], [20, stamped(1, fd)], [40, stamped(1.02)]);
    expect(read.frameBreaks).toEqual([1]);
    expect(at(read)).toEqual([0, 40]);
  });
});
