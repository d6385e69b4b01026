import { four, type PeopleLog } from './people-log.ts';

/** Logs as people have them, written by hand; the speeds are read off the text by eye. */
export const LOGS_BY_SEPARATOR_AND_CLOCK: readonly PeopleLog[] = [
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
];
