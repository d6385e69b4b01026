import { describe, expect, test } from 'vitest';
import { confirmationState } from '../../src/limits/confirmation.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import { planImport, readExchange, writeExchange } from '../../src/limits/exchange.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { reviseSheet, sameSheet } from '../../src/limits/revise-sheet.ts';
import { historyOf, revisionsInForce, supersededBy } from '../../src/limits/revisions.ts';
import { differenceSentence, sheetDifferences } from '../../src/limits/sheet-differences.ts';

const shop = (change: Partial<LimitSheet> = {}): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id: 'shop',
  sheetId: 'shop',
  title: 'Shop sheet',
  invented: false,
  confirmedBy: 'R. M.',
  confirmedOn: '2026-01-05',
  ...change,
});
const window = (change: object): LimitSheet['limits'] =>
  DEMONSTRATION_SHEET.limits.map((each) => (each.kind === 'window' ? { ...each, ...change } : each));
const sentences = (before: LimitSheet, after: LimitSheet) =>
  sheetDifferences(before, after).map(differenceSentence);

describe('a file of sheets', () => {
  test('written and read again holds the same sheets', () => {
    const sheets = [shop(), shop({ id: 'b', sheetId: 'b', limits: window({ max: 500.25 }) })];
    expect(readExchange(writeExchange(sheets))).toEqual({ sheets, unread: [] });
    expect(readExchange(`\uFEFF${writeExchange(sheets)}`).sheets).toEqual(sheets);
  });

  test('may be one sheet alone', () => {
    expect(readExchange(JSON.stringify(shop()))).toEqual({ sheets: [shop()], unread: [] });
  });

  test('gives the sound sheets though one is not, and names that one', () => {
    const bad = { ...shop({ id: 'bad' }), revision: '' };
    const file = { format: 'meniscus-limits', formatVersion: 1, sheets: [shop(), bad, 7] };
    const { sheets, unread } = readExchange(JSON.stringify(file));
    expect(sheets).toEqual([shop()]);
    expect(unread.map(({ place }) => place)).toEqual(['sheet 2 (Shop sheet)', 'sheet 3']);
  });

  test.each([
    ['no JSON', '{', 'limit.not-a-sheet'],
    ['nothing', '', 'limit.not-a-sheet'],
    ['a list', '[]', 'limit.not-a-sheet'],
    [
      'a later collection',
      '{"format":"meniscus-limits","formatVersion":2,"sheets":[]}',
      'limit.newer-format',
    ],
    ['a collection without sheets', '{"format":"meniscus-limits","formatVersion":1}', 'limit.not-a-sheet'],
    ['sheets without a version', '{"sheets":[]}', 'limit.not-a-sheet'],
  ])('that is %s is refused whole, with a reason', (_, text, code) => {
    expect(readExchange(text)).toMatchObject({
      sheets: [],
      unread: [{ place: 'the file', problem: { code } }],
    });
  });
});

describe('the preview of an import', () => {
  const kept = [shop()];
  const kind = (sheet: LimitSheet, held = kept) => planImport(held, [sheet])[0]!.kind;

  test('says of each sheet what taking it would do', () => {
    expect(kind(shop({ id: 'x', sheetId: 'x' }))).toBe('new');
    expect(kind(shop())).toBe('same');
    expect(kind(shop({ readFrom: 'elsewhere' }))).toBe('conflict');
    expect(kind(shop({ id: 'shop@2', revision: '2', replaces: 'shop' }))).toBe('revision');
  });

  test('compares a revision with the one that it replaces, also where a later one is kept', () => {
    const second = shop({
      id: 'shop@2',
      revision: '2',
      replaces: 'shop',
      validFrom: '2026-09-01',
      limits: window({ max: 500 }),
    });
    const other = shop({ id: 'other', revision: '1a', replaces: 'shop', limits: window({ min: 130 }) });
    const [plan] = planImport([second, shop()], [other]);
    expect(plan?.before?.id).toBe('shop');
    expect(plan?.differences.map(differenceSentence)).toEqual([
      'Revision: 1 becomes 1a.',
      'Pump-return, lowest: 125 mL becomes 130 mL.',
    ]);
  });

  test('compares with the last that is kept where it replaces none of those', () => {
    const late = shop({ id: 'late', validFrom: '2026-09-01' });
    expect(planImport([late, shop()], [shop({ id: 'z', replaces: 'lost' })])[0]?.before?.id).toBe('late');
  });
});

describe('differences', () => {
  test('are none between a sheet and itself, and ids alone are none', () => {
    expect(sentences(shop(), shop())).toEqual([]);
    expect(sentences(shop(), shop({ id: 'else', replaces: 'shop' }))).toEqual([]);
  });

  test('are told in words, in the order of the sheet, with what is gone last', () => {
    const after = shop({
      title: 'Shop sheet, spring',
      serialRanges: [{ prefix: 'K', from: '1', to: '9' }],
      confirmedOn: null,
      confirmedBy: '',
      limits: DEMONSTRATION_SHEET.limits.slice(0, 1),
    });
    const found = sentences(shop(), after);
    expect(found.slice(0, 2)).toEqual([
      'Title: Shop sheet becomes Shop sheet, spring.',
      'Serial numbers: all becomes K1 to K9.',
    ]);
    expect(found).toContain('Confirmed: 2026-01-05 by R. M. is gone.');
    expect(found.at(-1)).toMatch(/^Pump-return, .* is gone\.$/);
  });

  test('of a curve are told point by point, at the speed', () => {
    const limits = DEMONSTRATION_SHEET.limits.map((each) =>
      each.kind === 'speed chart'
        ? {
            ...each,
            failBelow: [...each.failBelow.filter(([speed]) => speed !== 140), [300, 380] as [number, number]],
          }
        : each,
    );
    expect(sentences(shop(), shop({ limits }))).toEqual([
      'Crank-delivery, fail below at 300 rpm: 380 mL is new.',
      'Crank-delivery, fail below at 140 rpm: 156 mL is gone.',
    ]);
  });
});

describe('a revision', () => {
  test('has an id of its own, the next number, and names what it replaces', () => {
    const next = reviseSheet(shop(), { readFrom: 'newer book' });
    expect(next).toMatchObject({
      id: 'shop@2',
      sheetId: 'shop',
      replaces: 'shop',
      revision: '2',
      readFrom: 'newer book',
    });
    expect(reviseSheet(next, { readFrom: 'newest book' }, [shop(), next])).toMatchObject({
      id: 'shop@3',
      revision: '3',
    });
  });

  test.each([
    ['1', '2'],
    ['9', '10'],
    ['B2', 'B3'],
    ['spring', 'spring.2'],
    ['2024-09', '2024-10'],
  ])('after %s is %s', (before, after) => {
    expect(reviseSheet(shop({ revision: before }), { title: 'T' }).revision).toBe(after);
  });

  test('takes no number and no id that is kept already', () => {
    const kept = [shop({ id: 'shop@2', revision: '2' }), shop({ id: 'shop@3', revision: '9' })];
    expect(reviseSheet(shop(), { title: 'T' }, kept)).toMatchObject({ revision: '3', id: 'shop@3-2' });
  });

  test('with other numbers, engines or day is not confirmed; with another title it stays so', () => {
    expect(reviseSheet(shop(), { limits: window({ min: 126 }) })).toMatchObject({
      confirmedOn: null,
      confirmedBy: '',
    });
    expect(reviseSheet(shop(), { serialRanges: [] }).confirmedOn).toBeNull();
    expect(reviseSheet(shop(), { validFrom: '2026-05-01' }).confirmedOn).toBeNull();
    expect(reviseSheet(shop(), { title: 'T' }).confirmedOn).toBe('2026-01-05');
  });

  test('with a new confirmation keeps that one', () => {
    const change = { limits: window({ min: 126 }), confirmedOn: '2026-06-01', confirmedBy: 'A. B.' };
    expect(reviseSheet(shop(), change)).toMatchObject({ confirmedOn: '2026-06-01', confirmedBy: 'A. B.' });
  });

  test('that changes nothing is the same sheet', () => {
    const sheet = shop();
    expect(reviseSheet(sheet, { title: 'Shop sheet' })).toBe(sheet);
    expect(sameSheet(sheet, JSON.parse(JSON.stringify(sheet)) as LimitSheet)).toBe(true);
  });
});

describe('revisions in force', () => {
  const one = shop({ validFrom: '2025-01-01' });
  const two = shop({ id: 'shop@2', revision: '2', replaces: 'shop', validFrom: '2026-06-01' });
  const three = shop({ id: 'shop@3', revision: '3', replaces: 'shop@2', validFrom: '2026-06-01' });
  const ids = (onDate: string, sheets = [three, one, two]) =>
    revisionsInForce(sheets, onDate).map(({ id }) => id);

  test('are one on each day, the replacing one where two begin on the same day', () => {
    expect(ids('2024-12-31')).toEqual([]);
    expect(ids('2026-05-31')).toEqual(['shop']);
    expect(ids('2026-06-01')).toEqual(['shop@3']);
    expect(ids('2026-06-01', [one, two])).toEqual(['shop@2']);
  });

  test('a correction that holds from an earlier day puts out of force what it replaces', () => {
    const back = shop({ id: 'back', replaces: 'shop@2', validFrom: '2026-02-01' });
    expect(ids('2026-07-01', [one, two, back])).toEqual(['back']);
    expect(supersededBy(back, [one, two, back])).toBeNull();
  });

  test('two that name each other neither loop nor both vanish', () => {
    const a = shop({ id: 'a', replaces: 'b' });
    const b = shop({ id: 'b', replaces: 'a' });
    expect(ids('2026-07-01', [a, b]).length).toBeGreaterThan(0);
    expect(historyOf([a, b], 'shop')).toHaveLength(2);
  });

  test('stand in the order in which one replaced the other', () => {
    expect(historyOf([three, one, two], 'shop').map(({ id }) => id)).toEqual(['shop', 'shop@2', 'shop@3']);
    expect(historyOf([one], 'nothing')).toEqual([]);
  });
});

describe('a confirmation', () => {
  const on = (confirmedOn: string | null, day: string, invented = false) =>
    confirmationState({ invented, confirmedOn }, day);

  test('holds for 90 days, across a leap day and the end of a year', () => {
    // By hand: 2023-12-15 to 2024-03-14 are 16 + 31 + 29 + 14 = 90 days; 2024 is a leap year.
    expect(on('2023-12-15', '2024-03-14')).toEqual({
      kind: 'confirmed',
      on: '2023-12-15',
      days: 90,
      again: false,
    });
    expect(on('2023-12-15', '2024-03-15')).toMatchObject({ days: 91, again: true });
  });

  test('counts 0 days on the day itself, and for a run before it', () => {
    expect(on('2026-01-05', '2026-01-05')).toMatchObject({ days: 0, again: false });
    expect(on('2026-01-05', '2025-01-05')).toMatchObject({ days: 0, again: false });
  });

  test('is none where nobody gave one, and nothing to give for invented numbers', () => {
    expect(on(null, '2026-01-05')).toEqual({ kind: 'never' });
    expect(on(null, '2026-01-05', true)).toEqual({ kind: 'invented' });
    expect(on('2026-01-05', '')).toMatchObject({ days: 0, again: false });
  });
});
