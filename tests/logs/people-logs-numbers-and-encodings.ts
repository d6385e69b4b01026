import { four, type PeopleLog } from './people-log.ts';

/** Logs as people have them, written by hand; the speeds are read off the text by eye. */
export const LOGS_BY_NUMBER_AND_ENCODING: readonly PeopleLog[] = [
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
