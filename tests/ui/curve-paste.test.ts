import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pastedRows, readPaste } from '../../src/ui/curve-paste.ts';

const read = (text: string) => readPaste(text, 'mL', 'failBelow');

describe('columns out of a spreadsheet', () => {
  test.each([
    ['tabs', '100\t180\n150\t290'],
    ['tabs', '100\t180,0\r\n150\t290,0\r\n'],
    ['semicolons', '100;180\n150;290'],
    ['semicolons', '100,0; 180,0\n150,0; 290,0'],
    ['commas', '100,180\n150,290'],
    ['commas', '100, 180\n150, 290'],
    ['spaces', '100 180\n150   290'],
    ['spaces', '100,0 180,0\n150,0 290,0'],
  ])('separated by %s: %j', (name, text) => {
    const { rows, into, notes, skipped } = read(text);
    expect(rows).toEqual([[100, 180], [150, 290]]); // prettier-ignore
    expect(into).toEqual(['failBelow']);
    expect(notes[0]).toBe(`Columns separated by ${name}.`);
    expect(skipped).toEqual([]);
  });

  test('a header is skipped and its units are understood', () => {
    const { rows, notes } = read('Speed (1/min)\tVolume [L]\n100\t0,18\n150\t0,29');
    expect(rows).toEqual([[100, 180], [150, 290]]); // prettier-ignore
    expect(notes).toEqual([
      'Columns separated by tabs.',
      'The first line is a header.',
      'Converted from L to mL.',
    ]);
  });

  // 231 in3 / 128 = 29.5735295625 mL by definition (NIST SP 811).
  test.each(['Volume, US fl oz', 'Volume (fl oz)', 'volume us fl oz', 'US fl oz'])(
    'the unit of %j is US fluid ounces',
    (head) => {
      expect(read(`rpm\t${head}\n100\t2\n200\t4`).rows[0]?.[1]).toBeCloseTo(59.147059125, 9);
    },
  );

  test('units may stand in a line of their own, under a title', () => {
    const { rows, notes } = read('Delivery chart\nspeed;fail;pass\nrpm;cc;cc\n100;180;235\n150;290;350');
    expect(rows).toEqual([[100, 180, 235], [150, 290, 350]]); // prettier-ignore
    expect(notes).toContain('The first 3 lines are a header.');
    expect(notes.join(' ')).not.toContain('no unit');
  });

  test('a header that names the volume first turns the columns round', () => {
    const { rows, notes } = read('Volume mL\tSpeed rpm\n180\t100\n290\t150');
    expect(rows).toEqual([[100, 180], [150, 290]]); // prettier-ignore
    expect(notes).toContain('The speed stands in column 2.');
  });

  test('without units rpm and the unit of the chart are taken, and that is said', () => {
    expect(read('100\t180\n150\t290').notes).toContain('Where no unit is given, rpm and mL are taken.');
    expect(readPaste('rpm\tmL\n100\t1000\n150\t2000', 'L', 'failBelow').rows).toEqual([[100, 1], [150, 2]]); // prettier-ignore
  });

  test('three and four columns go to the boundaries from below', () => {
    const four = read('100\t180\t235\t700\n150\t290\t350\t800');
    expect(four.into).toEqual(['failBelow', 'passAbove', 'failAbove']);
    expect(pastedRows(four).failAbove).toEqual([{ speed: '100', volume: '700' }, { speed: '150', volume: '800' }]); // prettier-ignore
    expect(read('100\t180\t235\n150\t290\t350').into).toEqual(['failBelow', 'passAbove']);
  });

  test('one volume column goes where it is wanted', () => {
    const reading = readPaste('100\t180\n150\t290', 'mL', 'passAbove');
    expect(Object.keys(pastedRows(reading))).toEqual(['passAbove']);
  });

  test('a hole in one column leaves only that point out', () => {
    const reading = read('100\t180\t235\n125\t\t290\n150\t290\t350');
    expect(pastedRows(reading).failBelow?.map(({ speed }) => speed)).toEqual(['100', '150']);
    expect(pastedRows(reading).passAbove?.map(({ speed }) => speed)).toEqual(['100', '125', '150']);
  });

  test('rows come in rising speed', () => {
    expect(read('150\t290\n100\t180').rows).toEqual([[100, 180], [150, 290]]); // prettier-ignore
  });

  test('lines that cannot be read are named with the reason', () => {
    const { rows, skipped } = read('100\t180\n\n125\tn/a\n\t200\n140\t\n150\t290');
    expect(rows).toHaveLength(2);
    expect(skipped).toEqual([
      { line: 3, words: '“n/a” is not a plain number.' },
      { line: 4, words: 'The speed is missing.' },
      { line: 5, words: 'There is no volume.' },
    ]);
  });

  test('a comma that may be a decimal mark is warned of', () => {
    expect(read('100,5,180,5\n150,5,290,5').notes.join(' ')).toContain(
      'If the comma is the decimal mark here',
    );
  });

  test.each([
    ['', 'There is nothing to read.'],
    ['hello\nworld', 'No two columns of numbers were found. Copy speed and volume side by side.'],
    ['100\n150', 'No two columns of numbers were found. Copy speed and volume side by side.'],
  ])('%j gives nothing and says why', (text, words) => {
    expect(read(text)).toMatchObject({ rows: [], skipped: [{ words }] });
  });

  test('any text gives a reading, and what is taken is numbers', () => {
    const line = fc.stringMatching(/^[0-9,.;\t a-z()-]{0,20}$/);
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(line).map((lines) => lines.join('\n')),
        ),
        (text) => {
          for (const row of read(text).rows) expect(Number.isFinite(row[0])).toBe(true);
        },
      ),
    );
  });

  test('what is written with tabs comes back', () => {
    const pair = fc.tuple(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 9999 }));
    fc.assert(
      fc.property(fc.uniqueArray(pair, { selector: ([speed]) => speed, minLength: 1 }), (pairs) => {
        const sorted = pairs.toSorted((a, b) => a[0] - b[0]);
        expect(read(pairs.map((each) => each.join('\t')).join('\n')).rows).toEqual(sorted);
      }),
    );
  });
});
