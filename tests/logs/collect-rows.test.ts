import { describe, expect, test } from 'vitest';
import { collectRows } from '../../src/logs/collect-rows.ts';
import { LEFT_OUT_REASONS, leftOutTally } from '../../src/logs/left-out-rows.ts';
import type { LogAnswers } from '../../src/logs/plan-import.ts';
import { planText, readText } from './log-bytes.ts';

const collect = (text: string, answers: LogAnswers = {}) => collectRows(text, planText(text, answers));
const reasonsOf = (text: string, answers?: LogAnswers) =>
  Object.fromEntries(collect(text, answers).leftOut.map(({ reason, lines }) => [reason, lines]));

describe('rows left out, with their lines', () => {
  test('above the data: preamble, header and units', () => {
    const text = `Logger;A1

Zeit;Drehzahl
s;rpm
0,0;0
0,5;120,5
1,0;146
`;
    expect(reasonsOf(text)).toEqual({ aboveData: [1, 3, 4] });
  });

  test('blank, also where only delimiters stand', () => {
    expect(reasonsOf('Time (s);RPM\n0.0;0\n\n0.5;120\n;\n ; \n1.0;146\n')).toMatchObject({ blank: [3, 5, 6] }); // prettier-ignore
  });

  test('summaries, repeated headers, no time and unreadable time', () => {
    const text = `Time (s);RPM
0.0;0
0.5;120
Time (s);RPM
;130
N/A;131
soon;132
1.0;146
1.5;147
2.0;148
2.5;148
3.0;148
3.5;148
Average;110
`;
    expect(reasonsOf(text)).toEqual({
      aboveData: [1],
      repeatedHeader: [4],
      noTime: [5, 6],
      unreadableTime: [7],
      summary: [14],
    });
  });

  test('words where the interval was given', () => {
    const text = 'RPM;Load\n120;1\n146;2\nignition on;x\n147;3\n150;2\n';
    expect(reasonsOf(text, { intervalMs: 500 })).toEqual({ aboveData: [1], noNumbers: [4] });
  });

  test('below a blank line where the interval was given', () => {
    const text = 'RPM;Load\n120;1\n140;2\n146;3\n150;2\n\n139\n';
    expect(reasonsOf(text, { intervalMs: 500 })).toMatchObject({ afterBlank: [7] });
  });

  test('every reason is reached by these', () => {
    expect([...LEFT_OUT_REASONS].sort()).toEqual(
      ['aboveData', 'afterBlank', 'blank', 'noNumbers', 'noTime', 'repeatedHeader', 'summary', 'unreadableTime'], // prettier-ignore
    );
  });

  test('are counted all, and the lines of the first twenty kept', () => {
    const tally = leftOutTally();
    for (let line = 1; line <= 30; line++) tally.add('blank', line);
    tally.add('summary', 31);
    expect(tally.list()).toEqual([
      { reason: 'blank', count: 30, lines: Array.from({ length: 20 }, (_, i) => i + 1) },
      { reason: 'summary', count: 1, lines: [31] },
    ]);
  });
});

describe('cells counted by what they say', () => {
  test('blank, no data, unreadable and out of range', () => {
    const text = `Time (s);RPM
0.0;100
0.5;
1.0;N/A
1.5;--
2.0;stalled
2.5;9000
3.0;-1
3.5;146
4.0;147
4.5;148
5.0;149
5.5;150
6.0;151
`;
    const { columns, count } = collect(text);
    expect(count).toBe(13);
    expect(columns[0]?.counts).toEqual({ blank: 1, noData: 2, unreadable: 1, outOfRange: 2 });
    expect([...(columns[0]?.value ?? [])].slice(0, 8)).toEqual([100, Infinity, NaN, NaN, NaN, NaN, NaN, 146]);
  });

  test('the stamps and lines of the rows used', () => {
    const { rawMs, lines } = collect('Time (s);RPM\n0.5;1\n\n1.0;2\n1.5;3\n');
    expect([...rawMs]).toEqual([500, 1000, 1500]);
    expect([...lines]).toEqual([2, 4, 5]);
  });

  test('units are turned into the canonical ones cell by cell', () => {
    const { log } = readText('Time (s);RPM;Battery (mV);Rail pressure (MPa)\n0.0;1;12000;1.5\n0.5;2;11500;2\n1.0;3;11000;N/A\n'); // prettier-ignore
    expect([...(log.readings.batteryVoltage?.value ?? [])]).toEqual([12, 11.5, 11]);
    expect([...(log.readings.railPressure?.value ?? [])]).toEqual([1500, 2000, NaN]); // MPa 1000 kPa, SP 811
  });
});

describe('time cells with their unit', () => {
  test('behind every number are read', () => {
    const { rawMs } = collect('Time;RPM\n0 ms;1\n500 ms;2\n1000 ms;3\n');
    expect([...rawMs]).toEqual([0, 500, 1000]);
  });

  test('in quotes that were ignored are read', () => {
    const { rawMs, columns } = collect('Time (s),Note,RPM\n"0.0",,"1"\n"0.5",,"2"\n1.0,"open,3\n1.5,,4\n');
    expect([...rawMs]).toEqual([0, 500, 1000, 1500]);
    expect([...(columns[0]?.value ?? [])]).toEqual([1, 2, 3, 4]);
  });

  test('a quote left open far below does not lose the rows after it', () => {
    const rows = Array.from({ length: 3000 }, (_, i) => `${(i / 10).toFixed(1)},${i === 2500 ? '"open' : ''},${100 + (i % 50)}`); // prettier-ignore
    const { log } = readText(`Time (s),Note,RPM\n${rows.join('\n')}\n`);
    expect(log.rowsUsed).toBe(3000);
  });
});
