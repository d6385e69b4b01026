import { describe, expect, test } from 'vitest';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { decodeText, malformedOf, short } from './decode-all.ts';

// Every case: can-text-formats.md, Part 2; expectations are read off by hand.
const decode = (text: string) => decodeText(canLogDecoder, text);
const at = (frame: string) => `(1589326646.631333) can1 ${frame}\n`;

describe('candump log format', () => {
  test.each([
    ['11-bit id', '123#1122', '123#1122'],
    ['29-bit id, small value', '00000123#', '00000123#'],
    ['the example', '18FEF700#FFFFFFFFF200FFFF', '18fef700#fffffffff200ffff'],
    ['length 0', '123#', '123#'],
    ['remote', '123#R', '123#R0'],
    ['remote with length', '123#R5', '123#R5'],
    ['remote, small letter', '123#r', '123#R0'],
    ['remote, 29-bit (bench C)', '1F8A3FB7#R3', '1f8a3fb7#R3'],
    ['remote with raw length code', '123#R8_9', '123#R8'],
    ['dots between bytes', '123#11.22.33', '123#112233'],
    ['raw length code', '123#1122334455667788_E', '123#1122334455667788'],
    ['CAN FD of 3 bytes', '123##1112233', '123#112233'],
    ['direction received is no remote mark', '123#1122 R', '123#1122'],
    ['lower case', '18fef700#ff', '18fef700#ff'],
  ])('%s', (_what, frame, expected) => {
    const decoded = decode(at(frame));
    expect(decoded.frames.map(short)).toEqual([expected]);
    expect(malformedOf(decoded)).toEqual({});
    expect(decoded.frames[0]).toMatchObject({
      atMs: 1589326646631.333,
      sent: false,
      error: false,
      channel: 0,
    });
  });

  test('T at the end marks an own frame; an id with bit 29 an error frame', () => {
    const { frames } = decode(at('123#11 T') + at('20000004#0004000000000000'));
    expect(frames[0]).toMatchObject({ sent: true, data: [0x11] });
    expect(frames[1]).toMatchObject({ error: true, extended: false, id: 4, length: 8 });
  });

  test.each([
    ['CAN XL', '45123#81:00:12345678#11223344', 'notKept'],
    ['CAN FD of 12 bytes', `123##1${'11'.repeat(12)}`, 'notKept'],
    ['an id above 1FFFFFFF that is no error frame', '40000000#00', 'idTooLarge'],
    ['an 11-bit id above 7FF', '800#00', 'idTooLarge'],
    ['a half byte', '123#112', 'wrongLength'],
    ['nine bytes', `123#${'11'.repeat(9)}`, 'wrongLength'],
    ['no hex', '123#1G', 'wrongLength'],
    ['text behind the data', '123#11 hello', 'badHex'],
  ])('%s is counted', (_what, frame, reason) => {
    const decoded = decode(at(frame) + at('123#'));
    expect(decoded.frames.map(short)).toEqual(['123#']);
    expect(malformedOf(decoded)).toEqual({ [reason]: 1 });
  });

  test('DROPCOUNT is a loss with its number, comments are neither frames nor malformed', () => {
    const decoded = decode(
      `# made by hand\n${at('123#')}DROPCOUNT: dropped 3 CAN frames on 'can0' socket (total drops 7)\n${at('123#')}`,
    );
    expect(decoded.notes).toEqual([{ kind: 'lost', frames: 3 }]);
    expect(decoded.counts.lost).toBe(3);
    expect(decoded.frames).toHaveLength(2);
    expect(malformedOf(decoded)).toEqual({});
  });

  test('interfaces, padded or numeric, become channels in the order seen', () => {
    const { frames } = decode('(1.0)   can0  123#\n(1.1) 7 123#\n(1.2) can0 123#\n(1.3) vcan10 123#\n');
    expect(frames.map(({ channel }) => channel)).toEqual([0, 1, 0, 2]);
  });

  test.each([
    ['1.5', 1500],
    ['1.05', 1050],
    ['1.005', 1005],
    ['1.0005', 1000.5],
    ['1.000050000', 1000.05],
    ['1', 1000],
  ])('a fraction is a decimal number: (%s)', (stamp, atMs) => {
    expect(decode(`(${stamp}) can0 123#\n`).frames[0]?.atMs).toBeCloseTo(atMs, 9);
  });

  test('CR LF lines are read; a cut last line is counted, a whole one without its end is taken', () => {
    expect(decode(at('123#11').replaceAll('\n', '\r\n')).frames.map(short)).toEqual(['123#11']);
    const cut = decode(`${at('123#11')}(1589326646.631339) can1 123#112`);
    expect(cut.frames).toHaveLength(1);
    expect(malformedOf(cut)).toEqual({ cutLine: 1 });
    expect(decode(at('123#11').trimEnd()).frames).toHaveLength(1);
  });
});

describe('candump screen format', () => {
  test.each([
    [
      'the example',
      ' (1733457531.704817)  can0  18FEF700   [8]  FF FF FF FF F2 00 FF FF',
      '18fef700#fffffffff200ffff',
    ],
    ['no stamp', '  can0  123   [3]  11 22 33', '123#112233'],
    ['an indented 11-bit id', '  can0       123   [3]  11 22 33', '123#112233'],
    ['length 0', '  can0  123   [0]', '123#'],
    ['remote request', '  can0  123   [4]  remote request', '123#R4'],
    ['text column', "  can0  123   [4]  4A 2E 2E 2A   'J..*'", '123#4a2e2e2a'],
    ['text column with a quote and a bracket', "  can0  123   [2]  27 5B   ''['", '123#275b'],
    ['reversed bytes with back-ticks', '  can0  123   [3]  66`55`44', '123#445566'],
    ['raw length code', '  can0  123   {B}  11 22 33 44 55 66 77 88', '123#1122334455667788'],
    ['CAN FD in two digits', '  can0  123  [08]  11 22 33 44 55 66 77 88', '123#1122334455667788'],
    ['direction and flags', '  can0  RX - -  123   [1]  11', '123#11'],
    ['flags that are hex letters', '  can0  RX B E  123   [1]  11', '123#11'],
    ['colour escapes', '\x1b[1;32m  can0\x1b[0m  18FEF700   [2]  \x1b[31mAA BB\x1b[0m', '18fef700#aabb'],
  ])('%s', (_what, line, expected) => {
    const decoded = decode(`${line}\n`);
    expect(decoded.frames.map(short)).toEqual([expected]);
    expect(malformedOf(decoded)).toEqual({});
  });

  test('ERRORFRAME marks an error frame and its first letter is no data', () => {
    const [frame] = decode(
      '  can0  20000004   [8]  00 04 00 00 00 00 00 00   ERRORFRAME\n\tcontroller-problem{}\n',
    ).frames;
    expect(frame).toMatchObject({ error: true, length: 8, data: [0, 4, 0, 0, 0, 0, 0, 0] });
    expect(decode('  can0  123   [1]  EE   ERRORFRAME\n').frames[0]).toMatchObject({
      error: true,
      data: [0xee],
    });
  });

  test('TX marks an own frame', () => {
    expect(decode('  can0  TX - -  123   [1]  11\n').frames[0]).toMatchObject({ sent: true });
  });

  test('too few bytes, a size above 8, CAN FD of 12 and CAN XL are counted', () => {
    const fd = Array.from({ length: 12 }, () => '11').join(' ');
    const decoded = decode(
      `  can0  123   [3]  11 22\n  can0  123  [12]  ${fd}\n  can0  123  [0100]  11\n  can0  123   [9]  11\n`,
    );
    expect(decoded.frames).toEqual([]);
    expect(malformedOf(decoded)).toEqual({ wrongLength: 1, notKept: 2, unknownLine: 1 });
  });

  test('log and screen lines may be mixed', () => {
    expect(decode(`${at('123#11')} (1589326646.7)  can1  124   [1]  22\n`).frames.map(short)).toEqual([
      '123#11',
      '124#22',
    ]);
  });
});

describe('candump time', () => {
  const times = (text: string) => {
    const { frames, breaks, clock } = decode(text);
    return { atMs: frames.map(({ atMs }) => atMs), breaks, clock };
  };
  const lines = (...stamps: string[]) => stamps.map((stamp) => ` (${stamp})  can0  123   [0]\n`).join('');

  test('no stamps: no time and no clock', () => {
    expect(times('  can0  123   [0]\n')).toEqual({ atMs: [NaN], breaks: [], clock: 'none' });
  });

  test('zero-based stamps stand as they are', () => {
    expect(times(lines('000.000000', '000.005001', '064.758912')).atMs).toEqual([0, 5.001, 64_758.912]);
  });

  test('stamps that fall are deltas and are added up, over skipped frames too', () => {
    expect(times(lines('000.000000', '000.010000', '000.005000', '000.020000')).atMs).toEqual([
      0, 10, 15, 35,
    ]);
    const skipped = ` (000.500000)  can0  123  [12]  ${'11 '.repeat(12)}\n`;
    expect(times(lines('000.000000') + skipped + lines('000.010000')).atMs).toEqual([0, 510]);
  });

  test('date and time of day are read', () => {
    expect(times(lines('2026-11-24 12:00:00.123456')).atMs[0]).toBeCloseTo(
      Date.UTC(2026, 10, 24, 12) + 123.456,
      2,
    );
  });

  test('a clock set back by more than 50 ms is a break, and time does not fall', () => {
    const log = (...stamps: string[]) => stamps.map((stamp) => `(${stamp}) can0 123#\n`).join('');
    const { atMs, breaks } = times(log('1589326646.500', '1589326646.355', '1589326646.365'));
    expect(breaks).toEqual([1]);
    expect(atMs).toEqual([1589326646500, 1589326646500, 1589326646510]);
  });

  test('slight disorder between interfaces keeps file order and is no break', () => {
    const { atMs, breaks } = times(
      '(1589326646.500) can0 123#\n(1589326646.499) can1 123#\n(1589326646.501) can0 123#\n',
    );
    expect(breaks).toEqual([]);
    expect(atMs).toEqual([1589326646500, 1589326646499, 1589326646501]);
  });
});
