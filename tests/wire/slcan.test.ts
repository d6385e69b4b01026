import { describe, expect, test } from 'vitest';
import { SLCAN_LINE_LIMIT, slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii, decodePieces, decodeText, malformedOf, short } from './decode-all.ts';

// Every case: can-text-formats.md, Part 1; the row or section is named beside it. Expectations are read off by hand.
const decode = (text: string) => decodeText(slcanDecoder, text);
const shorts = (text: string) => decode(text).frames.map(short);

describe('SLCAN frames', () => {
  test.each([
    ['section Received frames: the example', 'T18FEF7008FFFFFFFFF200FFFF\r', ['18fef700#fffffffff200ffff']],
    ['section Received frames: 11-bit with stamp', 't1232AABB1F40\r', ['123#aabb']],
    ['table Commands: remote has a length and no data', 'r1234\rR18FEF7003\r', ['123#R4', '18fef700#R3']],
    ['grammar: a remote frame may carry a stamp', 'r12341F40\r', ['123#R4']],
    ['grammar: length 0', 't1230\r', ['123#']],
    ['grammar: 8-digit stamp', 't1231AA000003E8\r', ['123#aa']],
    ['grammar: 8-digit stamp and error state digit', 't1231AA000003E81\r', ['123#aa']],
    ['grammar: CAN FD of at most 8 bytes', 'd1231AA\rB18FEF70021122\r', ['123#aa', '18fef700#1122']],
    ['quirk: lower-case hex', 't7ff1ab\rT18fef70010f\r', ['7ff#ab', '18fef700#0f']],
    ['quirk: the type is only the first letter', 't0bd1db\r', ['0bd#db']],
    ['quirk: x in place of T', 'x18FEF7001AA\r', ['18fef700#aa']],
    ['quirk: channel marks', '&t1231AA\r$t1231BB\r', ['123#aa', '123#bb']],
    ['quirk: CR LF', 't1231AA\r\nt1231BB\r\n', ['123#aa', '123#bb']],
    ['quirk: LF only', 't1231AA\nt1231BB\n', ['123#aa', '123#bb']],
    ['quirk: a small 29-bit id stays 29-bit', 'T000001230\r', ['00000123#']],
  ])('%s', (_why, text, expected) => {
    const decoded = decode(text);
    expect(decoded.frames.map(short)).toEqual(expected);
    expect(malformedOf(decoded)).toEqual({});
  });

  test('a CAN FD frame longer than 8 bytes is counted as not kept (A = 16 bytes)', () => {
    const decoded = decode(`d123A${'11'.repeat(16)}\rt1230\r`);
    expect(decoded.frames.map(short)).toEqual(['123#']);
    expect(malformedOf(decoded)).toEqual({ notKept: 1 });
  });

  test('the longest CAN FD line, 147 characters, is under the limit; a longer run is dropped', () => {
    const line = `D18FEF700F${'AA'.repeat(64)}000003E81`;
    expect(line.length).toBe(147);
    expect(malformedOf(decode(`${line}\r`))).toEqual({ notKept: 1 });
    const junk = decode(`${'A'.repeat(SLCAN_LINE_LIMIT + 1)}\rt1230\r`);
    expect(junk.frames.map(short)).toEqual(['123#']);
    expect(malformedOf(junk)).toEqual({ tooLong: 1 });
  });

  test('channel marks and echoes set channel and the sent flag', () => {
    const { frames } = decode('\rt1230\r&t1230\r$t1230\rzt1230\rZT000001230\r');
    expect(frames.map(({ channel, sent }) => [channel, sent])).toEqual([
      [0, false],
      [1, false],
      [2, false],
      [0, true],
      [0, true],
    ]);
  });

  test.each([
    ['8000', 'idTooLarge', 't8000\r'],
    ['a 29-bit id above 1FFFFFFF', 'idTooLarge', 'T200000000\r'],
    ['a lost digit', 'wrongLength', 't1232AAB\r'],
    ['a length above 8', 'wrongLength', 't1239\r'],
    ['no hex in the data', 'badHex', 't1231GG\r'],
    ['no hex in the id', 'badHex', 't1X30\r'],
    ['an unknown first letter', 'unknownLine', 'Hello\r'],
  ])('%s is counted as %s', (_what, reason, line) => {
    const decoded = decode(`\r${line}t1230\r`);
    expect(decoded.frames.map(short)).toEqual(['123#']);
    expect(malformedOf(decoded)).toEqual({ [reason]: 1 });
    expect(decoded.counts.recentMalformed[0]?.text).toBe(line.trimEnd());
  });
});

describe('SLCAN lines that are no frames', () => {
  test('a bare CR, z and Z are acknowledgements; BEL refuses and ends the line', () => {
    expect(decode('\rz\rZ\r\x07').notes).toEqual([
      { kind: 'ack' },
      { kind: 'ack' },
      { kind: 'ack' },
      { kind: 'refused' },
    ]);
    const cut = decode('t1230\x07t1240\r');
    expect(cut.frames.map(short)).toEqual(['123#', '124#']);
    expect(cut.notes).toEqual([{ kind: 'refused' }]);
  });

  test('replies come as they are, between frames (V1013, N with letters, s and e of Linux)', () => {
    const { notes, frames } = decode('\rV1013\rt1230\rNA12B\rvX 2.0\rF00\rsa057033\re1a\r');
    expect(notes.slice(1)).toEqual(
      ['V1013', 'NA12B', 'vX 2.0', 'F00', 'sa057033', 'e1a'].map((text) => ({ kind: 'reply', text })),
    );
    expect(frames).toHaveLength(1);
  });

  test.each([
    ['bit 0, receive queue full', 'F01', 1],
    ['bit 3, data overrun', 'F08', 1],
    ['bit 1, receive overflow in one firmware', 'F02', 1],
    ['bits 2, 5 and 7 lose nothing', 'FA4', 0],
    ['e with o, receive overrun', 'e1o', 1],
    ['e with O, transmit overrun, loses nothing', 'e1O', 0],
  ])('%s', (_what, line, lost) => {
    const { notes } = decode(`\r${line}\r`);
    expect(notes.filter(({ kind }) => kind === 'lost')).toEqual(
      Array.from({ length: lost }, () => ({ kind: 'lost', frames: null })),
    );
  });

  test('junk before the first terminator is thrown away and is no reply (quirk: half a frame of an earlier session)', () => {
    const decoded = decode('F01\rT18FEF7000\r');
    expect(decoded.frames.map(short)).toEqual(['18fef700#']);
    expect(decoded.notes).toEqual([]);
    expect(malformedOf(decoded)).toEqual({ unknownLine: 1 });
  });

  test('of two frames glued by a lost digit the second is kept (quirk: a line lost in the middle)', () => {
    const decoded = decode('\rt0814F26F002t20082710271027100000\r');
    expect(decoded.frames.map(short)).toEqual(['200#2710271027100000']);
    expect(malformedOf(decoded)).toEqual({ wrongLength: 1 });
  });

  test('a last line without a terminator is taken if whole, else counted as cut', () => {
    expect(shorts('t1230\rt1240')).toEqual(['123#', '124#']);
    expect(malformedOf(decode('t1230\rt1241A'))).toEqual({ cutLine: 1 });
  });
});

const stamped = (ms: number) => `t1230${ms.toString(16).padStart(4, '0')}\r`;
const times = (pieces: readonly (readonly [number, string])[]) => {
  const decoded = decodePieces(
    slcanDecoder,
    pieces.map(([atMs, text]) => [atMs, ascii(text)] as const),
  );
  return { atMs: decoded.frames.map((frame) => frame.atMs), breaks: decoded.breaks, clock: decoded.clock };
};

describe('SLCAN time', () => {
  test('without stamps a frame has the arrival time of the piece that holds its terminator', () => {
    expect(
      times([
        [10, 't1230'],
        [20, '\rt1230\r'],
        [30, 't1230\r'],
      ]),
    ).toEqual({
      atMs: [20, 20, 30],
      breaks: [],
      clock: 'arrival',
    });
  });

  test('millisecond stamps are tied to the first arrival and start again after 59 999', () => {
    const text = stamped(59_990) + stamped(59_999) + stamped(5);
    expect(times([[1000, text]])).toEqual({ atMs: [1000, 1009, 1015], breaks: [], clock: 'source' });
  });

  test('the host clock chooses the number of turns after a pause (two turns and 10 ms)', () => {
    const { atMs, breaks } = times([
      [1000, stamped(100)],
      [121_030, stamped(110)],
    ]);
    expect(atMs).toEqual([1000, 121_010]);
    expect(breaks).toEqual([]);
  });

  test('microsecond stamps start again after 3 599 999 999', () => {
    const us = (value: number) => `t1230${value.toString(16).padStart(8, '0')}\r`;
    expect(times([[1000, us(3_599_999_500) + us(500)]]).atMs).toEqual([1000, 1001]);
  });

  test('stamps that run backwards and agree with each other are a break, and time goes on from arrival', () => {
    const { atMs, breaks, clock } = times([
      [1000, stamped(9000)],
      [1500, stamped(4000)],
      [1510, stamped(4010)],
      [1520, stamped(4020)],
      [1530, stamped(4030)],
    ]);
    expect({ atMs, breaks, clock }).toEqual({
      atMs: [1000, 1000, 1000, 1520, 1530],
      breaks: [3],
      clock: 'source',
    });
  });

  test('stamps that run ahead of arrival by more than 2 s and agree with each other are a break', () => {
    const { atMs, breaks } = times([
      [1000, stamped(0)],
      [1100, stamped(9000)],
      [1110, stamped(9010)],
      [1120, stamped(9020)],
    ]);
    expect(atMs).toEqual([1000, 1000, 1000, 1120]);
    expect(breaks).toEqual([3]);
  });

  test('one stamp with a turned digit is no break: its frame takes the time before it', () => {
    const { atMs, breaks } = times([
      [1000, stamped(0)],
      [1010, stamped(10)],
      [1020, stamped(16404)], // 20 with its first digit turned: 4014 hex
      [1030, stamped(30)],
      [1040, stamped(40)],
    ]);
    expect(atMs).toEqual([1000, 1010, 1010, 1030, 1040]);
    expect(breaks).toEqual([]);
  });

  test('a stamp that was believed a second ahead is put right without a break once three others agree', () => {
    const { atMs, breaks } = times([
      [1000, stamped(0)],
      [1010, stamped(1034)], // 10 with a turned digit: 040A hex
      [1020, stamped(20)],
      [1030, stamped(30)],
      [1040, stamped(40)],
      [2100, stamped(1100)],
    ]);
    expect(atMs).toEqual([1000, 2034, 2034, 2034, 2034, 2100]);
    expect(breaks).toEqual([]);
  });

  test('frames that were held up on the way keep the times of their stamps', () => {
    // A busy page reads the port 12 s late: one chunk, one arrival, stamps that say when each frame was on the bus.
    const { atMs, breaks } = times([
      [1000, stamped(0)],
      [13_000, stamped(10)],
      [13_000, stamped(6000)],
      [13_000, stamped(11_990)],
      [13_010, stamped(12_000)],
    ]);
    expect(atMs).toEqual([1000, 1010, 7000, 12_990, 13_000]);
    expect(breaks).toEqual([]);
  });

  test('stamps that stand still give way to arrival (quirk: stamps stuck)', () => {
    const pieces = Array.from({ length: 50 }, (_, i) => [1000 + 10 * i, stamped(7)] as const);
    const { atMs, breaks, clock } = times(pieces);
    expect(clock).toBe('arrival');
    expect(breaks).toEqual([32]); // the first equal stamp is number 1, the 32nd equal one is frame 32
    expect(atMs.slice(31, 35)).toEqual([1000, 1320, 1330, 1340]);
  });

  test('a frame without a stamp takes the time of the stamped one before it; after 2 s arrival is used', () => {
    const { atMs, breaks } = times([
      [1000, stamped(0)],
      [1050, 't1230\r'],
      [1100, stamped(100)],
      [3200, 't1230\r'],
    ]);
    expect(atMs).toEqual([1000, 1000, 1100, 3200]);
    expect(breaks).toEqual([3]);
  });

  test('a stamp outside its period is no stamp, the frame is kept', () => {
    expect(times([[1000, 't1230FFFF\r']])).toEqual({ atMs: [1000], breaks: [], clock: 'arrival' });
  });
});
