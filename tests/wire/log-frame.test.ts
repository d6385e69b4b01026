import { describe, expect, test } from 'vitest';
import { frameAt } from '../../src/wire/frame-at.ts';
import { frameColumns, sealBatches } from '../../src/wire/frame-columns.ts';
import { readLogFrame } from '../../src/wire/log-frame.ts';
import { ascii, short } from './decode-all.ts';

// Both tables of can-text-formats.md, Part 2 ("Log format", "Screen format"), row by row; read off by hand.
// The text begins where a line goes on behind its interface name. Flags: e error, s sent.
function read(text: string): string {
  const columns = frameColumns(1);
  columns.data.fill(0xee); // an earlier line that was not taken
  const bytes = ascii(text);
  const reason = readLogFrame(bytes, { at: 0, end: bytes.length }, columns);
  if (reason !== null) return reason;
  columns.count++;
  const frame = frameAt(sealBatches(columns)[0]!, 0);
  return short(frame) + (frame.error ? ' e' : '') + (frame.sent ? ' s' : '');
}

describe('log format', () => {
  test.each([
    ['3 digits: 11-bit id', '123#1122', '123#1122'],
    ['8 digits: 29-bit id', '12345678#1122', '12345678#1122'],
    ['8 digits, even when the value is small', '00000123#', '00000123#'],
    ['the largest 11-bit id', '7FF#', '7ff#'],
    ['one above', '800#', 'idTooLarge'],
    ['the largest 29-bit id', '1FFFFFFF#', '1fffffff#'],
    ['4 digits are no id', '1234#11', 'unknownLine'],
    ['2 digits are no id', '12#11', 'unknownLine'],
    ['7 digits are no id', '1234567#11', 'unknownLine'],
    ['9 digits are no id', '123456789#11', 'unknownLine'],
    ['length 0', '123#', '123#'],
    ['8 bytes', '123#1122334455667788', '123#1122334455667788'],
    ['9 bytes', '123#112233445566778899', 'wrongLength'],
    ['half a byte', '123#112', 'wrongLength'],
    ['remote frame', '123#R', '123#R0'],
    ['remote frame with length', '123#R5', '123#R5'],
    ['remote frame, 8', '123#R8', '123#R8'],
    ['remote frame, 9', '123#R9', 'wrongLength'],
    ['remote frame, small letter', '123#r', '123#R0'],
    ['remote frame, small letter with length', '123#r3', '123#R3'],
    ['remote frame, 29-bit', '18FEF700#R2', '18fef700#R2'],
    ['remote frame and direction', '123#R5 R', '123#R5'],
    ['remote frame that was sent', '123#R T', '123#R0 s'],
    ['dots between bytes', '123#11.22.33', '123#112233'],
    ['dots between some bytes', '123#1122.33', '123#112233'],
    ['a dot before the first byte', '123#.11', 'badHex'],
    ['raw length code', '123#1122334455667788_E', '123#1122334455667788'],
    ['raw length code 9', '123#1122334455667788_9', '123#1122334455667788'],
    ['raw length code F, direction', '123#1122334455667788_F T', '123#1122334455667788 s'],
    ['raw length code 8 is none', '123#1122334455667788_8', 'wrongLength'],
    ['raw length code on fewer bytes', '123#11_E', 'wrongLength'],
    ['raw length code missing', '123#1122334455667788_', 'wrongLength'],
    ['raw length code, remote', '123#R8_9', '123#R8'],
    ['raw length code, remote of 5', '123#R5_9', 'wrongLength'],
    ['CAN FD', '123##1112233', '123#112233'],
    ['CAN FD, length 0', '123##0', '123#'],
    ['CAN FD, 8 bytes, flags 7', '123##71122334455667788', '123#1122334455667788'],
    ['CAN FD, 12 bytes', `123##1${'11'.repeat(12)}`, 'notKept'],
    ['CAN FD, 64 bytes', `123##1${'11'.repeat(64)}`, 'notKept'],
    ['CAN FD, 65 bytes', `123##1${'11'.repeat(65)}`, 'wrongLength'],
    ['CAN FD, flags digit missing', '123##', 'badHex'],
    ['CAN FD, flags no digit', '123##G11', 'badHex'],
    ['CAN FD has no remote frames', '123##1R', 'badHex'],
    ['CAN XL', '45123#81:00:12345678#11223344', 'notKept'],
    ['5 digits that are no CAN XL', '45123#11', 'unknownLine'],
    ['error frame', '20000004#0004000000000000', '004#0004000000000000 e'],
    ['error frame, several bits', '200000C8#0000000000000000', '0c8#0000000000000000 e'],
    ['an id between 29 bits and the error mark is an error frame', '3FFFFFFF#', '1fffffff# e'],
    ['an id with bit 30', '40000000#', 'idTooLarge'],
    ['an id with bit 31', '80000000#', 'idTooLarge'],
    ['R at the end: received, not remote', '123#11 R', '123#11'],
    ['T at the end: sent', '123#11 T', '123#11 s'],
    ['direction after no data', '123# T', '123# s'],
    ['a small letter is no direction', '123#11 t', 'badHex'],
    ['another letter', '123#11 X', 'badHex'],
    ['two letters', '123#11 RT', 'badHex'],
    ['no hex in the data', '123#11GG', 'badHex'],
    ['lower case', '18fef700#aAbB', '18fef700#aabb'],
    ['no hash', '123', 'unknownLine'],
    ['no id', '#1122', 'unknownLine'],
    ['a word', 'hello', 'unknownLine'],
  ])('%s', (_what, text, wanted) => {
    expect(read(text)).toBe(wanted);
  });
});

describe('screen format', () => {
  const many = (bytes: number) => Array.from({ length: bytes }, () => '11').join(' ');
  test.each([
    ['the first example', '18FEF700   [8]  FF FF FF FF F2 00 FF FF', '18fef700#fffffffff200ffff'],
    ['the second example', '123   [3]  11 22 33', '123#112233'],
    ['length 0', '123   [0]', '123#'],
    ['runs of white space and tabs', '123 \t [2] \t 11  22', '123#1122'],
    ['remote request', '123   [4]  remote request', '123#R4'],
    ['remote request of length 0', '123   [0]  remote request', '123#R0'],
    ['remote request longer than 8', '123   [12]  remote request', 'wrongLength'],
    ['ERRORFRAME', '20000004   [8]  00 04 00 00 00 00 00 00   ERRORFRAME', '004#0004000000000000 e'],
    ['ERRORFRAME is no data (E is a digit)', '123   [2]  11 22   ERRORFRAME', '123#1122 e'],
    ['ERRORFRAME where a byte is missing', '123   [2]  11   ERRORFRAME', 'wrongLength'],
    ['text in quotes', "123   [2]  4A 2E   'J.'", '123#4a2e'],
    ['text in quotes that looks like bytes', "123   [2]  31 31   '11'", '123#3131'],
    ['text in quotes that looks like an error', "123   [2]  45 52   'ERRORFRAME'", '123#4552'],
    ['at most the bracketed count', '123   [1]  11 22 33', '123#11'],
    ['fewer than the bracketed count', '123   [3]  11 22', 'wrongLength'],
    ['a cut last byte', '123   [3]  11 22 3', 'wrongLength'],
    ['reverse with back-ticks', '123   [3]  66`55`44', '123#445566'],
    ['reverse, 8 bytes', '18FEF700   [8]  FF`FF`00`F2`FF`FF`FF`FE', '18fef700#fefffffff200ffff'],
    ['reverse, 1 byte', '123   [1]  66', '123#66'],
    ['CAN FD in two digits', '123  [08]  11 22 33 44 55 66 77 88', '123#1122334455667788'],
    ['CAN FD, 3 bytes', '123  [03]  11 22 33', '123#112233'],
    ['CAN FD, 12 bytes', `123  [12]  ${many(12)}`, 'notKept'],
    ['CAN FD, 64 bytes', `123  [64]  ${many(64)}`, 'notKept'],
    ['CAN FD, too few bytes', `123  [64]  ${many(63)}`, 'wrongLength'],
    ['CAN XL', '123  [0008]  11 22 33 44 55 66 77 88', 'notKept'],
    ['one digit above 8', '123   [9]  11', 'unknownLine'],
    ['raw length code', '123   {B}  11 22 33 44 55 66 77 88', '123#1122334455667788'],
    ['raw length code 3', '123   {3}  11 22 33', '123#112233'],
    ['raw length code that is no digit', '123   {G}  11', 'unknownLine'],
    ['raw length code not closed', '123   {B   11', 'unknownLine'],
    ['empty brackets', '123   []  11', 'unknownLine'],
    ['brackets not closed', '123   [8  11', 'unknownLine'],
    ['no brackets', '123   11 22', 'unknownLine'],
    ['RX', 'RX - -  123   [1]  11', '123#11'],
    ['TX', 'TX - -  123   [1]  11', '123#11 s'],
    ['RX with both flags', 'RX B E  123   [1]  11', '123#11'],
    ['TX with one flag', 'TX B -  18FEF700   [1]  11', '18fef700#11 s'],
    ['small 29-bit id', '00000123   [1]  11', '00000123#11'],
    ['11-bit id too large', '800   [1]  11', 'idTooLarge'],
    ['lower case', '18fef700   [2]  aa Bb', '18fef700#aabb'],
    ['half a byte among the bytes', '123   [3]  11 2 33', 'wrongLength'],
    ['three digits for a byte', '123   [2]  11 222', 'wrongLength'],
  ])('%s', (_what, text, wanted) => {
    expect(read(text)).toBe(wanted);
  });
});
