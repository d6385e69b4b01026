import { describe, expect, test } from 'vitest';
import { LogPlan } from '../../src/logs/log-plan.ts';
import type { LogAnswers } from '../../src/logs/plan-import.ts';
import { bytesOf, readText, speedOf } from './log-bytes.ts';

type Encoding = Parameters<typeof bytesOf>[1];
interface PeopleLog {
  readonly name: string;
  readonly text: string;
  readonly encoding?: Encoding;
  readonly answers?: LogAnswers;
  /** What a person reads off the text: ms and rpm. */
  readonly speed: readonly (readonly [number, number | null])[];
}

const four = [[0, 0], [500, 120.5], [1000, 146], [1500, 147.5]] as const; // prettier-ignore

/** Logs as people have them, written by hand; the speeds are read off the text by eye. */
const LOGS: readonly PeopleLog[] = [
  {
    name: 'comma, point, seconds',
    text: `Time (s),Engine Speed (rpm)
0.0,0
0.5,120.5
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'semicolon, decimal comma',
    text: `Zeit [s];Motordrehzahl [1/min]
0,0;0
0,5;120,5
1,0;146,0
1,5;147,5
`,
    speed: four,
  },
  {
    name: 'semicolon, decimal point',
    text: `Time (s);RPM
0.0;0
0.5;120.5
1.0;146
1.5;147.5
`,
    speed: four,
  },
  {
    name: 'tab, decimal comma',
    text: `Zeit s\tDrehzahl
0,0\t0
0,5\t120,5
1,0\t146,0
1,5\t147,5
`,
    speed: four,
  },
  {
    name: 'tab, decimal point, CR line ends',
    text: 'Time (s)\tRPM\r0.0\t0\r0.5\t120.5\r1.0\t146\r1.5\t147.5\r',
    speed: four,
  },
  {
    name: 'comma with quoted decimal commas',
    text: `"Temps (s)","Régime moteur (tr/min)"
"0,0","0"
"0,5","120,5"
"1,0","146,0"
"1,5","147,5"
`,
    speed: four,
  },
  {
    name: 'pipes',
    text: `Time (s)|RPM
0.0|0
0.5|120.5
1.0|146
1.5|147.5
`,
    speed: four,
  },
  {
    name: 'columns set with blanks',
    text: `Time(s)   RPM
  0.0       0
  0.5   120.5
  1.0   146.0
  1.5   147.5
`,
    speed: four,
  },
  {
    name: 'milliseconds in the header',
    text: `time_ms,engine_speed
0,0
500,120.5
1000,146
1500,147.5
`,
    speed: four,
  },
  {
    name: 'milliseconds by size',
    text: `Time,RPM
0,0
500,120.5
1000,146
1500,147.5
`,
    speed: four,
  },
  {
    name: 'minutes',
    text: `Elapsed (min),RPM
0,0
0.25,120.5
0.5,146
`,
    speed: [
      [0, 0],
      [15000, 120.5],
      [30000, 146],
    ],
  },
  {
    name: 'clock with fraction',
    text: `Time,RPM
10:00:00.0,0
10:00:00.5,120.5
10:00:01.0,146
10:00:01.5,147.5
`,
    speed: four,
  },
  {
    name: 'clock with decimal comma',
    text: `Uhrzeit;n_mot
10:00:00,0;0
10:00:00,5;120,5
10:00:01,0;146
10:00:01,5;147,5
`,
    speed: four,
  },
  {
    name: 'clock with milliseconds after a colon',
    text: `Time,RPM
10:00:00:000,0
10:00:00:500,120.5
10:00:01:000,146
10:00:01:500,147.5
`,
    speed: four,
  },
  {
    name: 'clock with AM and PM over noon',
    text: `Time,RPM
11:59:59.5 AM,0
12:00:00.0 PM,120.5
12:00:00.5 PM,146
12:00:01.0 PM,147.5
`,
    speed: four,
  },
  {
    name: 'clock past midnight',
    text: `Time,RPM
23:59:59.0,0
23:59:59.5,120.5
00:00:00.0,146
00:00:00.5,147.5
`,
    speed: four,
  },
  {
    name: 'PM past midnight with AM',
    text: `Time,RPM
11:59:59.5 p.m.,0
12:00:00.0 a.m.,120.5
12:00:00.5 a.m.,146
12:00:01.0 a.m.,147.5
`,
    speed: four,
  },
  {
    name: 'clock without fraction, two a second',
    text: `Time,RPM
10:00:00,0
10:00:00,120.5
10:00:01,146
10:00:01,147.5
`,
    speed: four,
  },
  {
    name: 'clock without fraction that starts within a second',
    text: `Time,RPM
10:00:00,120.5
10:00:01,146
10:00:01,147
10:00:02,148
10:00:02,149
`,
    speed: [
      [0, 120.5],
      [500, 146],
      [1000, 147],
      [1500, 148],
      [2000, 149],
    ],
  },
  {
    name: 'elapsed minutes and seconds',
    text: `Time,RPM
00:00.0,0
00:00.5,120.5
00:01.0,146
00:01.5,147.5
`,
    speed: four,
  },
  {
    name: 'minutes and seconds past the hour',
    text: `Time;RPM
59:59,0;0
59:59,5;120,5
00:00,0;146
00:00,5;147,5
`,
    speed: four,
  },
  {
    name: 'ISO date and time',
    text: `timestamp,rpm
2024-03-12T10:00:00.000Z,0
2024-03-12T10:00:00.500Z,120.5
2024-03-12T10:00:01.000Z,146
2024-03-12T10:00:01.500Z,147.5
`,
    speed: four,
  },
  {
    name: 'German date and time over the end of a month',
    text: `Datum;Drehzahl
31.03.2024 23:59:59,0;0
31.03.2024 23:59:59,5;120,5
01.04.2024 00:00:00,0;146
01.04.2024 00:00:00,5;147,5
`,
    speed: four,
  },
  {
    name: 'US date and time with PM',
    text: `Date/Time,RPM
3/14/2024 1:00:00.0 PM,0
3/14/2024 1:00:00.5 PM,120.5
3/14/2024 1:00:01.0 PM,146
3/14/2024 1:00:01.5 PM,147.5
`,
    speed: four,
  },
  {
    name: 'ambiguous date over midnight',
    text: `Date/Time,RPM
3/4/2024 23:59:59.0,0
3/4/2024 23:59:59.5,120.5
3/5/2024 0:00:00.0,146
3/5/2024 0:00:00.5,147.5
`,
    speed: four,
  },
  {
    name: 'date in one column, clock in the next',
    text: `Date,Time,RPM
12.03.2024,10:00:00.0,0
12.03.2024,10:00:00.5,120.5
12.03.2024,10:00:01.0,146
12.03.2024,10:00:01.5,147.5
`,
    speed: four,
  },
  {
    name: 'Unix seconds',
    text: `time,rpm
1710237600.0,0
1710237600.5,120.5
1710237601.0,146
1710237601.5,147.5
`,
    speed: four,
  },
  {
    name: 'Unix milliseconds',
    text: `time,rpm
1710237600000,0
1710237600500,120.5
1710237601000,146
1710237601500,147.5
`,
    speed: four,
  },
  {
    name: 'no time, interval given',
    text: `RPM
0
120.5
146
147.5
`,
    answers: { intervalMs: 500 },
    speed: four,
  },
  {
    name: 'one column of decimal commas, interval given',
    text: `Drehzahl
0
120,5
146
147,5
`,
    answers: { intervalMs: 500 },
    speed: four,
  },
  {
    name: 'unit row beneath',
    text: `Time,Rail Pressure,Engine Speed
s,psi,rpm
0.0,100,0
0.5,200,120.5
1.0,300,146
1.5,400,147.5
`,
    speed: four,
  },
  {
    name: 'unit row in brackets after a preamble',
    text: `Logger file
Operator;A. Person
Samples;4

Zeit;Raildruck;Drehzahl
[s];[bar];[1/min]
0,0;10;0
0,5;20;120,5
1,0;30;146
1,5;40;147,5
`,
    speed: four,
  },
  {
    name: 'header on line 30',
    text: `${'note\n'.repeat(29)}Time (s),RPM\n0.0,0\n0.5,120.5\n1.0,146\n1.5,147.5\n`,
    speed: four,
  },
  {
    name: 'preamble of names and numbers',
    text: `Date,12.03.2024
Interval,0.5
Serial,12345
Time (s),RPM
0.0,0
0.5,120.5
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'no header',
    text: `0.0,0
0.5,120.5
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'no header, semicolon and comma',
    text: `0,0;0,0
0,5;120,5
1,0;146,0
1,5;147,5
`,
    speed: four,
  },
  {
    name: 'blank and "no data" cells',
    text: `Time (s),RPM
0.0,0
0.5,N/A
1.0,
1.5,--
2.0,146
2.5,NaN
`,
    speed: [
      [0, 0],
      [500, null],
      [1500, null],
      [2000, 146],
      [2500, null],
    ],
  },
  {
    name: 'summary rows at the end',
    text: `Time (s),RPM
0.0,0
0.5,120.5
1.0,146
1.5,147.5

Average,103.5
Min,0
Max:,147.5
Ø,103.5
`,
    speed: four,
  },
  {
    name: 'summary label in the second column',
    text: `Time (s),Note,RPM
0.0,,0
0.5,,120.5
1.0,,146
1.5,,147.5
,Average,103.5
`,
    speed: four,
  },
  {
    name: 'blank lines between rows',
    text: `Time (s),RPM

0.0,0

0.5,120.5

1.0,146
,
1.5,147.5


`,
    speed: four,
  },
  {
    name: 'thousands and decimal point',
    text: `Time (s),RPM
0.0,0
0.5,"1,120.5"
1.0,"1,146"
1.5,147.5
`,
    speed: [
      [0, 0],
      [500, 1120.5],
      [1000, 1146],
      [1500, 147.5],
    ],
  },
  {
    name: 'thousands and decimal comma',
    text: `Zeit (s);Drehzahl
0,0;0
0,5;1.120,5
1,0;1.146
1,5;147,5
`,
    speed: [
      [0, 0],
      [500, 1120.5],
      [1000, 1146],
      [1500, 147.5],
    ],
  },
  {
    name: 'UTF-8 with byte order mark',
    encoding: 'utf-8-bom',
    text: `Time (s),RPM
0.0,0
0.5,120.5
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'UTF-16 little endian',
    encoding: 'utf-16le',
    text: `Zeit (s)\tDrehzahl\tØl °C
0,0\t0\t20
0,5\t120,5\t20
1,0\t146\t20
1,5\t147,5\t20
`,
    speed: four,
  },
  {
    name: 'UTF-16 big endian without mark',
    encoding: 'utf-16be-bare',
    text: `Time (s),RPM
0.0,0
0.5,120.5
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'Windows-1252',
    encoding: 'windows-1252',
    text: `Temps (s);Régime;T °C
0,0;0;20
0,5;120,5;20
1,0;146;20
1,5;147,5;20
`,
    speed: four,
  },
  {
    name: 'units in the cells',
    text: `Time,RPM
0.0 s,0 rpm
0.5 s,120.5 rpm
1.0 s,146 rpm
1.5 s,147.5 rpm
`,
    speed: four,
  },
  {
    name: 'ragged rows',
    text: `Time (s),RPM,Note
0.0,0
0.5,120.5,start,extra
1.0,146,
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'header repeated within the log',
    text: `Time (s),RPM
0.0,0
0.5,120.5
Time (s),RPM
1.0,146
1.5,147.5
`,
    speed: four,
  },
  {
    name: 'separator declared in the first line',
    text: `sep=;
Time (s);RPM
0.0;0
0.5;120.5
1.0;146
1.5;147.5
`,
    speed: four,
  },
  {
    name: 'stray quote in a note',
    text: `Time (s),Note,RPM
0.0,,0
0.5,"open,120.5
1.0,,146
1.5,,147.5
`,
    speed: four,
  },
  {
    name: 'vehicle speed beside engine speed',
    text: `Time (s),Vehicle Speed (km/h),Fan Speed (rpm),Turbo Speed (rpm),Engine Speed (rpm)
0.0,0,10,900,0
0.5,0,20,950,120.5
1.0,1,30,990,146
1.5,2,40,999,147.5
`,
    speed: four,
  },
  {
    name: 'row numbers beside a clock',
    text: `No.,Time,Velocidad del motor
1,10:00:00.0,0
2,10:00:00.5,120.5
3,10:00:01.0,146
4,10:00:01.5,147.5
`,
    speed: four,
  },
  {
    name: 'commanded speed beside the measured one',
    text: `Time (s);Solldrehzahl;Leerlaufsolldrehzahl;Motordrehzahl
0,0;600;600;0
0,5;600;600;120,5
1,0;600;600;146
1,5;600;600;147,5
`,
    speed: four,
  },
  {
    name: 'blank line and lone mean at the end, interval given',
    text: `RPM
0
1
2
3
4
5
6
7
8
9
10

5
`,
    answers: { intervalMs: 1000 },
    speed: Array.from({ length: 11 }, (_, i) => [1000 * i, i] as const),
  },
];

describe('logs as people have them', () => {
  test.each(LOGS)('$name', ({ text, encoding, answers, speed }) => {
    const { plan, log } = readText(bytesOf(text, encoding), answers);
    expect(speedOf(log)).toEqual(speed);
    expect(LogPlan.parse(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
  });

  test('there are at least forty of them', () => {
    expect(LOGS.length).toBeGreaterThanOrEqual(40);
  });
});
