import { describe, expect, test } from 'vitest';
import { cellNumber } from '../../src/logs/column-profile.ts';
import { looksOf, rowsOf, trimCells } from '../../src/logs/log-rows.ts';
import { isMissing, parseNumber, splitSuffix } from '../../src/logs/parse-cell.ts';

describe('cells that say there is no value', () => {
  test.each([
    '', ' ', '-', '--', '---', '–', '—', '.', '..', '*', '?', '???', '_', '~', 'N/A', 'n/a', 'NA', '#N/A', 'n.a.', 'k.A.',
    'NaN', '-nan', 'NULL', 'nil', 'None', 'no data', 'NoData', 'NO_DATA', 'INV', 'invalid', 'Not Available', 'err', 'Error',
    'inf', '-Inf', '+INF', 'Infinity', '1.#QNAN', '-1.#IND', '1.#INF', '#VALUE!', '#DIV/0!', '#REF!', 'keine Daten',
    'sin datos', 's/d', 'n.d.', ' N/A ',
  ])('"%s"', (cell) => expect(isMissing(cell)).toBe(true)); // prettier-ignore

  test.each(['0', '-1', '146', '1e3', 'on', 'rpm', 'Nan?', '10:00', '0x00', 'no', 'nano', '-a'])(
    '"%s" is none of them',
    (cell) => expect(isMissing(cell)).toBe(false),
  );
});

describe('numbers with a decimal point', () => {
  test.each([
    ['146', 146],
    ['146.5', 146.5],
    ['-0.5', -0.5],
    ['+12', 12],
    ['.25', 0.25],
    ['12.', 12],
    ['1e3', 1000],
    ['1.5E-2', 0.015],
    [' 146 ', 146],
    ['1,234', 1234],
    ['1,234.5', 1234.5],
    ['1,234,567', 1234567],
    ['12 345.5', 12345.5],
    ["12'345.5", 12345.5],
    ['12’345', 12345],
    ['12\u00a0345', 12345],
    ['12\u202f345', 12345],
    ['\u2212146', -146],
    ['007', 7],
  ])('"%s" is %d', (cell, value) => expect(parseNumber(cell, '.')).toBe(value));

  test.each(['', '-', '.', 'rpm', '146 rpm', '1,23', '1,2345', '12,34,567', '1 23', "1,234'567", '1.2.3', '0x1F', '10:00', '1e', 'e5', '--1', '1,5'])(
    '"%s" is none',
    (cell) => expect(parseNumber(cell, '.')).toBeNaN(),
  ); // prettier-ignore
});

describe('numbers with a decimal comma', () => {
  test.each([
    ['146', 146],
    ['146,5', 146.5],
    ['-0,5', -0.5],
    [',25', 0.25],
    ['12,', 12],
    ['1.234', 1234],
    ['1.234,5', 1234.5],
    ['1.234.567', 1234567],
    ['12 345,5', 12345.5],
    ["12'345,5", 12345.5],
    ['1,5e3', 1500],
    ['-1,5E-1', -0.15],
    // no group of three: the point stands before a fraction after all
    ['0.5', 0.5],
    ['12.75', 12.75],
    ['0.500', 0.5],
    ['1234.500', 1234.5],
  ])('"%s" is %d', (cell, value) => expect(parseNumber(cell, ',')).toBe(value));

  test.each(['', ',', 'U/min', '1,2,3', '1,234.5', '1.23,4'])('"%s" is none', (cell) =>
    expect(parseNumber(cell, ',')).toBeNaN(),
  );
});

describe('a number with its unit in the cell', () => {
  test.each([
    ['146 rpm', '146', 'rpm'],
    ['146rpm', '146', 'rpm'],
    ['-12.5 °C', '-12.5', '°C'],
    ['99%', '99', '%'],
    ['1,234.5 psi', '1,234.5', 'psi'],
    ['146 1/min', '146', '1/min'],
    ['1461/min', '1461', '/min'],
    ['12 345 rpm', '12 345', 'rpm'],
    ['50 km/h', '50', 'km/h'],
    ['146', null, null],
    ['rpm 146', null, null],
    ['rpm', null, null],
    ['', null, null],
  ])('"%s" is split into %s and %s', (cell, number, suffix) => {
    expect(splitSuffix(cell)).toEqual(number === null ? null : { number, suffix });
  });

  test('is read where all cells carry that unit, and another unit is not that number', () => {
    expect(cellNumber('146,5 rpm', ',', 'rpm')).toBe(146.5);
    expect(cellNumber('146,5', ',', 'rpm')).toBe(146.5);
    expect(cellNumber('2 bar', '.', 'psi')).toBeNaN();
    expect(cellNumber('2 bar', '.', null)).toBeNaN();
  });
});

describe('what a cell looks like', () => {
  test.each([
    ['', 'missing'],
    ['N/A', 'missing'],
    ['146', 'number'],
    ['146.5', 'number'],
    ['146,5', 'number'],
    ['146 rpm', 'number'],
    ['99 %', 'number'],
    ['10:00:00', 'time'],
    ['10:00', 'time'],
    ['10:00:00.5 AM', 'time'],
    ['59:59,5', 'time'],
    ['120:59.5', 'time'],
    ['2024-03-12 10:00:00', 'time'],
    ['2024-03-12T10:00:00.5Z', 'time'],
    ['2024-03-12T10:00:00+01:00', 'time'],
    ['12.03.2024 10:00:00,5', 'time'],
    ['12-Mar-2024 10:00:00', 'time'],
    ['20240312T100000', 'time'],
    ['Engine speed', 'text'],
    ['on', 'text'],
    ['12.03.2024', 'text'],
    ['P0123:45', 'text'],
  ])('"%s" is %s', (cell, looks) => expect(looksOf(cell)).toBe(looks));

  test('with the mark known, a number in the other notation is words', () => {
    expect(looksOf('146,5', '.')).toBe('text');
    expect(looksOf('146,5', ',')).toBe('number');
  });
});

describe('rows of a log', () => {
  test('have no blanks around their cells, no stray quotes and no empty cells at their end', () => {
    expect(trimCells([' a ', '" b "', '', 'c', '', ' '])).toEqual(['a', 'b', '', 'c']);
    expect(trimCells(['', ' '])).toEqual([]);
    expect(trimCells(['"a" or "b"'])).toEqual(['"a" or "b"']);
  });

  test('that are blank are left out, and the others keep their lines', () => {
    const rows = rowsOf('a,b\n\n,,\n  \nc,,\n', { delimiter: ',', quotes: 'standard' });
    expect(rows).toEqual([
      { line: 1, cells: ['a', 'b'] },
      { line: 5, cells: ['c'] },
    ]);
  });
});
