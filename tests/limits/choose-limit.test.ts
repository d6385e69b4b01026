import { describe, expect, it } from 'vitest';
import { chooseLimit, sheetWarnings } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { compareSerials, sheetCovers } from '../../src/limits/serial-range.ts';
import { describeProblem } from '../../src/problems/problem.ts';

const REAL: LimitSheet = {
  ...DEMONSTRATION_SHEET,
  title: 'Shop sheet',
  invented: false,
  confirmedBy: 'R. M.',
  confirmedOn: '2026-01-05',
  validFrom: '2026-01-01',
  serialRanges: [{ from: 'A9', to: 'A120' }],
};

const codes = (sheet: LimitSheet, use = {}) => sheetWarnings(sheet, use).map(({ code }) => code);

describe('choosing the limit of a check', () => {
  it('finds it by the name of the check', () => {
    const chosen = chooseLimit(DEMONSTRATION_SHEET, 'pump-return');
    // common practice, no source: 125 to 525 mL in 30 s
    expect(chosen.ok && chosen.value.limit).toMatchObject({
      kind: 'window',
      min: 125,
      max: 525,
      durationSeconds: 30,
    });
  });

  it('says what the sheet has when the check is not in it', () => {
    const chosen = chooseLimit(DEMONSTRATION_SHEET, 'rail-decay');
    expect(!chosen.ok && describeProblem(chosen.problem).message).toContain('crank-delivery, pump-return');
  });

  it('warns wherever a verdict would stand on invented numbers', () => {
    expect(codes(DEMONSTRATION_SHEET)).toEqual(['limit.invented']);
    expect(DEMONSTRATION_SHEET.title).toContain('invented numbers');
  });

  it('has nothing to warn of on a confirmed sheet for the right serial number on a later day', () => {
    expect(codes(REAL, { serial: 'a 100', onDate: '2026-02-01' })).toEqual([]);
  });

  it('warns of numbers nobody confirmed, a serial number outside, and a day before the sheet holds', () => {
    const unconfirmed = { ...REAL, confirmedBy: '', confirmedOn: null };
    expect(codes(unconfirmed, { serial: 'A121', onDate: '2025-12-31' })).toEqual([
      'limit.not-confirmed',
      'limit.serial-not-covered',
      'limit.not-yet-valid',
    ]);
  });

  it('does not complain about a serial number that is not known yet', () => {
    expect(codes(REAL, { serial: ' ' })).toEqual([]);
    expect(codes(REAL)).toEqual([]);
  });
});

describe('serial ranges', () => {
  it('count runs of digits by value, not letter by letter', () => {
    expect(compareSerials('A9', 'A10')).toBeLessThan(0);
    expect(compareSerials('A09', 'a-9')).toBe(0);
    expect(compareSerials('B1', 'A999')).toBeGreaterThan(0);
    expect(compareSerials('A', 'A1')).toBeLessThan(0);
  });

  it('keep serial numbers apart that are too long for a double', () => {
    expect(compareSerials('90071992547409930', '90071992547409931')).toBeLessThan(0);
  });

  it('include both of their ends and leave open ends open', () => {
    expect(['A8', 'A9', 'A50', 'A120', 'A121'].map((serial) => sheetCovers(REAL, serial))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
    expect(sheetCovers({ serialRanges: [{ from: null, to: 'A5' }] }, 'A1')).toBe(true);
    expect(sheetCovers({ serialRanges: [{ from: 'A5', to: null }] }, 'Z9')).toBe(true);
    expect(sheetCovers({ serialRanges: [] }, 'A1')).toBe(false);
  });
});
