import { describe, expect, test } from 'vitest';
import { findHeader, isDataRow, type Header } from '../../src/logs/find-header.ts';
import { rowsOf } from '../../src/logs/log-rows.ts';
import { planText, problemOf, readText, speedOf } from './log-bytes.ts';

const find = (text: string, headerLine?: number | null): Header | null =>
  findHeader(rowsOf(text, { delimiter: ';', quotes: 'standard' }), '.', headerLine);

const data = `0.0;0
0.5;120.5
1.0;146
1.5;147.5
`;

interface Case {
  readonly name: string;
  readonly text: string;
  /** Lines of names, units and first data. */
  readonly lines: readonly [number | null, number | null, number];
}

const CASES: readonly Case[] = [
  { name: 'in the first line', text: `Time;RPM\n${data}`, lines: [1, null, 2] },
  { name: 'nowhere', text: data, lines: [null, null, 1] },
  { name: 'below blank lines', text: `\n\nTime;RPM\n${data}`, lines: [3, null, 4] },
  { name: 'above a blank line', text: `Time;RPM\n\n${data}`, lines: [1, null, 3] },
  { name: 'above a unit row', text: `Time;Engine speed\ns;rpm\n${data}`, lines: [1, 2, 3] },
  {
    name: 'above a blank line and a unit row',
    text: `Time;Engine speed\n\n[s];[rpm]\n${data}`,
    lines: [1, 3, 4],
  },
  {
    name: 'below a preamble of names and values',
    text: `Logger;A
Serial;12345
Samples;4
Time;RPM
${data}`,
    lines: [4, null, 5],
  },
  {
    name: 'below a preamble of numbers that a blank line follows',
    text: `Interval;0.5

Time;RPM
${data}`,
    lines: [3, null, 4],
  },
  {
    name: 'two rows of names: the lower one',
    text: `Group A;Group B
Time;RPM
${data}`,
    lines: [2, null, 3],
  },
  {
    name: 'a row of names above a short row of words',
    text: `Time;RPM
recorded in the yard
${data}`,
    lines: [2, null, 3],
  },
];

describe('the header of a log', () => {
  test.each(CASES.slice(0, -1))('is found $name', ({ text, lines }) => {
    const header = find(text);
    expect([header?.line, header?.unitLine, header?.firstDataLine]).toEqual(lines);
  });

  test('keeps its names and units by column', () => {
    const header = find(`Time;Engine speed;Note\n[s];(rpm)\n0.0;1;a\n0.5;2;b\n1.0;3;c\n`);
    expect(header).toMatchObject({
      names: ['Time', 'Engine speed', 'Note'],
      units: ['s', 'rpm'],
      width: 3,
    });
  });

  test('is as wide as its names where rows are narrower', () => {
    expect(find('Time;RPM;Note\n0;1\n1;2\n2;3\n')?.width).toBe(3);
  });

  test('is as wide as the rows where names are fewer', () => {
    expect(find('Time;RPM\n0;1;5\n1;2;6\n2;3;7\n')?.width).toBe(3);
  });

  test('is none without rows of data', () => {
    expect(find('Time;RPM\n')).toBeNull();
    expect(find('')).toBeNull();
  });

  test('that a person names is taken, another one not', () => {
    const text = `Zeit;Drehzahl\nTime;RPM\n${data}`;
    expect(find(text, 1)?.names).toEqual(['Zeit', 'Drehzahl']);
    expect(find(text, 2)?.names).toEqual(['Time', 'RPM']);
  });

  test('that a person denies is none', () => {
    expect(find(`Time;RPM\n${data}`, null)).toMatchObject({ line: null, names: [], firstDataLine: 2 });
  });

  test('that a person names puts the data below it, even where numbers stand above', () => {
    const header = find(`1;2\n3;4\n5;6\nTime;RPM\n${data}`, 4);
    expect(header).toMatchObject({ line: 4, firstDataLine: 5 });
  });

  test('a lone row of numbers above the names is not the data', () => {
    expect(find(`2024;3\nTime;RPM\n${data}`)).toMatchObject({ line: 2, firstDataLine: 3 });
  });
});

describe('how deep a header may stand', () => {
  const below = (lines: number) => `${'note\n'.repeat(lines)}Time (s);RPM\n${data}`;

  test.each([0, 1, 12, 28, 29])('is found below %d lines', (lines) => {
    const { plan, log } = readText(below(lines));
    expect(plan.headerLine).toBe(lines + 1);
    expect(speedOf(log)).toEqual([
      [0, 0],
      [500, 120.5],
      [1000, 146],
      [1500, 147.5],
    ]);
  });

  test.each([30, 31, 45])('is not found below %d lines', (lines) => {
    expect(planText(below(lines)).headerLine).toBeNull();
  });

  test('blank lines count as lines', () => {
    expect(planText(`${'\n'.repeat(29)}Time (s);RPM\n${data}`).headerLine).toBe(30);
    expect(planText(`${'\n'.repeat(30)}Time (s);RPM\n${data}`).headerLine).toBeNull();
  });

  test('the unit row may be line 31', () => {
    const text = `${'note\n'.repeat(29)}Time;Engine speed\ns;rpm\n${data}`;
    expect(planText(text)).toMatchObject({ headerLine: 30, unitLine: 31, firstDataLine: 32 });
  });

  test('a deeper one is taken when a person names it', () => {
    const { plan, log } = readText(below(40), { headerLine: 41 });
    expect(plan.columns.map(({ header }) => header)).toEqual(['Time (s)', 'RPM']);
    expect(speedOf(log)).toHaveLength(4);
  });

  test('a deeper one does not lose the rows', () => {
    const { log } = readText(below(40));
    expect(speedOf(log)).toHaveLength(4);
  });
});

describe('rows of data', () => {
  const isData = (...cells: string[]) => isDataRow({ line: 1, cells }, [0, 1, 2], '.');

  test('hold more numbers and times than words', () => {
    expect(isData('0.5', '146', 'on')).toBe(true);
    expect(isData('10:00:00', '146', '')).toBe(true);
    expect(isData('0.5', 'on', 'off')).toBe(false);
    expect(isData('0.5', 'on', '')).toBe(false);
  });

  test('are none where nothing is there', () => {
    expect(isData('', '', '')).toBe(false);
    expect(isData()).toBe(false);
    expect(isData('N/A', '--', 'NaN')).toBe(false);
  });

  test('are told by the columns of data only', () => {
    expect(isDataRow({ line: 1, cells: ['a', '1', 'b'] }, [1], '.')).toBe(true);
  });
});

test('a file of words says what it found first', () => {
  expect(problemOf('Dear customer,\nthe engine does not start.\nRegards\n')).toEqual({
    code: 'log.no-rows',
    message: 'No row of numbers was found. The file has 3 lines with text; the first is "Dear customer".',
    remedy: 'Check that the log was recorded, and export it with its values.',
  });
});
