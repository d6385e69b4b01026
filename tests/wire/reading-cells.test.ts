import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCell, readHeader, readJsonLine, readRow } from '../../src/wire/reading-cells.ts';

describe('a cell', () => {
  test.each([
    ['0', 0],
    ['-12', -12],
    ['+3.5', 3.5],
    ['.5', 0.5],
    ['5.', 5],
    ['1e3', 1000],
    ['1E-2', 0.01],
    ['  7 ', 7],
  ])('%j is %d with and without a decimal comma', (cell, value) => {
    expect(readCell(cell, true)).toBe(value);
    expect(readCell(cell, false)).toBe(value);
  });

  test('with a comma is a number only where the comma may be a decimal mark', () => {
    expect(readCell('1,5', true)).toBe(1.5);
    expect(readCell('1,5', false)).toBeNaN();
    expect(readCell('1,234.5', true)).toBeNaN();
    expect(readCell('1,2,3', true)).toBeNaN();
  });

  test.each(['.', '-', '+', 'e3', '1e', '1.5V', '--1', '1 2', 'Infinity', '0x10', '1_000', '٣'])(
    '%j is no number',
    (cell) => {
      // A lone "-" is how some say "none".
      expect(readCell(cell, true)).toEqual(cell === '-' ? null : NaN);
    },
  );

  test('reads any number back that is printed, by whatever decimal mark', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (drawn) => {
        const value = drawn + 0; // minus zero is printed as 0
        expect(readCell(String(value), false)).toBe(value);
        expect(readCell(String(value).replace('.', ','), true)).toBe(value);
      }),
    );
  });

  test('of any length is judged in time that its length allows', () => {
    expect(readCell(`${'1'.repeat(100_000)}x`, true)).toBeNaN();
    expect(readCell(`1.${'1'.repeat(100_000)}x`, true)).toBeNaN();
  });
});

describe('a header', () => {
  test.each([
    ['t,rpm', ',', 2],
    ['t;rpm', ';', 2],
    ['t\trpm', '\t', 2],
    ['t;rpm (1/min);note, free', ';', 3],
    ['rpm', ',', 1],
  ])('%j is one', (text, delimiter, cells) => {
    const header = readHeader(text);
    expect(header?.delimiter).toBe(delimiter);
    expect(header?.columns).toHaveLength(cells);
  });

  test.each(['', 't', 't,gear', 'rpm,150', '150,rpm', 'ready, rpm is 150', ',rpm'])('%j is none', (text) =>
    expect(readHeader(text)).toBeNull(),
  );
});

describe('rows and objects', () => {
  const header = readHeader('t,rpm,rail_bar')!;

  test('of the same values say the same', () => {
    const value = fc.option(fc.double({ min: 0, max: 9000, noNaN: true }));
    fc.assert(
      fc.property(fc.nat(1e9), value, value, (t, rpm, rail) => {
        const row = readRow([t, rpm ?? '', rail ?? 'nan'].join(','), header);
        expect(row.kind).toBe('content');
        expect(row).toEqual(readJsonLine(JSON.stringify({ t, rpm, rail_bar: rail })));
      }),
    );
  });

  test('never throw, on any text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        for (const result of [readRow(text, header), readJsonLine(text), readJsonLine(`{${text}}`)])
          expect(['content', 'malformed']).toContain(result.kind);
      }),
    );
  });
});
