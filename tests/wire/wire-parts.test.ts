import { describe, expect, test } from 'vitest';
import { frameAt } from '../../src/wire/frame-at.ts';
import { frameColumns, reserveRow, sealBatches } from '../../src/wire/frame-columns.ts';
import { HEX_VALUE, hexNumber } from '../../src/wire/hex-digits.ts';
import { MALFORMED_REASONS } from '../../src/wire/wire-decoder.ts';
import {
  countsOf,
  NO_COUNTS,
  noteLost,
  noteMalformed,
  shownText,
  tallyFrom,
} from '../../src/wire/wire-tally.ts';
import { ascii } from './decode-all.ts';

describe('hexadecimal digits', () => {
  test('every byte has the value of its digit, or -1', () => {
    const digits = '0123456789abcdef';
    for (let byte = 0; byte < 256; byte++) {
      const letter = String.fromCharCode(byte);
      expect(HEX_VALUE[byte]).toBe(
        /[A-F]/.test(letter) ? digits.indexOf(letter.toLowerCase()) : digits.indexOf(letter),
      );
    }
  });

  test.each([
    ['0', 0],
    ['7ff', 0x7ff],
    ['18FEF700', 0x18fef700],
    ['FFFFFFFF', 0xffffffff],
    ['fFfF', 0xffff],
    ['', 0],
    ['12G4', -1],
    [' 12', -1],
    ['1 2', -1],
    ['0x12', -1],
    ['-1', -1],
  ])('%j reads as %d', (text, value) => {
    expect(hexNumber(ascii(text), 0, text.length)).toBe(value);
  });

  test('only the asked part is read', () => {
    expect(hexNumber(ascii('G12G'), 1, 3)).toBe(0x12);
  });
});

describe('columns of frames', () => {
  const filled = (rows: number, breaks: readonly number[] = []) => {
    const columns = frameColumns(2);
    for (let row = 0; row < rows; row++) {
      reserveRow(columns);
      columns.atMs[row] = row + 0.5;
      columns.id[row] = 0x1fffff00 + row;
      columns.flags[row] = row % 16;
      columns.length[row] = 8;
      columns.channel[row] = 255 - row;
      columns.data.fill(row, row * 8, row * 8 + 8);
      columns.count++;
    }
    columns.breaks.push(...breaks);
    return columns;
  };

  test('growing keeps every column of every row', () => {
    const [batch] = sealBatches(filled(100));
    expect(batch?.count).toBe(100);
    for (let row = 0; row < 100; row++) {
      expect(frameAt(batch!, row)).toEqual({
        atMs: row + 0.5,
        id: 0x1fffff00 + row,
        extended: (row & 1) !== 0,
        remote: (row & 2) !== 0,
        error: (row & 4) !== 0,
        sent: (row & 8) !== 0,
        length: 8,
        channel: 255 - row,
        data: row & 2 ? [] : Array.from({ length: 8 }, () => row),
      });
    }
  });

  test('growing keeps the breaks met so far', () => {
    const columns = frameColumns(0);
    columns.breaks.push(0);
    reserveRow(columns);
    expect(columns.breaks).toEqual([0]);
    expect(columns.id.length).toBeGreaterThan(0);
  });

  test('room that is there is not made again', () => {
    const columns = frameColumns(1);
    const { id } = columns;
    reserveRow(columns);
    expect(columns.id).toBe(id);
  });

  test.each<readonly [string, number, readonly number[], readonly (readonly [number, boolean])[]]>([
    ['no rows', 0, [], []],
    ['no rows and a break', 0, [0], []],
    ['no break', 3, [], [[3, false]]],
    ['a break before the first row', 3, [0], [[3, true]]],
    [
      'a break in the middle',
      5,
      [2],
      [
        [2, false],
        [3, true],
      ],
    ],
    [
      'a break before the last row',
      3,
      [2],
      [
        [2, false],
        [1, true],
      ],
    ],
    [
      'breaks before each row',
      3,
      [0, 1, 2],
      [
        [1, true],
        [1, true],
        [1, true],
      ],
    ],
    ['a break at a row that was not kept', 3, [3], [[3, false]]],
    [
      'the same break twice',
      3,
      [1, 1],
      [
        [1, false],
        [2, true],
      ],
    ],
  ])('cut at the breaks: %s', (_what, rows, breaks, wanted) => {
    const batches = sealBatches(filled(rows, breaks));
    expect(batches.map(({ count, breakBefore }) => [count, breakBefore])).toEqual(wanted);
    const ids = batches.flatMap((batch) => [...batch.id]);
    expect(ids).toEqual(Array.from({ length: rows }, (_, row) => 0x1fffff00 + row));
    for (const { count, data, atMs, flags, length, channel } of batches) {
      expect([atMs.length, flags.length, length.length, channel.length]).toEqual([
        count,
        count,
        count,
        count,
      ]);
      expect(data.length).toBe(count * 8);
      expect(data[0]).toBe(Math.floor(atMs[0]!));
    }
  });
});

describe('counts', () => {
  const junk = (n: number) => ({ reason: 'badHex' as const, atMs: n, text: `line ${n}` });

  test('begin at nothing, for each reason', () => {
    expect(Object.keys(NO_COUNTS.malformed)).toEqual([...MALFORMED_REASONS]);
    expect(Object.values(NO_COUNTS.malformed).every((lines) => lines === 0)).toBe(true);
  });

  test('a tally goes its own way and keeps what was counted before', () => {
    const tally = tallyFrom(NO_COUNTS);
    noteMalformed(tally, junk(1));
    noteLost(tally, 3);
    tally.lines += 5;
    tally.frames += 4;
    tally.bytes += 99;
    const counts = countsOf(tally);
    expect(counts).toMatchObject({ lines: 5, frames: 4, bytes: 99, lost: 3 });
    expect(NO_COUNTS).toMatchObject({ lines: 0, lost: 0, malformed: { badHex: 0 }, recentMalformed: [] });
    const next = tallyFrom(counts);
    noteMalformed(next, junk(2));
    expect(counts.malformed.badHex).toBe(1);
    expect(counts.recentMalformed).toHaveLength(1);
    expect(countsOf(next).malformed.badHex).toBe(2);
    expect(next.notes).toEqual([]);
  });

  test.each(MALFORMED_REASONS)('%s is counted by itself', (reason) => {
    const tally = tallyFrom(NO_COUNTS);
    noteMalformed(tally, { ...junk(0), reason });
    expect(tally.malformed).toEqual({ ...NO_COUNTS.malformed, [reason]: 1 });
  });

  test('the last eight malformed lines are kept, all are counted', () => {
    const tally = tallyFrom(NO_COUNTS);
    for (let n = 0; n < 20; n++) noteMalformed(tally, junk(n));
    expect(tally.malformed.badHex).toBe(20);
    expect(tally.recentMalformed.map(({ atMs }) => atMs)).toEqual([12, 13, 14, 15, 16, 17, 18, 19]);
  });

  test('a loss of unknown size counts as one', () => {
    const tally = tallyFrom(NO_COUNTS);
    noteLost(tally, null);
    noteLost(tally, 7);
    noteLost(tally, 0);
    expect(tally.lost).toBe(8);
    expect(tally.notes).toEqual([
      { kind: 'lost', frames: null },
      { kind: 'lost', frames: 7 },
      { kind: 'lost', frames: 0 },
    ]);
  });

  test.each([
    ['plain text', 'T18FEF700', 'T18FEF700'],
    ['what cannot be printed', 'a\x00\x1b\x7f\xffb', 'a....b'],
    ['the edges of what can', '\x1f ~\x7f', '. ~.'],
    ['the first 48 characters', 'x'.repeat(60), 'x'.repeat(48)],
    ['nothing', '', ''],
  ])('text for showing: %s', (_what, text, shown) => {
    expect(shownText(ascii(text), 0, text.length)).toBe(shown);
  });

  test('text for showing is of the asked part', () => {
    expect(shownText(ascii('abcdef'), 2, 4)).toBe('cd');
  });
});
