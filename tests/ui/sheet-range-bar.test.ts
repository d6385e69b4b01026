import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pieceWords, rangeBars, type HeldRange } from '../../src/ui/sheet-range-bar.ts';
import { confirmationLook, daysAgo } from '../../src/ui/sheet-words.ts';

const range = (from: string | null, to: string | null, sheet: string, prefix = ''): HeldRange => ({
  prefix,
  from,
  to,
  sheet,
});
const words = (...ranges: readonly HeldRange[]) =>
  rangeBars(ranges).flatMap(({ prefix, pieces }) => pieces.map((piece) => pieceWords(piece, prefix)));

describe('the bar of a family', () => {
  test.each<[string, readonly HeldRange[], readonly string[]]>([
    ['one range', [range('100', '500', 'A')], ['A holds from 100 to 500.']],
    [
      'neighbours without a gap',
      [range('100', '500', 'A'), range('501', '600', 'B')],
      ['A holds from 100 to 500.', 'B holds from 501 to 600.'],
    ],
    [
      'a gap',
      [range('100', '500', 'A'), range('502', null, 'B')],
      ['A holds from 100 to 500.', 'No sheet holds for 501.', 'B holds from 502 on.'],
    ],
    [
      'an overlap',
      [range('100', '500', 'A'), range('500', '600', 'B')],
      ['A holds from 100 to 499.', 'A and B hold at once for 500.', 'B holds from 501 to 600.'],
    ],
    [
      'one within another',
      [range(null, null, 'A'), range('5', '6', 'B')],
      ['A holds up to 4.', 'A and B hold at once from 5 to 6.', 'A holds from 7 on.'],
    ],
    ['everything', [range(null, null, 'A')], ['A holds for every serial number.']],
    [
      'two ranges of one sheet that touch',
      [range('1', '4', 'A'), range('3', '9', 'A')],
      ['A holds from 1 to 9.'],
    ],
    [
      'prefixes are bars of their own',
      [range('1', '4', 'A', 'Q'), range('1', null, 'B', 'P'), range(null, null, 'C', 'R')],
      ['B holds from P1 on.', 'A holds from Q1 to Q4.', 'C holds for every R.'],
    ],
    [
      'longer than a double',
      [range('90071992547409930', '90071992547409931', 'A')],
      ['A holds from 90071992547409930 to 90071992547409931.'],
    ],
    ['an end that is no number, and a reversed range', [range('1X', '4', 'A'), range('9', '4', 'B')], []],
  ])('%s', (_, ranges, expected) => {
    expect(words(...ranges)).toEqual(expected);
  });

  test('each serial number is in the piece that names exactly the sheets that hold it', () => {
    const end = fc.option(fc.integer({ min: 0, max: 30 }));
    const any = fc.record({ from: end, to: end, sheet: fc.constantFrom('A', 'B', 'C') });
    fc.assert(
      fc.property(
        fc.array(any, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: -1, max: 32 }),
        (spans, serial) => {
          const pieces =
            rangeBars(
              spans.map(({ from, to, sheet }) =>
                range(from?.toString() ?? null, to?.toString() ?? null, sheet),
              ),
            )[0]?.pieces ?? [];
          const holds = (from: number | null, to: number | null) =>
            (from === null || from <= serial) && (to === null || to >= serial);
          const expected = new Set(spans.filter(({ from, to }) => holds(from, to)).map(({ sheet }) => sheet));
          const inside = pieces.filter(({ from, to }) =>
            holds(from === null ? null : Number(from), to === null ? null : Number(to)),
          );
          expect(inside.length).toBeLessThanOrEqual(1);
          expect(new Set(inside[0]?.sheets ?? [])).toEqual(expected);
        },
      ),
    );
  });
});

describe('how long ago a sheet was confirmed', () => {
  test.each([
    [0, 'today'],
    [1, 'yesterday'],
    [12, '12 days ago'],
    [null, 'on an unknown day'],
  ])('%s days: %s', (days, expected) => {
    expect(daysAgo(days)).toBe(expected);
  });

  test('every state has a shape of its own where it asks for something else', () => {
    const look = (state: 'confirmed' | 'due' | 'never' | 'invented') =>
      confirmationLook({ state, days: 12, by: 'A. Reader' });
    expect(look('confirmed')).toEqual({
      shape: 'pass',
      kind: 'pass',
      words: 'confirmed 12 days ago by A. Reader',
    });
    expect(look('due').words).toBe('check against current service information (confirmed 12 days ago)');
    expect(look('never').words).toBe('never confirmed: check against current service information');
    expect(look('invented').shape).toBe('unsure');
  });
});
