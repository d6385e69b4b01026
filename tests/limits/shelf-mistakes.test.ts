import { describe, expect, test } from 'vitest';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { Limit, LimitSheet, SerialRange } from '../../src/limits/limit-sheet.ts';
import { sheetDoubts, shelfMistakes } from '../../src/limits/shelf-mistakes.ts';
import { describeProblem } from '../../src/problems/problem.ts';

const [DELIVERY] = DEMONSTRATION_SHEET.limits as [Limit, ...Limit[]];
const limit = (check: string, title: string): Limit => ({ ...DELIVERY, check, title });
const A = limit('a', 'Check A');
const B = limit('b', 'Check B');
const C = limit('c', 'Check C');

const sheet = (
  id: string,
  limits: readonly Limit[],
  ...serialRanges: readonly SerialRange[]
): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: `Sheet ${id}`,
  invented: false,
  limits: [...limits],
  serialRanges: [...serialRanges],
});
const said = (...sheets: readonly LimitSheet[]) =>
  shelfMistakes(sheets).map(({ code, context }) => [
    code,
    context['check'],
    context['after'] ?? context['serial'],
  ]);

const LOW = { from: 'K100', to: 'K199' };
const HIGH = { from: 'K250', to: 'K299' };
const OVER = { from: 'K150', to: 'K260' };

describe('what is wrong between the sheets of a shelf', () => {
  test('is said once for all checks that it concerns, by their names', () => {
    expect(said(sheet('1', [A, B, C], LOW), sheet('2', [A, B, C], HIGH))).toEqual([
      ['limit.serial-gap', 'Check A, Check B and Check C', 'K199'],
    ]);
    expect(said(sheet('1', [A, B], LOW), sheet('2', [B, A], OVER))).toEqual([
      ['limit.sheets-overlap', 'Check A and Check B', 'K199'],
    ]);
  });

  test('is said apart where the checks differ in it', () => {
    // A: 100-199 and 250-299 leave a gap. B: 100-199, 150-260 and 250-299 leave none, but overlap twice.
    expect(said(sheet('1', [A, B], LOW), sheet('2', [B], OVER), sheet('3', [A, B], HIGH))).toEqual([
      ['limit.serial-gap', 'Check A', 'K199'],
      ['limit.sheets-overlap', 'Check B', 'K199'],
      ['limit.sheets-overlap', 'Check B', 'K260'],
    ]);
  });

  test('is nothing between sheets with limits for different checks', () => {
    expect(said(sheet('1', [A], LOW), sheet('2', [B], OVER))).toEqual([]);
  });

  test('is nothing between families, and a family is one whatever its capitals', () => {
    const other = { ...sheet('2', [A], OVER), engineFamily: 'Another' };
    expect(said(sheet('1', [A], LOW), other)).toEqual([]);
    const shouted = { ...sheet('2', [A], OVER), engineFamily: ' BENCH ENGINE ' };
    expect(said({ ...sheet('1', [A], LOW), engineFamily: 'bench engine' }, shouted)).toHaveLength(1);
  });

  test('does not count practice sheets and replaced revisions', () => {
    const practice = { ...sheet('2', [A], OVER), invented: true };
    expect(said(sheet('1', [A], LOW), practice)).toEqual([]);
    const before = sheet('old', [A], LOW);
    const after = { ...sheet('new', [A], OVER), sheetId: 'old', replaces: 'old' };
    expect(said(before, after)).toEqual([]);
  });

  test('a sheet without bounds closes every gap and overlaps with nothing: it is offered anyway', () => {
    const open = sheet('3', [A], { from: null, to: null });
    expect(said(sheet('1', [A], LOW), sheet('2', [A], HIGH), open)).toEqual([]);
  });

  test('is said with every word filled in', () => {
    for (const found of shelfMistakes([
      sheet('1', [A, B], LOW),
      sheet('2', [A, B], HIGH),
      sheet('3', [A], OVER),
    ]))
      expect(describeProblem(found).message).not.toMatch(/[{}]/);
  });
});

describe('what is doubtful in one sheet', () => {
  test('is no range at all, and ranges that overlap; a gap is meant', () => {
    const codes = (...ranges: readonly SerialRange[]) =>
      sheetDoubts(sheet('1', [A], ...ranges)).map(({ code }) => code);
    expect(codes()).toEqual(['limit.no-serials']);
    expect(codes(LOW, HIGH)).toEqual([]);
    expect(codes(LOW, OVER, HIGH)).toEqual(['limit.ranges-overlap', 'limit.ranges-overlap']);
    expect(codes({ from: null, to: null }, { prefix: 'Q', from: null, to: null })).toEqual([
      'limit.ranges-overlap',
    ]);
  });
});
