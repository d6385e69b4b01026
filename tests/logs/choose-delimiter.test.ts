import { describe, expect, test } from 'vitest';
import { bodyOf, chooseDelimiter, usualWidth } from '../../src/logs/choose-delimiter.ts';
import { rowsOf, type LogRow } from '../../src/logs/log-rows.ts';

const choose = (text: string) => chooseDelimiter(text, 'standard');
const rowsFrom = (rows: readonly string[]): readonly LogRow[] =>
  rows.map((row, i) => ({ line: i + 1, cells: row.split(';') }));

interface Case {
  readonly name: string;
  readonly delimiter: string;
  readonly text: string;
}

const CASES: readonly Case[] = [
  {
    name: 'commas with decimal points',
    delimiter: ',',
    text: `Time (s),RPM
0.0,0
0.5,120.5
1.0,146
`,
  },
  {
    name: 'semicolons with decimal commas',
    delimiter: ';',
    text: `Zeit;Drehzahl
0,0;0,0
0,5;120,5
1,0;146,0
`,
  },
  {
    name: 'semicolons with decimal commas and no header',
    delimiter: ';',
    text: `0,0;0,0
0,5;120,5
1,0;146,0
`,
  },
  {
    name: 'tabs with decimal commas',
    delimiter: '\t',
    text: `Zeit\tDrehzahl
0,0\t0,0
0,5\t120,5
`,
  },
  {
    name: 'tabs with thousands set off by commas',
    delimiter: '\t',
    text: `Time\tRPM\tRail pressure
0.0\t1,120\t12,000
0.5\t1,146\t12,500
1.0\t1,150\t13,000
`,
  },
  {
    name: 'pipes',
    delimiter: '|',
    text: `Time|RPM
0.0|0
0.5|120.5
`,
  },
  {
    name: 'columns set with blanks',
    delimiter: 'spaces',
    text: `Time (s)   Engine speed
  0.0       0
  0.5     120.5
  1.0     146.0
`,
  },
  {
    name: 'single blanks',
    delimiter: 'space',
    text: `time rpm rail
0.0 0 10
0.5 120.5 20
1.0 146 30
`,
  },
  {
    name: 'quoted decimal commas between commas',
    delimiter: ',',
    text: `"Zeit","Drehzahl"
"0,0","0"
"0,5","120,5"
"1,0","146,0"
`,
  },
  {
    name: 'a preamble full of commas over semicolons',
    delimiter: ';',
    text: `Logger, serial 1, made for tests, yes
Start, stop, go, and so on
Time;RPM
0.0;0
0.5;120.5
1.0;146
1.5;147
2.0;148
2.5;149
`,
  },
  {
    name: 'a date with a clock in one cell',
    delimiter: ',',
    text: `Date,RPM
2024-03-12 10:00:00,120
2024-03-12 10:00:01,146
`,
  },
  {
    name: 'one column of numbers',
    delimiter: 'none',
    text: `RPM
120
146
150
`,
  },
  {
    name: 'rows of two cells that end in a few lone numbers',
    delimiter: ';',
    text: `RPM;Battery
120;10
140;11
150;12
146;10

999
998
`,
  },
  {
    name: 'cells that are mostly blank',
    delimiter: ';',
    text: `Time;RPM;Rail;Supply
0,0;120;;
0,1;;300;
0,2;;;5
0,3;146;;
`,
  },
];

describe('the delimiter of a log', () => {
  test.each(CASES)('$name', ({ delimiter, text }) => {
    expect(choose(text)).toEqual({ delimiter, sure: true });
  });

  test.each([',', ';', '\t', '|'] as const)('"%s" declared in the first line decides', (delimiter) => {
    expect(choose(`sep=${delimiter}\nTime;RPM,x\n0,5;1\n`)).toEqual({ delimiter, sure: true });
    expect(choose(`SEP=${delimiter}\r\nTime;RPM,x\r\n`)).toEqual({ delimiter, sure: true });
  });

  test('a declaration further down decides nothing', () => {
    expect(choose('Time;RPM\n0.0;0\n0.5;146\nsep=|\n').delimiter).toBe(';');
  });

  test('whole numbers with one comma and no header may be one cell or two', () => {
    expect(choose('146,5\n147,5\n0,0\n148,5\n').sure).toBe(false);
  });

  test('a text without any number is read by commas, and that is not sure', () => {
    expect(choose('Dear customer\nthe engine is broken\n')).toEqual({ delimiter: ',', sure: false });
  });
});

describe('the usual width of rows', () => {
  test('is that of the body, not of the preamble', () => {
    expect(usualWidth(rowsFrom(['a', 'b', 't;n;x', '0;1;2', '1;2;3', '2;3;4', '3;4;5']))).toBe(3);
  });

  test('counts the wide rows for more: cells at the end of a row may be blank', () => {
    // two rows of four weigh 2 × 16, four rows of two 4 × 4
    expect(usualWidth(rowsFrom(['0;1', '1;2', '2;3;4;5', '3;4;5;6', '4;5', '5;6']))).toBe(4);
  });

  test('is 0 without rows', () => expect(usualWidth([])).toBe(0));
});

describe('the body of a log', () => {
  test('leaves out rows of words', () => {
    const rows = rowsOf('note\nTime,RPM\n0,1\nIgnition,on\n1,2\n', { delimiter: ',', quotes: 'standard' });
    expect(bodyOf(rows).map(({ line }) => line)).toEqual([3, 5]);
  });

  test('keeps rows of which a third is data', () => {
    expect(bodyOf(rowsFrom(['a;b;1', 'a;b;2', 'a;b;c'])).map(({ line }) => line)).toEqual([2]);
    expect(bodyOf(rowsFrom(['x', 'a;b;c;1', 'a;b;2'])).map(({ line }) => line)).toEqual([3]);
  });

  test('is all rows below the first third where none is data', () => {
    expect(bodyOf(rowsFrom(['a', 'b', 'c'])).map(({ line }) => line)).toEqual([2, 3]);
  });

  test('skips at most forty rows, and holds at most five hundred', () => {
    const rows = rowsFrom(Array.from({ length: 2000 }, (_, i) => `${i};1`));
    expect(bodyOf(rows)).toHaveLength(500);
    expect(bodyOf(rows)[0]?.line).toBe(41);
  });
});
