import { describe, expect, test } from 'vitest';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii, decodePieces, decodeText, malformedOf, short } from './decode-all.ts';

// Interfaces and their order: can-text-formats.md, Part 2, "Order and time"; stamps: Part 1, "Received frames".
const log = (count: number) =>
  Array.from({ length: count }, (_, i) => `(1.${String(i).padStart(6, '0')}) vcan${i} 18FEF700#AA\n`).join(
    '',
  );
const channelsOf = (text: string) => decodeText(canLogDecoder, text).frames.map(({ channel }) => channel);

describe('interfaces', () => {
  test('255 interfaces have a channel each, in the order seen', () => {
    expect(channelsOf(log(255))).toEqual(Array.from({ length: 255 }, (_, i) => i));
  });

  test('of more than 255 the others share the last channel, and no frame is lost', () => {
    const channels = channelsOf(log(300));
    expect(channels).toHaveLength(300);
    expect(channels.slice(254)).toEqual(Array.from({ length: 46 }, () => 254));
    expect(channelsOf(log(300) + log(2)).slice(300)).toEqual([0, 1]);
  });

  test('names that begin alike are not the same', () => {
    expect(channelsOf('(1.0) can1 123#\n(1.1) can10 123#\n(1.2) can 123#\n(1.3) can1 123#\n')).toEqual([
      0, 1, 2, 0,
    ]);
  });

  test('names are kept from one piece to the next', () => {
    const pieces = ['(1.0) a 123#\n', '(1.1) b 123#\n', '(1.2) a 123#\n', '(1.3) c 123#\n'];
    const { frames } = decodePieces(
      canLogDecoder,
      pieces.map((text) => [0, ascii(text)] as const),
    );
    expect(frames.map(({ channel }) => channel)).toEqual([0, 1, 0, 2]);
  });

  test('a line that is no frame names no interface', () => {
    expect(channelsOf('(1.0) junk hello\n(1.1) can0 123#\n')).toEqual([0]);
  });

  test('each interface has its own step back: file order is kept, only the one is held', () => {
    const stamps = ['45.00) can0', '41.00) can1', '45.01) can0', '40.90) can1', '40.91) can1'];
    const text = stamps.map((stamp) => `(15893266${stamp} 123#\n`).join('');
    const { frames, breaks } = decodeText(canLogDecoder, text);
    expect(frames.map(({ atMs, channel }) => [channel, atMs - 1_589_326_600_000])).toEqual([
      [0, 45_000],
      [1, 41_000],
      [0, 45_010],
      [1, 41_000],
      [1, 41_010],
    ]);
    expect(breaks).toEqual([3]);
  });
});

describe('stamps of mixed widths in one stream', () => {
  test('no frame is lost, and each change of width is a break', () => {
    const { frames, breaks } = decodePieces(slcanDecoder, [
      [1_000, ascii('t1231AA0064\rt1231BB006E\r')],
      [1_020, ascii('t1231CC000F4240\rt1231DD000F4628\r')],
      [1_030, ascii('t1231EE0082\r')],
    ]);
    expect(frames.map(short)).toEqual(['123#aa', '123#bb', '123#cc', '123#dd', '123#ee']);
    expect(frames.map(({ atMs }) => atMs)).toEqual([1_000, 1_010, 1_020, 1_021, 1_030]);
    expect(breaks).toEqual([2, 4]);
  });

  test('both channels of one firmware share its clock', () => {
    const { frames, breaks } = decodePieces(slcanDecoder, [
      [1_000, ascii('&t12300064\r$t1230006E\r&t12300078\r')],
    ]);
    expect(frames.map(({ channel, atMs }) => [channel, atMs])).toEqual([
      [1, 1_000],
      [2, 1_010],
      [1, 1_020],
    ]);
    expect(breaks).toEqual([]);
  });
});

describe('lines of a log that are no frames', () => {
  test.each([
    ['# remark', {}, 0],
    ['; remark', {}, 0],
    ['// remark', {}, 0],
    ['\tcontroller-problem{rx-overflow}', {}, 0],
    ['', {}, 0],
    ['   ', {}, 0],
    ["DROPCOUNT: dropped 3 CAN frames on 'can0' socket (total drops 7)", {}, 3],
    ["DROPCOUNT: dropped 1 CAN frame on 'can0' socket (total drops 8)", {}, 1],
    ['DROPCOUNT: nothing', { unknownLine: 1 }, 0],
    ['hello', { unknownLine: 1 }, 0],
    ['(1.0)', { unknownLine: 1 }, 0],
    ['(1.0) can0', { unknownLine: 1 }, 0],
    ['(1.0 can0 123#', { unknownLine: 1 }, 0],
  ])('%j', (line, malformed, lost) => {
    const decoded = decodeText(canLogDecoder, `(1.0) can0 123#\n${line}\n(1.1) can0 124#\n`);
    expect(decoded.frames.map(short)).toEqual(['123#', '124#']);
    expect(malformedOf(decoded)).toEqual(malformed);
    expect(decoded.counts.lost).toBe(lost);
  });

  test('escapes that colour a line are passed over; other escapes spoil it', () => {
    const decoded = decodeText(
      canLogDecoder,
      '  can0  \x1b[31m123\x1b[0m   [1]  11\n  can0  \x1b7123   [1]  11\n',
    );
    expect(decoded.frames.map(short)).toEqual(['123#11']);
    expect(malformedOf(decoded)).toEqual({ unknownLine: 1 });
  });
});
