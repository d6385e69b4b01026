import { describe, expect, test } from 'vitest';
import { chooseSheet, type SheetUse } from '../../src/limits/choose-sheet.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';

/** A sheet for serial numbers A100 to A200 since 2026-01-01; invented for these tests, though it does not say so. */
const sheet = (id: string, change: Partial<LimitSheet> = {}): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: `Sheet ${id}`,
  invented: false,
  engineFamily: 'Family One',
  serialRanges: [{ from: 'A100', to: 'A200' }],
  revision: '1',
  validFrom: '2026-01-01',
  confirmedBy: 'R. M.',
  confirmedOn: '2026-01-02',
  ...change,
});
const USE: SheetUse = { serial: 'A150', onDate: '2026-11-25', check: 'crank-delivery' };
const choose = (sheets: readonly LimitSheet[], use: Partial<SheetUse> = {}) =>
  chooseSheet(sheets, { ...USE, ...use });
const idsOf = (sheets: readonly LimitSheet[], use: Partial<SheetUse> = {}) => {
  const choice = choose(sheets, use);
  if (choice.kind === 'none') return [];
  return choice.kind === 'one' ? [choice.sheet.id] : choice.sheets.map(({ id }) => id);
};

describe('the sheet for an engine', () => {
  test('is the one whose serial range holds its serial number', () => {
    const sheets = [sheet('low', { serialRanges: [{ from: 'A1', to: 'A99' }] }), sheet('own')];
    expect(choose(sheets)).toEqual({
      kind: 'one',
      sheet: sheets[1],
      why: '“Sheet own”, revision 1, holds for serial number A150 (A100 to A200) since 2026-01-01.',
    });
  });

  test.each(['A100', 'A200', 'a 150', 'A-150', ' A0150 '])(
    'is found at the ends of its range and however the number is spelled: %s',
    (serial) => expect(idsOf([sheet('own')], { serial })).toEqual(['own']),
  );

  test.each(['A99', 'A201', 'B150'])('is none where the number lies outside: %s', (serial) => {
    const choice = choose([sheet('own')], { serial });
    expect(choice).toEqual({
      kind: 'none',
      why: `No limit sheet kept here holds for serial number ${serial}.`,
    });
  });

  test('is found in the second of its ranges, and says which one it was', () => {
    const ranges = [
      { from: 'A1', to: 'A9' },
      { from: 'A140', to: null },
    ];
    expect(choose([sheet('own', { serialRanges: ranges })])).toMatchObject({
      kind: 'one',
      why: expect.stringContaining('(from A140 on)'),
    });
  });

  test.each([
    [{ from: null, to: 'A150' }, '(up to A150)'],
    [{ from: 'A150', to: 'A150' }, '(only A150)'],
  ])('says an open or single range in words: %j', (range, words) => {
    expect(choose([sheet('own', { serialRanges: [range] })])).toMatchObject({
      why: expect.stringContaining(words),
    });
  });

  test('is none while the serial number is not known', () => {
    for (const serial of [null, '', '  '])
      expect(choose([sheet('own')], { serial })).toMatchObject({
        kind: 'none',
        why: expect.stringContaining('not known'),
      });
  });

  test('has the check that is wanted', () => {
    const returnOnly = { limits: DEMONSTRATION_SHEET.limits.filter(({ kind }) => kind === 'window') };
    expect(idsOf([sheet('return', returnOnly), sheet('both')])).toEqual(['both']);
    expect(choose([sheet('return', returnOnly)])).toMatchObject({ kind: 'none' });
    expect(idsOf([sheet('return', returnOnly)], { check: 'pump-return' })).toEqual(['return']);
  });
});

describe('the demonstration sheet', () => {
  test('is never chosen for a real serial number, though its range is open', () => {
    expect(choose([DEMONSTRATION_SHEET])).toEqual({
      kind: 'none',
      why: 'No limit sheet of a real engine with this check is kept here.',
    });
    expect(idsOf([DEMONSTRATION_SHEET, sheet('own')])).toEqual(['own']);
  });

  test('has no privilege by its name: whatever is invented is not chosen', () => {
    expect(idsOf([sheet('practice', { invented: true })])).toEqual([]);
  });
});

describe('revisions', () => {
  const old = sheet('old', { revision: '1', validFrom: '2025-01-01' });
  const now = sheet('now', { revision: '2', validFrom: '2026-06-01' });
  const next = sheet('next', { revision: '3', validFrom: '2026-12-01' });

  test('the newest that was valid on the day holds, in whatever order they lie', () => {
    expect(idsOf([old, now, next])).toEqual(['now']);
    expect(idsOf([next, now, old])).toEqual(['now']);
    expect(idsOf([old, now, next], { onDate: '2026-05-31' })).toEqual(['old']);
    expect(idsOf([old, now, next], { onDate: '2026-06-01' })).toEqual(['now']);
  });

  test('before the first of them none holds, and the day is named from which one does', () => {
    expect(choose([next, now], { onDate: '2024-12-31' })).toMatchObject({
      kind: 'none',
      why: expect.stringContaining('only from 2026-06-01 on'),
    });
  });

  test('a newer one whose range no longer holds the number leaves the older one in force', () => {
    const narrowed = { ...now, serialRanges: [{ from: 'A160', to: 'A200' }] };
    expect(idsOf([old, narrowed])).toEqual(['old']);
  });

  test('of one family and one day are a question for the person', () => {
    const twin = { ...now, id: 'twin', engineFamily: ' family ONE' };
    expect(choose([old, now, twin])).toMatchObject({ kind: 'several', sheets: [now, twin] });
  });
});

describe('what a person has to choose', () => {
  test('is named where two families hold for one number', () => {
    const other = sheet('other', { engineFamily: 'Family Two', validFrom: '2024-01-01' });
    expect(choose([sheet('own'), other])).toEqual({
      kind: 'several',
      sheets: [sheet('own'), other],
      why:
        'More than one limit sheet may hold for serial number A150: “Sheet own”, revision 1; “Sheet other”, revision 1. ' +
        'Choose the one for this engine.',
    });
  });

  test('is a sheet that names no serial numbers: offered, not taken', () => {
    const open = sheet('open', { serialRanges: [{ from: null, to: null }] });
    expect(choose([open])).toMatchObject({
      kind: 'several',
      sheets: [open],
      why: expect.stringContaining('names no serial numbers'),
    });
  });

  test('is not such a sheet where another one names the number', () => {
    const open = sheet('open', { serialRanges: [{ from: null, to: null }], engineFamily: 'Any' });
    expect(idsOf([open, sheet('own')])).toEqual(['own']);
  });
});
