import { describe, expect, test } from 'vitest';
import { gzipSync } from 'node:zlib';
import { planSpeedLog } from '../../src/logs/plan-import.ts';
import { bytesOf, planText, problemOf, readText, speedOf } from './log-bytes.ts';

const rows = (make: (i: number) => string, count = 20) =>
  Array.from({ length: count }, (_, i) => make(i)).join('\n');

describe('a file that cannot be read says what was found and what is missing', () => {
  test.each([
    ['nothing', new Uint8Array(0), 'log.empty'],
    ['blank lines only', '\n \n\r\n\t\n', 'log.empty'],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 20, 0, 6, 0), 'log.spreadsheet'],
    ['an old workbook', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1), 'log.spreadsheet'],
    ['a compressed log', gzipSync('Time,RPM\n0,1\n'), 'log.compressed'],
    ['a PDF', '%PDF-1.7\n1 0 obj', 'log.not-text'],
    ['random bytes', Uint8Array.from({ length: 512 }, (_, i) => (i * 167) % 256), 'log.not-text'],
    ['a web page', '<!DOCTYPE html><html><table><tr><td>1</td></tr></table></html>', 'log.not-a-table'],
    ['XML', '<?xml version="1.0"?><log/>', 'log.not-a-table'],
    ['JSON', '[{"time": 0, "rpm": 146}]', 'log.not-a-table'],
    ['a letter', 'Dear customer,\nthe engine does not start.\nRegards\n', 'log.no-rows'],
    ['only a header', 'Time (s),RPM\n', 'log.no-rows'],
    ['one row', 'Time (s),RPM\n0.5,146\n', 'log.one-row'],
    [
      'decimal commas between commas',
      'Zeit,Drehzahl\n0,5,146,2\n1,0,147,5\n1,5,148,1\n',
      'log.decimal-comma-clash',
    ],
  ] as const)('%s', (_, file, code) => {
    const found = problemOf(file as string | Uint8Array);
    expect(found?.code).toBe(code);
    expect(`${found?.message} ${found?.remedy}`).not.toMatch(/\{\w+\}/);
  });

  test('a log without engine speed lists its columns and says what to do', () => {
    const found = problemOf('Zeit [s];Druck [bar];Temp [°C]\n0,0;1,5;20\n0,5;1,6;21\n1,0;1,5;22\n');
    expect(found).toEqual({
      code: 'log.no-speed',
      message: 'Found 3 columns: Zeit [s], Druck [bar], Temp [°C]; none looks like engine speed.',
      remedy: 'Choose the column that holds it, or export the log with engine speed.',
    });
  });

  test('a log without time lists its columns and asks for the interval', () => {
    const found = problemOf('Engine speed (rpm),Rail pressure (psi)\n120,3000\n146,3100\n147,3050\n');
    expect(found?.code).toBe('log.no-time');
    expect(found?.message).toBe(
      'Found 2 columns: Engine speed (rpm), Rail pressure (psi); none holds the time of the readings.',
    );
  });

  test('two hundred columns are listed by the first dozen', () => {
    const names = rows((i) => `Temp ${i}`, 200).replaceAll('\n', ',');
    const line = rows((i) => String(i), 200).replaceAll('\n', ',');
    expect(problemOf(`${names}\n${line}\n${line}\n`)?.message).toMatch(
      /Found 200 columns: .*Temp 11 and 188 more; none/,
    );
  });

  test('an answer that does not fit the log is refused in words', () => {
    const text = 'Time (s),RPM\n0,0\n0.5,146\n1,147\n';
    expect(problemOf(text, { intervalMs: 0 })?.code).toBe('log.bad-answer');
    expect(problemOf(text, { signals: { engineSpeed: 7 } })?.message).toContain('there is no column 8');
  });
});

describe('what is not certain is asked', () => {
  test('vehicle, wheel, fan, turbo and commanded speed are never engine speed', () => {
    const names = ['Vehicle Speed', 'Wheel speed FL', 'Fan speed (rpm)', 'Turbo speed', 'Commanded engine speed (rpm)', 'Fahrzeuggeschwindigkeit', 'Solldrehzahl', 'Velocidad del vehículo', 'Pump speed (rpm)']; // prettier-ignore
    for (const name of names) {
      const plan = planText(`Time (s),${name}\n${rows((i) => `${i / 2},${i % 3 ? 140 + i : 0}`)}\n`);
      expect([name, plan.needs]).toEqual([name, ['speedColumn']]);
    }
  });

  test.each([
    'Engine Speed', 'engine_speed', 'EngineSpeed', 'Eng Spd', 'RPM', 'n_mot', 'nMot', 'Motordrehzahl', 'Drehzahl',
    'Régime moteur', 'Régime', 'Velocidad del motor', 'Velocidad motor', 'Cranking speed', 'Speed (rpm)', 'n [1/min]',
    'SPN 190', 'Revoluciones', 'N (tr/min)',
  ])('the header %s is engine speed, beside other numbers', (name) => {
    const plan = planText(`Time (s),Battery (V),${name},Coolant\n${rows((i) => `${i / 2},${11 + (i % 2)},${i % 5 ? 140 + i : 0},${20 + i}`)}\n`); // prettier-ignore
    expect(plan.needs).toEqual([]);
    expect(plan.columns[2]).toMatchObject({ signal: 'engineSpeed', unit: 'rpm' });
  }); // prettier-ignore

  test('"Speed" beside other columns is asked for while no value exceeds what a vehicle drives', () => {
    const body = rows((i) => `${i / 2},${i % 5 ? 90 : 0},${i}`);
    expect(planText(`Time (s),Speed,Load\n${body}\n`).needs).toContain('speedColumn');
    expect(problemOf(`Time (s),Speed,Load\n${body}\n`)?.code).toBe('log.which-speed');
    const { log } = readText(`Time (s),Speed,Load\n${body}\n`, { signals: { engineSpeed: 1 } });
    expect(log.readings.engineSpeed?.value.length).toBe(20);
  });

  test('two columns that both say engine speed are asked for, with both names', () => {
    const found = problemOf(`Time (s),Engine speed,RPM\n${rows((i) => `${i / 2},${140 + i},${141 + i}`)}\n`);
    expect(found?.code).toBe('log.which-speed');
    expect(found?.message).toContain('(Engine speed, RPM)');
  });

  test('a column without header that counts 1, 2, 3 is not taken for time', () => {
    const text = `1,0\n2,140\n3,146\n4,150\n5,149\n`;
    expect(planText(text).needs).toContain('interval');
    expect(problemOf(text)?.code).toBe('log.which-time');
    const asTime = readText(text, { timeColumn: 0, timeKind: 'seconds' });
    expect(speedOf(asTime.log)[1]).toEqual([2000, 140]);
  });

  test('a column named time that counts 1, 2, 3 asks for its unit, and a row number is never time', () => {
    const body = rows((i) => `${i + 1},${140 + i}`);
    expect(planText(`Time,RPM\n${body}\n`).needs).toEqual(['timeUnit']);
    expect(planText(`Sample,RPM\n${body}\n`).needs).toEqual(['interval']);
    expect(planText(`Nr.;Drehzahl\n${body.replaceAll(',', ';')}\n`).needs).toEqual(['interval']);
  });

  test('stamps to the minute are refused as too coarse', () => {
    const found = problemOf(`Time,RPM\n${rows((i) => `2024-03-12 10:0${Math.floor(i / 10)},${140 + i}`)}\n`);
    expect(found?.code).toBe('log.coarse-time');
  });

  test('pressure without a unit is not read until the unit is given', () => {
    const text = `Time (s),RPM,Rail pressure\n${rows((i) => `${i / 2},${140 + i},${4000 + i}`)}\n`;
    const asked = readText(text);
    expect(asked.plan.needs).toEqual(['pressureUnit']);
    expect(asked.log.readings.railPressure).toBeUndefined();
    const answered = readText(text, { units: { 2: 'kPa' } });
    expect(answered.plan.needs).toEqual([]);
    expect(answered.log.readings.railPressure?.value[0]).toBe(4000);
  });

  test('a speed that never exceeds 4 asks for its unit', () => {
    const found = problemOf(`Time (s),Engine speed\n${rows((i) => `${i / 2},${(i % 5) / 2}`)}\n`);
    expect(found?.code).toBe('log.speed-unit');
  });

  test('whole numbers with a comma and no header leave open what stands between columns', () => {
    expect(planText('146,5\n147,5\n0,0\n148,5\n').needs).toContain('delimiter');
  });
});

describe('size and shape', () => {
  test('two hundred columns with speed in the last are read', () => {
    const names = `Time (s),${rows((i) => `Temp ${i}`, 198).replaceAll('\n', ',')},RPM`;
    const line = (i: number) => `${i / 2},${rows((j) => String(j), 198).replaceAll('\n', ',')},${140 + i}`;
    expect(speedOf(readText(`${names}\n${rows(line, 10)}\n`).log)[9]).toEqual([4500, 149]);
  });

  test('a million rows are read, and a crank at their end is seen while planning', () => {
    const lines = ['Time (s),A,B'];
    for (let i = 0; i < 1_000_000; i++) lines.push(`${(i / 2).toFixed(1)},${i > 999_000 ? 146 : 0},12`);
    const bytes = bytesOf(lines.join('\n'));
    const plan = planSpeedLog(bytes);
    expect(plan.ok && plan.value.columns[1]?.highest).toBe(146);
    const { log } = readText(bytes, { signals: { engineSpeed: 1 } });
    expect(log.rowsUsed).toBe(1_000_000);
    expect(log.readings.engineSpeed?.value[999_500]).toBe(146);
  });
});
