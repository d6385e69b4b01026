import { describe, expect, test } from 'vitest';
import { isSummaryLabel } from '../../src/logs/summary-rows.ts';
import { readText, speedOf } from './log-bytes.ts';

/** Speed of each row of a log without time, and the lines left out below a blank line. */
function read(text: string) {
  const { log } = readText(text, { intervalMs: 500 });
  return {
    speeds: speedOf(log).map(([, rpm]) => rpm),
    afterBlank: log.leftOut.find(({ reason }) => reason === 'afterBlank')?.lines ?? [],
    summary: log.leftOut.find(({ reason }) => reason === 'summary')?.lines ?? [],
  };
}

// 120 + 140 + 150 + 146 + 144 is 700: the mean is 140, the median 144, the range 30.
const five = `RPM;Battery (V)
120;10
140;11
150;12
146;10
144;12
`;
const fiveSpeeds = [120, 140, 150, 146, 144];

describe('rows below a blank line in a log without time', () => {
  test('are data where they look like the rows above', () => {
    const { speeds, afterBlank } = read(`${five}
141;11
143;12
`);
    expect(speeds).toEqual([...fiveSpeeds, 141, 143]);
    expect(afterBlank).toEqual([]);
  });

  test('are data where one of them is the mean by chance and another is no statistic', () => {
    expect(read(`${five}\n140;11\n143;12\n`).speeds).toEqual([...fiveSpeeds, 140, 143]);
  });

  test('are data where the speed is the mean and the other column is not', () => {
    expect(read(`${five}\n140;12\n`).speeds).toEqual([...fiveSpeeds, 140]);
  });

  test('are data where one repeats the greatest or the least value only', () => {
    expect(read(`${five}\n150;12\n`).speeds).toEqual([...fiveSpeeds, 150]);
    expect(read(`${five}\n120;10\n`).speeds).toEqual([...fiveSpeeds, 120]);
  });

  test('are data where the same row stands twice', () => {
    expect(read(`${five}\n140;11\n140;11\n`).speeds).toEqual([...fiveSpeeds, 140, 140]);
  });

  test('are data where the columns do not vary: every statistic is the same then', () => {
    expect(read('RPM\n146\n146\n146\n146\n\n146\n').speeds).toEqual([146, 146, 146, 146, 146]);
  });

  test('are data where they say that there is no value', () => {
    expect(read(`${five}\nN/A;N/A\n`).speeds).toEqual([...fiveSpeeds, null]);
  });

  test('are a summary where the lone row is the mean of each column', () => {
    expect(read(`${five}\n140;11\n`)).toMatchObject({ speeds: fiveSpeeds, afterBlank: [8] });
  });

  test('are a summary where the mean is rounded', () => {
    // 438 / 3 is 146; 439 / 3 is 146.33, written as 146.3
    expect(read('RPM\n145\n146\n148\n\n146.3\n').speeds).toEqual([145, 146, 148]);
  });

  test('are a summary where they are mean, least and greatest value', () => {
    const { speeds, afterBlank } = read(`${five}
140;11
120;10
150;12
`);
    expect(speeds).toEqual(fiveSpeeds);
    expect(afterBlank).toEqual([8, 9, 10]);
  });

  test.each([
    // of 120, 140, 150, 146, 144, worked out by hand
    ['the sum', '700'],
    ['mean and median', '140\n144'],
    ['mean and count', '140\n5'],
    ['mean and range', '140\n30'],
    ['mean and deviation', '140\n11.66'], // squares 400 + 0 + 100 + 36 + 16 = 552, / 4 = 138, root 11.747
  ])('%s', (name, below) => {
    const { speeds } = read(`RPM\n120\n140\n150\n146\n144\n\n${below}\n`);
    const isStatistic = name !== 'mean and deviation';
    expect(speeds).toEqual(isStatistic ? fiveSpeeds : [...fiveSpeeds, 140, 11.66]);
  });

  test('the deviation of a sample is known, and another number near it is none', () => {
    expect(read('RPM\n120\n140\n150\n146\n144\n\n140\n11.75\n').speeds).toEqual(fiveSpeeds);
  });

  test('the median of an even number of rows is the middle of two', () => {
    // 100, 120, 140, 180: mean 135, median 130
    expect(read('RPM\n100\n180\n140\n120\n\n135\n130\n').speeds).toEqual([100, 180, 140, 120]);
  });

  test('are a summary where they have fewer cells than any row above', () => {
    expect(read(`${five}\n999\n`)).toMatchObject({ speeds: fiveSpeeds, afterBlank: [8] });
  });

  test('are data where a row above has as few cells', () => {
    const ragged = 'RPM;Battery (V)\n120;10\n140\n150;12\n146;10\n144;12\n\n141\n';
    expect(read(ragged).speeds).toEqual([120, 140, 150, 146, 144, 141]);
  });

  test('are a summary below the first of several blank lines', () => {
    const { speeds, afterBlank } = read(`${five}
140;11

120;10

150;12
`);
    expect(speeds).toEqual(fiveSpeeds);
    expect(afterBlank).toEqual([8, 10, 12]);
  });

  test('are data where there are more than eight of them', () => {
    const twenty = Array.from({ length: 20 }, (_, i) => `${120 + i};10`).join('\n');
    const log = (below: number) => `RPM;Battery (V)\n${twenty}\n\n${'99\n'.repeat(below)}`;
    expect(read(log(8)).speeds).toHaveLength(20);
    expect(read(log(9)).speeds).toHaveLength(29);
  });

  test('are data below fewer than three rows', () => {
    expect(read('RPM\n100\n140\n\n120\n').speeds).toEqual([100, 140, 120]);
  });

  test('blank lines between all rows drop nothing', () => {
    const { speeds } = read('RPM\n\n120\n\n140\n\n150\n\n146\n\n144\n\n147\n');
    expect(speeds).toEqual([120, 140, 150, 146, 144, 147]);
  });

  test('a row of delimiters alone is a blank line too', () => {
    expect(read(`${five};\n140;11\n`).speeds).toEqual(fiveSpeeds);
  });

  test('a summary with its label is left out as such, blank line or not', () => {
    const text = `No;RPM
1;120
2;140
3;150
Average;136.7

Max;150
`;
    expect(read(text)).toMatchObject({ speeds: [120, 140, 150], summary: [5, 7], afterBlank: [] });
  });

  test('a log with time keeps all rows that have a time', () => {
    const { log } = readText('Time (s),RPM\n0.0,0\n0.5,100\n1.0,140\n1.5,160\n\n2.0,100\n');
    expect(speedOf(log)).toHaveLength(5);
  });
});

describe('labels of a summary', () => {
  test.each([
    'Average', 'AVG', 'mean:', 'Median', 'Min', 'Minimum', 'Max.', 'Maximum', 'Total', 'Sum', 'Count', 'Range',
    'Std', 'StdDev', 'Std. Dev', 'Standard deviation', 'Summary', 'Statistics', 'Ø', 'Ø RPM', 'Mittelwert',
    'Durchschnitt', 'Summe', 'Anzahl', 'Standardabweichung', 'Moyenne', 'Somme', 'Écart type', 'Promedio', 'Media',
    'Mínimo', 'máximo', 'Suma', 'End of file', 'EOF', 'Fin', 'Max (rpm)', 'min=', 'avg_rpm', 'Max/Min', ' Average ',
  ])('"%s" is one', (label) => expect(isSummaryLabel(label)).toBe(true)); // prettier-ignore

  test.each(['', '146', 'Minute', 'Maxwell', 'Meander', 'Summer', 'Countdown', 'Finish', 'Ending', 'idle', 'at max', 'Totally'])(
    '"%s" is none',
    (label) => expect(isSummaryLabel(label)).toBe(false),
  ); // prettier-ignore
});
