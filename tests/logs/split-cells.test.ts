import { describe, expect, test } from 'vitest';
import { splitCells, type Delimiter, type Quotes } from '../../src/logs/split-cells.ts';

/** Rows as [line, cells], and whether a quote was left open. */
function split(text: string, delimiter: Delimiter = ',', quotes: Quotes = 'standard') {
  const rows: [number, readonly string[]][] = [];
  const { unclosedQuote } = splitCells(text, { delimiter, quotes }, (cells, line) =>
    rows.push([line, [...cells]]),
  );
  return { rows, unclosedQuote };
}
const cellsOf = (text: string, delimiter: Delimiter, quotes?: Quotes) =>
  split(text, delimiter, quotes).rows.map(([, cells]) => cells);

describe('splitting a log into cells', () => {
  test.each<[Delimiter, string]>([
    [',', 'a,b,c'],
    [';', 'a;b;c'],
    ['\t', 'a\tb\tc'],
    ['|', 'a|b|c'],
    ['spaces', 'a  b   c'],
    ['spaces', '   a  b  c  '],
    ['space', 'a b   c'],
    ['space', '  a\tb c '],
  ])('by "%s"', (delimiter, text) => {
    expect(cellsOf(text, delimiter)).toEqual([['a', 'b', 'c']]);
  });

  test('a single blank is part of a cell where two part them', () => {
    expect(cellsOf('Engine speed  Rail pressure', 'spaces')).toEqual([['Engine speed', 'Rail pressure']]);
  });

  test('without a delimiter a row is one cell, whatever stands in it', () => {
    expect(cellsOf('0,5;1\t2|3', 'none')).toEqual([['0,5;1\t2|3']]);
  });

  test('cells are not trimmed', () => {
    expect(cellsOf(' a , b ', ',')).toEqual([[' a ', ' b ']]);
  });

  test('empty cells stay, at the beginning, in the middle and at the end', () => {
    expect(cellsOf(',a,,b,', ',')).toEqual([['', 'a', '', 'b', '']]);
  });

  test.each([
    ['line feeds', 'a,b\nc,d'],
    ['carriage returns', 'a,b\rc,d'],
    ['both', 'a,b\r\nc,d'],
  ])('lines end with %s', (_, text) => {
    expect(split(text).rows).toEqual([
      [1, ['a', 'b']],
      [2, ['c', 'd']],
    ]);
  });

  test('mixed line ends count as one line each', () => {
    expect(split('a\nb\r\nc\rd').rows.map(([line]) => line)).toEqual([1, 2, 3, 4]);
  });

  test('blank lines come as one empty cell and are counted', () => {
    expect(split('a\n\n\nb').rows).toEqual([
      [1, ['a']],
      [2, ['']],
      [3, ['']],
      [4, ['b']],
    ]);
  });
});

describe('quotes as RFC 4180 has them', () => {
  test('hold delimiters, and twice a quote is a quote', () => {
    expect(cellsOf('"a,b","say ""on""",c', ',')).toEqual([['a,b', 'say "on"', 'c']]);
  });

  test('hold line breaks, and the lines after them are counted on', () => {
    expect(split('a,"two\nlines"\nb,c\n"x\ny\nz",d\ne,f').rows).toEqual([
      [1, ['a', 'two\nlines']],
      [3, ['b', 'c']],
      [4, ['x\ny\nz', 'd']],
      [7, ['e', 'f']],
    ]);
  });

  test('left open are told', () => {
    expect(split('a,"b\nc,d').unclosedQuote).toBe(true);
    expect(split('a,"b"\nc,d').unclosedQuote).toBe(false);
  });

  test('ignored are characters like any other', () => {
    const { rows, unclosedQuote } = split('a,"b\nc,d"', ',', 'ignored');
    expect(rows).toEqual([
      [1, ['a', '"b']],
      [2, ['c', 'd"']],
    ]);
    expect(unclosedQuote).toBe(false);
  });

  test('ignored, a quoted delimiter parts the cell', () => {
    expect(cellsOf('"a,b",c', ',', 'ignored')).toEqual([['"a', 'b"', 'c']]);
  });
});

describe('large logs', () => {
  test('rows and lines stay whole over the inner chunks', () => {
    const text = Array.from({ length: 30_000 }, (_, i) => `${i},cell number ${i}`).join('\n');
    const { rows } = split(text);
    expect(rows).toHaveLength(30_000);
    rows.forEach(([line, cells], i) => {
      if (line !== i + 1 || cells[0] !== String(i) || cells[1] !== `cell number ${i}`)
        throw new Error(`row ${i} is ${line}: ${cells.join('|')}`);
    });
  });

  test('quoted line breaks are counted over the inner chunks', () => {
    const text = Array.from({ length: 20_000 }, (_, i) => `${i},"a\nb"`).join('\n');
    const { rows } = split(text);
    expect(rows).toHaveLength(20_000);
    expect(rows.at(-1)).toEqual([39_999, ['19999', 'a\nb']]);
  });

  test('the end of the last line begins no other', () => {
    expect(cellsOf('a,b\nc,d\n', ',')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
    expect(cellsOf('a\r\n\r\n', ',')).toEqual([['a'], ['']]);
  });

  test('an empty text has no rows with cells', () => {
    expect(cellsOf('', ',').flat().join('')).toBe('');
  });
});
