import { describe, expect, test } from 'vitest';
import { chooseSheet } from '../../src/limits/choose-sheet.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet, SerialRange } from '../../src/limits/limit-sheet.ts';

/** All names and numbers of this shelf are invented for this table. */
const sheet = (id: string, ranges: readonly SerialRange[], change: Partial<LimitSheet> = {}): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: id,
  invented: false,
  engineFamily: 'Yard',
  serialRanges: [...ranges],
  revision: '1',
  validFrom: '2026-01-01',
  ...change,
});
const crankOnly = DEMONSTRATION_SHEET.limits.filter(({ check }) => check === 'crank-delivery');

/**
 * early: Y 100 to Y 199, and Y 210 to Y 219 beside a gap. late: Y 250 on; revision 2 from June on leaves out Y 250 to Y 259. mill: prefix MX, 7 to
 * 70. any-mq: all that begin with MQ. low: bare numbers up to 499. twin-a and twin-b: two families for bare 900 to 950. open: names no numbers.
 */
const SHELF: readonly LimitSheet[] = [
  DEMONSTRATION_SHEET,
  sheet('early', [
    { from: 'Y100', to: 'Y199' },
    { from: 'Y210', to: 'Y219' },
  ]),
  sheet('late', [{ from: 'Y250', to: null }], { sheetId: 'late' }),
  sheet('late-2', [{ from: 'Y260', to: null }], {
    sheetId: 'late',
    replaces: 'late',
    revision: '2',
    validFrom: '2026-06-01',
  }),
  sheet('mill', [{ prefix: 'MX', from: '7', to: '70' }], { engineFamily: 'Mill', limits: crankOnly }),
  sheet('any-mq', [{ prefix: 'MQ', from: null, to: null }], { engineFamily: 'Mill' }),
  sheet('low', [{ from: null, to: '499' }], { engineFamily: 'Low', validFrom: '2026-03-01' }),
  sheet('twin-a', [{ from: '900', to: '950' }], { engineFamily: 'Twin A' }),
  sheet('twin-b', [{ from: '930', to: '960' }], { engineFamily: 'Twin B' }),
  sheet('open', [{ from: null, to: null }], { engineFamily: 'Open' }),
];

const AUTUMN = '2026-11-25';
const CRANK = 'crank-delivery';
const RETURN = 'pump-return';

/** Number, serial number, day, check, which sheets, and why so: written by hand, before the code was run on it. */
const CASES: readonly (readonly [number, string, string, string, string, string])[] = [
  [1, 'Y100', AUTUMN, CRANK, 'early', 'first of a range belongs to it'],
  [2, 'Y199', AUTUMN, CRANK, 'early', 'last of a range belongs to it'],
  [3, 'Y150', AUTUMN, CRANK, 'early', 'within'],
  [4, 'Y99', AUTUMN, CRANK, '? open', 'one before the first'],
  [5, 'Y200', AUTUMN, CRANK, '? open', 'one after the last: in the gap'],
  [6, 'Y209', AUTUMN, CRANK, '? open', 'last of the gap'],
  [7, 'Y210', AUTUMN, CRANK, 'early', 'first of the second range'],
  [8, 'Y219', AUTUMN, CRANK, 'early', 'last of the second range'],
  [9, 'Y220', AUTUMN, CRANK, '? open', 'after the second range'],
  [10, 'y150', AUTUMN, CRANK, 'early', 'small letter'],
  [11, ' Y 150 ', AUTUMN, CRANK, 'early', 'blanks'],
  [12, 'Y-150', AUTUMN, CRANK, 'early', 'hyphen'],
  [13, 'Y0150', AUTUMN, CRANK, 'early', 'leading zero'],
  [14, 'Y1500', AUTUMN, CRANK, 'late-2', 'counted by value: far above 260, not between 150 and 151'],
  [15, 'Y250', '2026-05-31', CRANK, 'late', 'revision 1 on its last day'],
  [16, 'Y250', '2026-06-01', CRANK, '? open', 'revision 2 left it out; revision 1 does not come back'],
  [17, 'Y259', AUTUMN, CRANK, '? open', 'last that was left out'],
  [18, 'Y260', '2026-05-31', CRANK, 'late', 'revision 1 still holds'],
  [19, 'Y260', '2026-06-01', CRANK, 'late-2', 'first day and first number of revision 2'],
  [20, 'Y999999999999999999', AUTUMN, CRANK, 'late-2', 'open end, longer than a double counts'],
  [21, 'Y249', '2026-05-31', CRANK, '? open', 'one before an open range'],
  [22, 'Y150', '2025-12-31', CRANK, 'none', 'no sheet holds yet on that day'],
  [23, 'Y150', '2026-01-01', CRANK, 'early', 'the very first day'],
  [24, 'MX7', AUTUMN, CRANK, 'mill', 'prefix and first number'],
  [25, 'MX70', AUTUMN, CRANK, 'mill', 'prefix and last number'],
  [26, 'MX6', AUTUMN, CRANK, '? open', 'prefix, below'],
  [27, 'MX71', AUTUMN, CRANK, '? open', 'prefix, above'],
  [28, 'mx 007', AUTUMN, CRANK, 'mill', 'prefix in small letters, zeros'],
  [29, 'M50', AUTUMN, CRANK, '? open', 'half of the prefix only'],
  [30, 'XMX50', AUTUMN, CRANK, '? open', 'the prefix within is no prefix'],
  [31, 'MX50', AUTUMN, RETURN, '? open', 'the sheet has no such check'],
  [32, 'MQ', AUTUMN, CRANK, 'any-mq', 'the prefix alone'],
  [33, 'MQ12345', AUTUMN, RETURN, 'any-mq', 'whatever follows the prefix'],
  [34, '499', AUTUMN, CRANK, 'low', 'open below, its end'],
  [35, '0', AUTUMN, CRANK, 'low', 'open below, the least'],
  [36, '500', AUTUMN, CRANK, '? open', 'above the end'],
  [37, '499', '2026-02-28', CRANK, '? open', 'the day before it holds'],
  [38, '929', AUTUMN, CRANK, 'twin-a', 'one family alone'],
  [39, '930', AUTUMN, CRANK, '? twin-a twin-b', 'two families: the person is asked'],
  [40, '951', AUTUMN, CRANK, 'twin-b', 'the other family alone'],
  [41, '', AUTUMN, CRANK, 'none', 'not known'],
  [42, 'Y150', AUTUMN, 'rail-decay', 'none', 'no sheet has the check'],
];

const answer = (serial: string, onDate: string, check: string): string => {
  const choice = chooseSheet(SHELF, { serial, onDate, check });
  if (choice.kind === 'none') return 'none';
  return choice.kind === 'one' ? choice.sheet.id : `? ${choice.sheets.map(({ id }) => id).join(' ')}`;
};

describe('the sheet for a serial number, forty and two cases by hand', () => {
  test.each(CASES)('%i: %j on %s for %s gives %s: %s', (...[, serial, onDate, check, wanted]) => {
    expect(answer(serial, onDate, check)).toBe(wanted);
  });

  test.each(CASES)(
    '%i: the answer says why, naming sheet or serial number',
    (...[, serial, onDate, check]) => {
      const choice = chooseSheet(SHELF, { serial, onDate, check });
      const named = choice.kind === 'one' ? choice.sheet.title : serial.trim();
      expect(choice.why).toMatch(/^\S.{20,}\.$/);
      if (named !== '' && check !== 'rail-decay') expect(choice.why).toContain(named);
    },
  );

  test('the order of the shelf decides nothing', () => {
    for (const [, serial, onDate, check, wanted] of CASES) {
      const choice = chooseSheet(SHELF.toReversed(), { serial, onDate, check });
      const ids =
        choice.kind === 'one'
          ? [choice.sheet.id]
          : choice.kind === 'none'
            ? []
            : choice.sheets.map(({ id }) => id);
      expect(ids.toSorted()).toEqual(
        wanted
          .replace('? ', '')
          .split(' ')
          .filter((id) => id !== 'none')
          .toSorted(),
      );
    }
  });
});
