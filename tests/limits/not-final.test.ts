import { describe, expect, test } from 'vitest';
import { sheetWarnings, type LimitUse } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { notFinalWords } from '../../src/limits/not-final.ts';

const SHOP: LimitSheet = {
  ...DEMONSTRATION_SHEET,
  title: 'Shop sheet',
  invented: false,
  serialRanges: [{ from: 'K1', to: 'K99' }],
  validFrom: '2026-01-01',
  confirmedBy: 'R. M.',
  confirmedOn: '2026-08-01',
};
const words = (change: Partial<LimitSheet>, use: LimitUse = {}) =>
  notFinalWords(sheetWarnings({ ...SHOP, ...change }, { serial: 'K7', onDate: '2026-10-01', ...use }));

describe('a verdict', () => {
  test('is final on a sheet that holds and was confirmed within 90 days', () => {
    expect(words({})).toBeNull();
    expect(notFinalWords([])).toBeNull();
  });

  test('is not final while nobody has confirmed the sheet', () => {
    expect(words({ confirmedBy: '', confirmedOn: null })).toBe('Not final until the sheet is confirmed');
  });

  test('is not final from the 91st day after the confirmation on', () => {
    // By hand: August has 31 days, September 30: 2026-08-01 to 2026-10-30 are 30 + 30 + 30 = 90 days.
    expect(words({}, { onDate: '2026-10-30' })).toBeNull();
    expect(words({}, { onDate: '2026-10-31' })).toBe('Not final until the sheet is confirmed again');
  });

  test('is not final before the sheet holds, nor for an engine that it does not hold for', () => {
    expect(words({ validFrom: '2026-10-02' })).toMatch(/^Not final: .* the day of the run$/);
    expect(words({}, { serial: 'K100' })).toMatch(/^Not final: .* serial number$/);
  });

  test('names the gravest of several reasons alone', () => {
    expect(words({ confirmedOn: null, validFrom: '2026-10-02' }, { serial: 'K100' })).toMatch(
      /serial number$/,
    );
  });

  test('of invented numbers needs no confirmation: they belong to no engine, which is said elsewhere', () => {
    expect(words({ invented: true, confirmedOn: null })).toBeNull();
  });
});
