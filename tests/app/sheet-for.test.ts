import { describe, expect, test } from 'vitest';
import { sheetFor } from '../../src/app/sheet-for.ts';
import { runValues } from '../../src/jobs/run-entries.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { run } from './services.ts';

describe('the sheet for a serial number', () => {
  const real = (id: string, from: string | null, to: string | null): LimitSheet => ({
    ...DEMONSTRATION_SHEET,
    id,
    title: `Sheet ${id}`,
    invented: false,
    serialRanges: [{ from, to }],
  });
  const ask = (sheets: readonly LimitSheet[], serial: string | null, now = DEMONSTRATION_SHEET) => {
    const began = { ...run(), sheet: now };
    return sheetFor(sheets, { serial, run: began, values: runValues(null, []) });
  };
  test('is taken in place of the invented one, with the reason', () => {
    const answer = ask([DEMONSTRATION_SHEET, real('a', '100', '200')], '150');
    expect(answer.take?.sheet.id).toBe('a');
    expect(answer.take?.reason).toMatch(/150/);
  });
  test('stays where it covers the engine already', () => {
    expect(ask([real('a', '100', '200'), real('b', '100', '200')], '150', real('b', '100', '200'))).toEqual({
      take: null,
      advice: null,
    });
  });
  test('is not guessed where none or several hold: it is said instead', () => {
    expect(ask([real('a', '100', '200')], '300')).toMatchObject({ take: null });
    expect(ask([real('a', '100', '200')], '300').advice).toMatch(/300/);
    expect(ask([real('a', '1', '200'), real('b', '1', '200')], '150').take).toBeNull();
  });
  test('is not looked up before the engine is known', () => {
    expect(ask([real('a', '100', '200')], null)).toEqual({ take: null, advice: null });
  });
});
