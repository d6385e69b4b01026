import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { SHEET_FORMAT, toCurrentFormat } from '../../src/limits/sheet-format.ts';

/** A sheet with the fields that format 1 had, as its writer laid them down before there were revisions. Never to be written anew. */
const FORMAT_1 = JSON.parse(readFileSync(new URL('sheet-format-1.json', import.meta.url), 'utf8')) as Record<
  string,
  unknown
>;

describe('a sheet of format 1', () => {
  test('is read as the first revision of a sheet of its own', () => {
    const read = parseLimitSheet(FORMAT_1);
    expect(read).toMatchObject({
      ok: true,
      value: { formatVersion: 2, id: 'yard-1', sheetId: 'yard-1', replaces: null, revision: 'B' },
    });
  });

  test('has its empty end of a range open, and all others as they were', () => {
    expect(parseLimitSheet(FORMAT_1)).toMatchObject({
      value: {
        serialRanges: [
          { from: 'K100', to: 'K199' },
          { from: null, to: 'J50' },
          { from: 'L1', to: null },
        ],
      },
    });
  });

  test('keeps every number, day and name', () => {
    const read = parseLimitSheet(FORMAT_1);
    if (!read.ok) throw new Error(read.problem.code);
    const { formatVersion, sheetId, replaces, serialRanges, ...kept } = read.value;
    expect([formatVersion, sheetId, replaces, serialRanges.length]).toEqual([2, 'yard-1', null, 3]);
    const { formatVersion: before, serialRanges: ranges, ...written } = FORMAT_1;
    expect([before, (ranges as unknown[]).length]).toEqual([1, 3]);
    expect(kept).toEqual(written);
  });

  test('is not changed by being read, and reads the same a second time', () => {
    const text = JSON.stringify(FORMAT_1);
    const once = toCurrentFormat(FORMAT_1);
    expect(JSON.stringify(FORMAT_1)).toBe(text);
    expect(toCurrentFormat(once)).toEqual(once);
    expect(once).toHaveProperty('formatVersion', SHEET_FORMAT);
  });

  test('numbered 0, which never was, is refused and left as it is', () => {
    const odd = { ...FORMAT_1, formatVersion: 0 };
    expect(parseLimitSheet(odd)).toMatchObject({ ok: false });
    expect(toCurrentFormat(odd)).toBe(odd);
  });

  test.each([null, 7, 'text', [], { formatVersion: 'one' }, { formatVersion: 1.5 }, { formatVersion: -1 }])(
    'what is no sheet of any format is left as it is: %j',
    (json) => expect(toCurrentFormat(json)).toBe(json),
  );

  test('with ranges that are no list, or entries that are no ranges, is left for the schema to refuse', () => {
    for (const serialRanges of ['K1', [7], [null], undefined])
      expect(parseLimitSheet({ ...FORMAT_1, serialRanges })).toMatchObject({ ok: false });
  });
});
