import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chooseSheet } from '../../src/limits/choose-sheet.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { LimitSheet, SerialRange } from '../../src/limits/limit-sheet.ts';
import { sharedSerial, serialGaps } from '../../src/limits/serial-overlap.ts';
import { rangeHolds } from '../../src/limits/serial-range.ts';
import { shelfMistakes } from '../../src/limits/shelf-mistakes.ts';

const sheet = (id: string, range: SerialRange): LimitSheet => ({
  ...DEMONSTRATION_SHEET,
  id,
  sheetId: id,
  title: id,
  invented: false,
  engineFamily: 'Yard',
  serialRanges: [range],
  limits: DEMONSTRATION_SHEET.limits.slice(0, 1),
  validFrom: '2026-01-01',
});
const chosen = (sheets: readonly LimitSheet[], serial: string): readonly string[] => {
  const choice = chooseSheet(sheets, { serial, onDate: '2026-11-25', check: 'crank-delivery' });
  return choice.kind === 'one'
    ? [choice.sheet.id]
    : choice.kind === 'none'
      ? []
      : choice.sheets.map(({ id }) => id);
};
const prefix = fc.constantFrom('', 'K', 'KX', 'a-');
const number = fc.integer({ min: 0, max: 400 });
const end = fc.option(number, { nil: null });
const written = (value: number | null) => (value === null ? null : String(value));
/** The ends in order, either of them open; with the numbers that they mean. */
const range = fc.tuple(prefix, end, end).map(([start, one, other]) => {
  const [from, to] = one !== null && other !== null && one > other ? [other, one] : [one, other];
  const typed: SerialRange = {
    ...(start === '' ? {} : { prefix: start }),
    from: written(from),
    to: written(to),
  };
  return { typed, start, from, to };
});

/** Ranges next to each other from 0 to 400, cut at places drawn at random. */
const cuts = fc
  .uniqueArray(fc.integer({ min: 1, max: 399 }), { minLength: 1, maxLength: 8 })
  .map((places) => [0, ...places.toSorted((a, b) => a - b), 401])
  .map((places) => places.slice(1).map((to, index) => [places[index]!, to - 1] as const));

describe('disjoint ranges', () => {
  test('give exactly one sheet for each number, and nothing to complain of', () => {
    fc.assert(
      fc.property(cuts, prefix, fc.integer({ min: 0, max: 400 }), (pieces, start, serial) => {
        const sheets = pieces.map(([from, to], index) =>
          sheet(`s${index}`, {
            ...(start === '' ? {} : { prefix: start }),
            from: String(from),
            to: String(to),
          }),
        );
        const wanted = pieces.findIndex(([from, to]) => serial >= from && serial <= to);
        expect(chosen(sheets, `${start}${serial}`)).toEqual([`s${wanted}`]);
        expect(shelfMistakes(sheets)).toEqual([]);
      }),
    );
  });

  test('with one of them taken out have just that gap, and no sheet within it', () => {
    fc.assert(
      fc.property(cuts, fc.nat(), (pieces, pick) => {
        fc.pre(pieces.length > 2);
        const out = 1 + (pick % (pieces.length - 2));
        const sheets = pieces.flatMap(([from, to], index) =>
          index === out ? [] : [sheet(`s${index}`, { from: `K${from}`, to: `K${to}` })],
        );
        const [from, to] = pieces[out]!;
        expect(chosen(sheets, `K${from}`)).toEqual([]);
        expect(chosen(sheets, `K${to}`)).toEqual([]);
        expect(shelfMistakes(sheets)).toMatchObject([
          { code: 'limit.serial-gap', context: { after: `K${from - 1}`, before: `K${to + 1}` } },
        ]);
      }),
    );
  });

  test('with one of them reaching into the next overlap, and the number named is in both', () => {
    fc.assert(
      fc.property(cuts, fc.nat(), (pieces, pick) => {
        fc.pre(pieces.length > 1);
        const long = pick % (pieces.length - 1);
        const ranges = pieces.map(([from, to], index): SerialRange => ({
          from: `K${from}`,
          to: `K${index === long ? to + 1 : to}`,
        }));
        const sheets = ranges.map((each, index) => sheet(`s${index}`, each));
        const [mistake, ...more] = shelfMistakes(sheets);
        expect(more).toEqual([]);
        expect(mistake?.code).toBe('limit.sheets-overlap');
        const serial = String(mistake?.context['serial']);
        expect(chosen(sheets, serial)).toEqual([`s${long}`, `s${long + 1}`]);
      }),
    );
  });
});

describe('the boundaries of a range', () => {
  test('belong to it, and their neighbours outside do not, with any prefix and either end open', () => {
    fc.assert(
      fc.property(range, ({ typed, start, from, to }) => {
        const holds = (value: number) => rangeHolds(typed, `${start}${value}`);
        if (from !== null) expect(holds(from)).toBe(true);
        if (to !== null) expect(holds(to)).toBe(true);
        if (from !== null && from > 0) expect(holds(from - 1)).toBe(false);
        if (to !== null) expect(holds(to + 1)).toBe(false);
      }),
    );
  });

  test('hold a number as arithmetic says, however it is spelled', () => {
    fc.assert(
      fc.property(
        range,
        number,
        fc.constantFrom('', '0', '00'),
        ({ typed, start, from, to }, value, zeros) => {
          const inside = (from === null || value >= from) && (to === null || value <= to);
          expect(rangeHolds(typed, ` ${start.toLowerCase()} ${zeros}${value}`)).toBe(inside);
        },
      ),
    );
  });
});

describe('a prefix', () => {
  test('is needed: without it, or with another, the number is not held', () => {
    fc.assert(
      fc.property(range, number, fc.constantFrom('Q', 'KQ', 'XK', ''), ({ typed, start }, value, other) => {
        fc.pre(
          start !== '' && !`${other}${value}`.toUpperCase().startsWith(start.replace('-', '').toUpperCase()),
        );
        expect(rangeHolds(typed, `${other}${value}`)).toBe(false);
      }),
    );
  });

  test('keeps two ranges apart whatever their numbers, unless one begins with the other', () => {
    fc.assert(
      fc.property(end, end, end, end, (a, b, c, d) => {
        const one: SerialRange = { prefix: 'AB', from: written(a), to: written(b) };
        const other: SerialRange = { prefix: 'BA', from: written(c), to: written(d) };
        expect(sharedSerial(one, other)).toBeNull();
      }),
    );
  });
});

describe('a number shared by two ranges', () => {
  test('lies in both; where none is found none of the numbers tried lies in both', () => {
    fc.assert(
      fc.property(range, range, number, (one, other, tried) => {
        const shared = sharedSerial(one.typed, other.typed);
        if (shared !== null) {
          expect(rangeHolds(one.typed, shared)).toBe(true);
          expect(rangeHolds(other.typed, shared)).toBe(true);
          return;
        }
        for (const start of ['', 'K', 'KX', 'A']) {
          const serial = `${start}${tried}`;
          expect(rangeHolds(one.typed, serial) && rangeHolds(other.typed, serial)).toBe(false);
        }
      }),
    );
  });
});

describe('gaps', () => {
  test('are what lies between: no range holds their numbers, and ranges end and begin at their sides', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 6 }), (pairs) => {
        const ranges = pairs.map(([a, b]): SerialRange => ({
          from: `K${Math.min(a, b)}`,
          to: `K${Math.max(a, b)}`,
        }));
        const gaps = serialGaps(ranges);
        const value = (serial: string) => Number(serial.slice(1));
        const lost = gaps.flatMap(({ after, before }) =>
          Array.from({ length: value(before) - value(after) - 1 }, (_, index) => value(after) + 1 + index),
        );
        // Counted by hand, number by number, between the least and the greatest.
        const all = pairs.flat();
        const missing = Array.from(
          { length: Math.max(...all) - Math.min(...all) + 1 },
          (_, i) => Math.min(...all) + i,
        ).filter((each) => !pairs.some(([a, b]) => each >= Math.min(a, b) && each <= Math.max(a, b)));
        expect(lost).toEqual(missing);
      }),
    );
  });
});
