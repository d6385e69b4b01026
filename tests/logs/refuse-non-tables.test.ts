import { describe, expect, test } from 'vitest';
import { refuseNonTable, refuseNonText } from '../../src/logs/refuse-non-tables.ts';
import { describeProblem, type Problem } from '../../src/problems/problem.ts';
import { bytesOf } from './log-bytes.ts';

const said = (problem: Problem | null) => problem && describeProblem(problem);
const WORKBOOK = {
  message: 'This is a spreadsheet workbook or a zip archive, not a text log.',
  remedy: 'Open it in the spreadsheet, save the sheet with the log as CSV, and choose that file.',
};
const COMPRESSED = {
  message: 'This is a compressed file.',
  remedy: 'Unpack it and choose the log inside.',
};
const notText = (what: string) => ({
  message: `This is not a text log: it looks like ${what}.`,
  remedy: 'Export the log as CSV or text from the program that recorded it, and choose that file.',
});
const notTable = (what: string) => ({
  message: `This is ${what}, not a table of values.`,
  remedy: 'Export the log as CSV from the program that recorded it, and choose that file.',
});

describe('bytes that are no text', () => {
  // First bytes of the formats as their specifications give them; from memory.
  test.each([
    ['a zip archive, and so a workbook', [0x50, 0x4b, 0x03, 0x04, 0x14], WORKBOOK],
    ['an empty zip archive', [0x50, 0x4b, 0x05, 0x06], WORKBOOK],
    ['an old workbook', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], WORKBOOK],
    ['gzip', [0x1f, 0x8b, 0x08], COMPRESSED],
    ['bzip2', [0x42, 0x5a, 0x68, 0x39], COMPRESSED],
    ['7z', [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], COMPRESSED],
    ['a PDF', [...bytesOf('%PDF-1.7')], notText('a PDF')],
    ['a PNG', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a], notText('a picture')],
    ['a JPEG', [0xff, 0xd8, 0xff, 0xe0], notText('a picture')],
  ])('%s', (_, bytes, words) => {
    expect(said(refuseNonText(Uint8Array.from(bytes)))).toEqual(words);
  });

  test('nothing at all', () => {
    expect(refuseNonText(new Uint8Array(0))?.code).toBe('log.empty');
  });

  test.each(['PK,RPM\n', 'BZ,1\n', '7z,1\n', '%,RPM\n', 'Time,RPM\n'])('"%s" is text', (text) =>
    expect(refuseNonText(bytesOf(text))).toBeNull(),
  );

  test('a byte order mark is text', () => {
    expect(refuseNonText(bytesOf('Time', 'utf-16le'))).toBeNull();
    expect(refuseNonText(bytesOf('Time', 'utf-16be'))).toBeNull();
  });
});

describe('text that is no table', () => {
  test.each([
    ['a web page', '<!DOCTYPE html>\n<html></html>', notTable('a web page')],
    ['a web page without doctype', '\n  <HTML><body>', notTable('a web page')],
    ['a table of a web page', '<table><tr>', notTable('a web page')],
    ['XML', '<?xml version="1.0"?>\n<log/>', notTable('XML')],
    ['a JSON object', '{"rpm": [146]}', notTable('JSON')],
    ['a JSON list of objects', '[\n {"rpm": 146}]', notTable('JSON')],
    ['a JSON list of lists', '[[0, 146]]', notTable('JSON')],
    ['control characters', 'abc\u0000\u0001\u0002def', notText('binary data')],
    ['characters that did not decode', '\ufffd\ufffdabc', notText('binary data')],
  ])('%s', (_, text, words) => expect(said(refuseNonTable(text))).toEqual(words));

  test.each(['', ' ', '\n\r\n\t'])('blank text "%s" is empty', (text) =>
    expect(refuseNonTable(text)?.code).toBe('log.empty'),
  );

  test.each([
    ['a header in brackets', '[s];[rpm]\n0;1\n'],
    ['a header in angle brackets', '<Time>;<RPM>\n0;1\n'],
    ['a note in braces', '{made by hand}\nTime;RPM\n'],
    ['tabs and form feeds', 'Time\tRPM\f\n0\t1\n'],
    ['one broken character in a hundred', `${'a'.repeat(99)}\ufffd`],
  ])('%s is taken', (_, text) => expect(refuseNonTable(text)).toBeNull());

  test('three broken characters in a hundred are too many', () => {
    expect(refuseNonTable(`${'a'.repeat(97)}\ufffd\ufffd\ufffd`)?.code).toBe('log.not-text');
  });
});
