import { describe, expect, test } from 'vitest';
import { familyViews, importViews, serialAnswers } from '../../src/app/sheet-views.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { Limit, LimitSheet } from '../../src/limits/limit-sheet.ts';

const [DELIVERY] = DEMONSTRATION_SHEET.limits as [Limit, ...Limit[]];
const limit = (check: string): Limit => ({ ...DELIVERY, check, title: check.toUpperCase() });
const sheet = (id: string, checks: readonly string[], from: string, to: string): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: id,
  invented: false,
  engineFamily: id,
  confirmedBy: 'R. M.',
  confirmedOn: '2026-11-01',
  serialRanges: [{ from, to }],
  limits: checks.map(limit),
});
const ask = (serial: string, onDate = '2026-11-25') => ({ serial, onDate });
const said = (sheets: readonly LimitSheet[], serial: string) =>
  serialAnswers([DEMONSTRATION_SHEET, ...sheets], ask(serial)).map(({ kind, checks, sheets: held }) => [
    kind,
    checks.join('+'),
    held.map(({ id }) => id).join('+'),
  ]);

describe('which sheet holds for a serial number', () => {
  test('is one answer for all checks where it is the same', () => {
    expect(said([sheet('one', ['a', 'b', 'c'], '100', '199')], '150')).toEqual([['one', 'A+B+C', 'one']]);
    expect(said([sheet('one', ['a', 'b'], '100', '199')], '200')).toEqual([['none', 'A+B', '']]);
  });

  test('is told apart where two sheets share the work', () => {
    const sheets = [sheet('one', ['a', 'b'], '100', '199'), sheet('two', ['b', 'c'], '150', '299')];
    expect(said(sheets, '120')).toEqual([
      ['one', 'A+B', 'one'],
      ['none', 'C', ''],
    ]);
    expect(said(sheets, '160')).toEqual([
      ['one', 'A', 'one'],
      ['several', 'B', 'one+two'],
      ['one', 'C', 'two'],
    ]);
  });

  test('says of a sheet that it lacks the check only where it has none of the checks', () => {
    const sheets = [sheet('one', ['a', 'b'], '100', '199'), sheet('two', ['b'], '300', '399')];
    const [answer] = serialAnswers([DEMONSTRATION_SHEET, ...sheets], ask('150'));
    expect(answer?.checks).toEqual(['A', 'B']);
    expect(answer?.passedOver.map(({ id, why }) => [id, why])).toEqual([
      ['demonstration', 'Its numbers were made up for practice.'],
      ['two', 'It holds for 300 to 399, not for serial number 150.'],
    ]);
  });

  test('is one plain no where no sheet of a real engine is kept', () => {
    expect(said([], '150')).toEqual([['none', '', '']]);
  });

  test('is not asked before there is a number and a day', () => {
    const sheets = [sheet('one', ['a'], '100', '199')];
    expect(serialAnswers(sheets, ask('  '))).toEqual([]);
    expect(serialAnswers(sheets, ask('150', ''))).toEqual([]);
  });
});

describe('the shelf', () => {
  const shelf = (sheets: readonly LimitSheet[]) =>
    familyViews({ sheets, withdrawn: [], problems: [], mistakes: [], usedIds: new Set() }, '2026-11-25');
  const held = (sheets: readonly LimitSheet[]) =>
    shelf(sheets).flatMap(({ ranges }) => ranges.map(({ from, to }) => [from, to]));

  test('says what is held by sheets of real engines alone, and by ranges that name serial numbers', () => {
    const open = { ...sheet('open', ['a'], '', ''), serialRanges: [{ from: null, to: null }] };
    expect(held([DEMONSTRATION_SHEET, open, sheet('one', ['a'], '100', '199')])).toEqual([['100', '199']]);
  });
});

describe('the preview of an import', () => {
  test('names a limit by its title, not by the id of its check', () => {
    const places = ['a, fail below at 140 rpm', 'a, title', 'read from', 'gone, lowest'];
    const differences = places.map((place) => ({ place, before: '1', after: '2' }));
    const planned = {
      kind: 'revision',
      sheet: sheet('one', ['a'], '1', '2'),
      before: null,
      differences,
    } as const;
    const [view] = importViews([planned], { sheets: [], unread: [] });
    expect(view?.changes.map(({ place }) => place)).toEqual([
      'A, fail below at 140 rpm',
      'A, title',
      'read from',
      'gone, lowest',
    ]);
  });
});
