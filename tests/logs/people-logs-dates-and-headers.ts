import { four, type PeopleLog } from './people-log.ts';

/** Logs as people have them, written by hand; the speeds are read off the text by eye. */
export const LOGS_BY_DATE_AND_HEADER: readonly PeopleLog[] = [
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
];
