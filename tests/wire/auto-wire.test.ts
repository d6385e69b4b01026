import { describe, expect, test } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { CERTAIN_LINES, HELD_BYTES, runAuto } from '../../src/wire/auto-wire.ts';
import { liveCanLogDecoder } from '../../src/wire/can-log.ts';
import { liveReadingLinesDecoder } from '../../src/wire/reading-lines.ts';
import { runDecoder } from '../../src/wire/running-decoder.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii } from './decode-all.ts';
import { readThrough, refused, said, type Piece } from './decode-lines.ts';

// Forms of lines: can-text-formats.md.
const SLCAN = 'T18FEF7008FFFFFFFFF200FFFF\r';
const LOG = [0, 1, 2, 3].map((i) => `(1589326646.63${i}000) can1 18FEF700#FFFFFFFFF200FFFF\n`);
const JSON_LINE = '{"rpm":150}\n';
const auto = (...pieces: Piece[]) => readThrough(runAuto(), pieces, false);
const toEnd = (...pieces: Piece[]) => readThrough(runAuto(), pieces);

describe('what a link speaks', () => {
  test.each([
    ['slcan', SLCAN.repeat(3)],
    ['slcan', 'T18FEF7008FFFFFFFFF200FFFF1F40\r'.repeat(3)],
    ['slcan', 't1230\r\nt1240\r\nt1250\r\n'],
    ['slcan', 't1230\nt1240\nt1250\n'],
    ['slcan', `F7008FFFF\r${SLCAN.repeat(3)}`],
    ['slcan', `\r\r\rV1013\r\x07${SLCAN.repeat(3)}`],
    ['slcan', `d123F${'00'.repeat(64)}\r`.repeat(3)],
    ['candump', LOG.join('')],
    ['candump', `.631) can1 18FEF700#FF\n${LOG.slice(1).join('')}`],
    ['candump', '  can0  123   [1]  11\n'.repeat(3)],
    ['candump', ' (000.010000)  can0  123   [1]  11\n'.repeat(3)],
    ['candump', '(1.0) can0 123##1112233\r\n'.repeat(3)],
    ['reading-lines', JSON_LINE.repeat(3)],
    ['reading-lines', '\r\n\r\n\r\nboot, ready\r\nt,rpm\r\n1,150\r\n21,151\r\n41,152\r\n'],
    ['reading-lines', 'rpm\n1\n2\n3\n'],
    ['reading-lines', 'rpm;battery\n1,5;12,1\n2;12\n3;12\n'],
  ])('is %s: %j', (protocol, text) => {
    expect(auto([0, text]).decoder.protocol).toBe(protocol);
  });

  test.each([
    ['two lines', SLCAN.repeat(2)],
    ['a third without its end', SLCAN.repeat(3).slice(0, -1)],
    ['one bad line for each good one', `${SLCAN}junk\r`.repeat(20)],
    ['a header without rows', 't,rpm\n'.repeat(20)],
    ['rows without a header', '1,150\n'.repeat(20)],
    ['objects that mean nothing', '{"a":1}\n'.repeat(20)],
    ['prose', 'The quick brown fox\njumps over the lazy dog\n'.repeat(20)],
    ['line ends', '\r\n'.repeat(50)],
    ['nothing', ''],
  ])('is not known from %s', (_what, text) => {
    const read = auto([0, text]);
    expect(read.decoder.protocol).toBeNull();
    expect(read.frames).toEqual([]);
    expect(read.readings).toEqual([]);
    expect(read.decoder.counts.bytes).toBe(text.length);
    expect(read.decoder.counts.frames).toBe(0);
    expect(read.decoder.clock).toBe('unknown');
  });

  test.each([
    ['a version', 'V1013\r'],
    ['acknowledgements', '\r\r'],
    ['a refusal', '\x07'],
    ['a serial number', 'NA123\r'],
    ['status flags', '\rF00\r'],
  ])('seems to be SLCAN from %s alone, and may still turn out otherwise', (_what, text) => {
    const read = auto([0, text]);
    expect(read.decoder.protocol).toBe('slcan');
    expect(read.notes).toEqual([]);
    expect(auto([0, text], [1, JSON_LINE.repeat(4)]).decoder.protocol).toBe('reading-lines');
  });

  test('becomes certain after a start of any length', () => {
    const boot = Array.from({ length: 500 }, (_, i) => `self-test ${i}: passed\r\n`).join('');
    const read = auto([0, boot], [1, JSON_LINE.repeat(CERTAIN_LINES)]);
    expect(read.decoder.protocol).toBe('reading-lines');
    expect(read.readings).toHaveLength(CERTAIN_LINES);
    expect(refused(read)).toEqual({ cutLine: 1, unknownLine: 499 });
  });

  test('does not change any more: not by lines of another protocol, not by an opening', () => {
    const read = auto([0, SLCAN.repeat(3)], [1, JSON_LINE.repeat(20)], 'open', [2, LOG.join('').repeat(5)]);
    expect(read.decoder.protocol).toBe('slcan');
    expect(read.frames).toHaveLength(3);
    expect(read.readings).toEqual([]);
  });

  test('is tried further over an opening, and nothing that was taken is lost', () => {
    const read = auto([0, `${SLCAN}T18FE`], 'open', [1, `F700\r${SLCAN.repeat(3)}`]);
    expect(read.decoder.protocol).toBe('slcan');
    expect(read.frames).toHaveLength(4);
    expect(refused(read)).toMatchObject({ cutLine: 1 });
  });

  test('is at the end what took more than it refused of late', () => {
    expect(toEnd([0, SLCAN]).frames).toHaveLength(1);
    expect(toEnd([0, JSON_LINE.trim()]).readings).toHaveLength(1);
    expect(toEnd([0, LOG[0]!.trim()]).decoder.protocol).toBe('candump');
    const none = toEnd([0, 'junk\nmore junk\n']);
    expect(none.decoder.protocol).toBeNull();
    expect(none.decoder.counts.malformed.unknownLine).toBeGreaterThan(0);
  });
});

describe('what comes before it is known', () => {
  test.each([
    ['slcan', slcanDecoder, `V1013\r\r${SLCAN.repeat(9)}`],
    ['candump', liveCanLogDecoder, LOG.join('')],
    ['reading-lines', liveReadingLinesDecoder, `boot\n${'{"t":7,"rpm":150}\n'.repeat(5)}`],
  ] as const)('comes out just as if %s had been known', (_name, decoder, text) => {
    const pieces = [...text].map((letter, i): Piece => [1000 + i, letter]);
    const known = readThrough(runDecoder(decoder as typeof slcanDecoder), pieces);
    const found = toEnd(...pieces);
    expect(found.frames).toEqual(known.frames);
    expect(found.readings).toEqual(known.readings);
    expect(found.breaks).toEqual(known.breaks);
    expect(found.frameBreaks).toEqual(known.frameBreaks);
    expect(found.notes).toEqual(known.notes);
    expect(found.decoder.counts).toEqual(known.decoder.counts);
    expect(found.decoder.clock).toBe(known.decoder.clock);
  });

  test('is counted and shown: bytes, and the lines that nobody takes', () => {
    const { counts } = auto([5, 'noise\r']).decoder;
    expect(counts.bytes).toBe(6);
    expect(counts.recentMalformed).toEqual([{ reason: 'unknownLine', atMs: 5, text: 'noise' }]);
  });

  test('is given up when too much came, and the loss is told', () => {
    const doubtful = `${SLCAN}junk\r`;
    const times = Math.ceil(HELD_BYTES / doubtful.length) + 1;
    const read = auto([0, doubtful.repeat(times)], [1, SLCAN.repeat(4)]);
    expect(read.decoder.protocol).toBe('slcan');
    expect(read.notes[0]).toMatchObject({ kind: 'lost' });
    const lost = read.notes[0]?.kind === 'lost' ? (read.notes[0].frames ?? 0) : 0;
    expect(lost).toBeGreaterThan(0);
    expect(read.frames.length + lost).toBe(read.decoder.counts.frames);
  });

  test('does not grow: a megabyte of noise leaves no more than a little', () => {
    let decoder = runAuto();
    const noise = Uint8Array.from({ length: 1000 }, (_, i) => (i * 7919 + (i >> 3) * 31) % 256);
    for (let i = 0; i < 200; i++) decoder = decoder.step(noise, millis(i)).next;
    expect(decoder.protocol).toBeNull();
    expect(decoder.counts.bytes).toBe(200_000);
    expect(decoder.counts.recentMalformed.length).toBeLessThanOrEqual(8);
  });

  test('an older state still reads right: stepping does not change it', () => {
    const before = runAuto().step(ascii(SLCAN.repeat(2)), millis(0)).next;
    const once = before.step(ascii(SLCAN), millis(1));
    const again = before.step(ascii(SLCAN), millis(1));
    expect(again.batches.map(({ count }) => count)).toEqual(once.batches.map(({ count }) => count));
    expect(before.protocol).toBeNull();
    expect(before.counts.bytes).toBe(2 * SLCAN.length);
  });
});

describe('the time of what was recognised', () => {
  test('SLCAN without stamps: the arrival of each line, also of those before it was known', () => {
    const read = auto([10, SLCAN], [20, SLCAN], [30, SLCAN], [40, SLCAN]);
    expect(read.frames.map(({ atMs }) => atMs)).toEqual([10, 20, 30, 40]);
  });

  test('candump: the first stamp stands at its arrival', () => {
    const read = auto([7000, LOG[0]!], [7003, LOG.slice(1).join('')]);
    expect(read.frames.map(({ atMs }) => atMs - 7000)).toEqual(
      [0, 1, 2, 3].map((ms) => expect.closeTo(ms, 3)),
    );
  });

  test('lines of values: t tied to arrival', () => {
    const read = auto([500, '{"t":9,"rpm":1}\n{"t":29,"rpm":2}\n{"t":49,"rpm":3}\n']);
    expect(said(read)).toEqual(['500 engineSpeed=1', '520 engineSpeed=2', '540 engineSpeed=3']);
  });
});
