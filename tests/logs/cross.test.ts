import { describe, expect, test } from 'vitest';
import { bytesOf, planText, problemOf, readText, speedOf } from './log-bytes.ts';

const rows = (count: number, make: (i: number) => string) => Array.from({ length: count }, (_, i) => make(i)).join('\n'); // prettier-ignore
const four = [[0, 0], [500, 120.5], [1000, 146], [1500, 147.5]]; // prettier-ignore

const DELIMITERS = [
  { delimiter: ';', name: 'semicolon' },
  { delimiter: '\t', name: 'tab' },
  { delimiter: ',', name: 'comma' },
];
const TIMES = [
  { name: 'seconds', header: 'Time (s)', cells: ['0.0', '0.5', '1.0', '1.5'] },
  { name: 'milliseconds', header: 'Time (ms)', cells: ['0', '500', '1000', '1500'] },
  { name: 'clock', header: 'Time', cells: ['10:00:00.0', '10:00:00.5', '10:00:01.0', '10:00:01.5'] },
  { name: 'clock without fraction', header: 'Time', cells: ['10:00:00', '10:00:00', '10:00:01', '10:00:01'] },
  { name: 'noon', header: 'Time', cells: ['11:59:59.5 AM', '12:00:00.0 PM', '12:00:00.5 PM', '12:00:01.0 PM'] },
  { name: 'midnight of 12 h', header: 'Time', cells: ['11:59:59.5 PM', '12:00:00.0 AM', '12:00:00.5 AM', '12:00:01.0 AM'] },
  { name: 'midnight of 24 h', header: 'Time', cells: ['23:59:59.5', '0:00:00.0', '0:00:00.5', '0:00:01.0'] },
  { name: 'date-time', header: 'Date', cells: ['2024-02-28 23:59:59.5', '2024-02-29 00:00:00.0', '2024-02-29 00:00:00.5', '2024-02-29 00:00:01.0'] },
]; // prettier-ignore
const ENCODINGS = ['utf-8', 'utf-8-bom', 'utf-16le', 'utf-16be', 'utf-16be-bare', 'windows-1252'] as const;
const HEADERS = ['Engine speed (rpm)', 'Motordrehzahl', 'Velocidad del motor', 'Régime moteur'];

describe.each(DELIMITERS)('every way to write time between cells parted by $name', ({ delimiter }) => {
  test.each(TIMES)('$name, in every encoding and language, with a point and with a comma', (time) => {
    for (const encoding of ENCODINGS)
      for (const header of HEADERS.filter((name) => encoding !== 'utf-16be-bare' || !name.includes('é')))
        for (const mark of ['.', ',']) {
          const cell = (text: string) => {
            const written = text.replace('.', mark);
            return written.includes(delimiter) ? `"${written}"` : written;
          };
          const body = time.cells.map((at, i) => `${cell(at)}${delimiter}${cell((four[i]?.[1] ?? 0).toFixed(1))}`); // prettier-ignore
          const text = ['a note', `${time.header}${delimiter}${header}`, ...body, ''].join('\r\n');
          expect([encoding, header, mark, speedOf(readText(bytesOf(text, encoding)).log)]).toEqual([encoding, header, mark, four]); // prettier-ignore
        }
  });
});

describe('fuel temperature and battery voltage', () => {
  const read = (header: string, cell: string) =>
    readText(`Time (s);RPM;${header}\n${rows(6, (i) => `${i / 2};${140 + i};${cell}`)}\n`).log.readings;

  test.each([
    ['Fuel temperature (°C)', '40', 40],
    ['Fuel temperature (°F)', '104', 40], // SP 811: (F - 32) / 1.8
    ['Kraftstofftemperatur [°C]', '-10', -10],
    ['Fuel temp (degF)', '32', 0],
  ])('%s of %s arrives as %d degrees Celsius', (header, cell, celsius) => {
    expect(read(header, cell).fuelTemperature?.value[3]).toBeCloseTo(celsius, 9);
  });

  test.each([
    ['Battery (V)', '10.4', 10.4],
    ['Batteriespannung [V]', '10.4', 10.4],
    ['Battery voltage (mV)', '10400', 10.4],
    ['Batería (V)', '23.1', 23.1],
  ])('%s of %s arrives as %d volts', (header, cell, volts) => {
    expect(read(header, cell).batteryVoltage?.value[3]).toBeCloseTo(volts, 9);
  });

  test('a fuel temperature without unit is asked for: 40 may be either', () => {
    const plan = planText(`Time (s);RPM;Fuel temperature\n${rows(6, (i) => `${i / 2};${140 + i};40`)}\n`);
    expect(plan.needs).toEqual(['temperatureUnit']);
  });

  test('a degree sign of Windows-1252 is a degree sign', () => {
    const text = `Time (s);RPM;Fuel temperature (°F)\n${rows(6, (i) => `${i / 2};${140 + i};212`)}\n`;
    const { log, plan } = readText(bytesOf(text, 'windows-1252'));
    expect(plan.encoding).toBe('windows-1252');
    expect(log.readings.fuelTemperature?.value[0]).toBeCloseTo(100, 9); // water boils at 212 °F, 100 °C
  });
});

describe('clocks', () => {
  test('two rows a second over two 15 s cranks give sixty values, half a second apart', () => {
    const clock = (i: number) => `10:00:${String(Math.floor(i / 2)).padStart(2, '0')}`;
    const { log } = readText(`Time,RPM\n${rows(60, (i) => `${clock(i)},${140 + (i % 7)}`)}\n`);
    expect(speedOf(log)).toHaveLength(60); // the issue's trade figure: common practice, no source
    expect(speedOf(log).map(([at]) => at)).toEqual(Array.from({ length: 60 }, (_, i) => 500 * i));
  });

  test('ten rows a second are a tenth apart', () => {
    const clock = (i: number) => `10:00:${String(Math.floor(i / 10)).padStart(2, '0')}`;
    const { log } = readText(`Time,RPM\n${rows(60, (i) => `${clock(i)},${140 + (i % 7)}`)}\n`);
    speedOf(log).forEach(([at], i) => expect(at).toBeCloseTo(100 * i, 6));
  });

  test('the leap into summer time is a pause of an hour, and the way back a step back', () => {
    const leap = readText('Time,RPM\n01:59:59.0,140\n01:59:59.5,141\n03:00:00.0,142\n03:00:00.5,143\n').log;
    expect(leap.breaks.map(({ kind }) => kind)).toEqual(['pause']);
    const back = readText('Time,RPM\n02:59:59.0,140\n02:59:59.5,141\n02:00:00.0,142\n02:00:00.5,143\n').log;
    expect(back.breaks.map(({ kind, line }) => [kind, line])).toEqual([['backwards', 4]]);
  });
});

describe('shape', () => {
  const data = '0.0,0\n0.5,120.5\n1.0,146\n1.5,147.5\n';

  test('a header in line 30 is found', () => {
    expect(planText(`${'note\n'.repeat(29)}Time (s),RPM\n${data}`).headerLine).toBe(30);
  });

  test('the same name over two columns of speed is asked for', () => {
    expect(problemOf('Time (s),RPM,RPM\n0.0,0,0\n0.5,120,121\n1.0,146,147\n')?.code).toBe('log.which-speed');
  });

  test('a quoted note with a line break is one cell, and lines are counted on', () => {
    const text = 'Time (s),Note,RPM\n0.0,"two\nlines",0\n0.5,,120.5\n1.0,,146\nlater,,9\n1.5,,147.5\n';
    const { log } = readText(text);
    expect(speedOf(log)).toEqual(four);
    expect(log.leftOut.find(({ reason }) => reason === 'unreadableTime')?.lines).toEqual([6]);
  });

  test('numbers with exponents are numbers, and a negative speed is none', () => {
    const { log } = readText('Time (s),RPM\n0.0E0,0\n5.0E-1,1.205E2\n1.0E0,-5\n1.5E0,147.5\n');
    expect(speedOf(log)).toEqual([[0, 0], [500, 120.5], [1000, null], [1500, 147.5]]); // prettier-ignore
    expect(log.cells.engineSpeed?.outOfRange).toBe(1);
  });

  test('speeds above what the standard parameter can say are no speeds', () => {
    const { log } = readText('Time (s),RPM\n0.0,0\n0.5,8031.875\n1.0,8032\n1.5,65535\n2.0,100\n2.5,101\n3.0,102\n3.5,99\n'); // prettier-ignore
    expect(speedOf(log).slice(0, 4).map(([, value]) => value)).toEqual([0, 8031.875, null, null]); // prettier-ignore
  });

  test('negative pressures are kept', () => {
    const { log } = readText('Time (s),RPM,Supply pressure (kPa)\n0,0,-12.5\n1,140,5\n2,141,6\n3,146,-1\n');
    expect([...(log.readings.supplyPressure?.value ?? [])]).toEqual([-12.5, 5, 6, -1]);
  });

  test('a log without time ends before a blank line and its mean, in any notation', () => {
    const log = readText(`Drehzahl\n${rows(12, (i) => `${140 + i},5`)}\n\n146,0\n`, { intervalMs: 500, delimiter: 'none' }).log; // prettier-ignore
    expect(speedOf(log)).toHaveLength(12);
    expect(log.leftOut.map(({ reason }) => reason)).toContain('afterBlank');
  });
});
