import { describe, expect, test } from 'vitest';
import { describeProblem } from '../../src/problems/problem.ts';
import { planText, readText, speedOf } from './log-bytes.ts';

const body = (make: (i: number) => string) => Array.from({ length: 20 }, (_, i) => make(i)).join('\n');
const codes = (text: string, answers = {}) => planText(text, answers).notes.map(({ code }) => code);

describe('engine speed found by its values only', () => {
  test('is said in a note where the log has no header', () => {
    const plan = planText(`${body((i) => `${i / 2};${i % 5 ? 140 + i : 0}`)}\n`);
    expect(plan.needs).toEqual([]);
    const note = plan.notes.find(({ code }) => code === 'log.speed-by-content');
    expect(note?.context).toEqual({ column: 'column 2' });
    const said = describeProblem({ code: 'log.speed-by-content', context: { column: 'column 2' } });
    expect(said.message).toContain('Taken as engine speed because of its values only: check it');
  });

  test('is not said where the header or the unit tells, nor where a person chose', () => {
    const log = (header: string) => `${header}\n${body((i) => `${i / 2},${i % 5 ? 140 + i : 0}`)}\n`;
    expect(codes(log('Time (s),RPM'))).toEqual([]);
    expect(codes(log('Time (s),Speed (rpm)'))).toEqual([]);
    expect(codes(log('Time (s),Speed'))).toEqual(['log.speed-by-content', 'log.unit-by-size']);
    expect(codes(log('Time (s),Speed'), { signals: { engineSpeed: 1 } })).not.toContain(
      'log.speed-by-content',
    );
  });
});

describe('absolute pressure', () => {
  test.each(['Supply pressure (psia)', 'Supply pressure psia', 'Supply pressure (bar abs)', 'Supply pressure abs (kPa)', 'Rail pressure (kPa(a))', 'Raildruck absolut [bar]', 'Rail pressure [kPaa]'])(
    '%s is asked for, never taken for gauge pressure by size',
    (header) => {
      const text = `Time (s);RPM;${header}\n${body((i) => `${i / 2};${140 + i};${800 + i}`)}\n`;
      const { plan, log } = readText(text);
      expect(plan.needs).toEqual(['pressureUnit']);
      expect(plan.notes.map(({ code }) => code)).toEqual(['log.absolute-pressure']);
      expect(plan.columns[2]?.unit).toBeNull();
      expect(Object.keys(log.readings)).toEqual(['engineSpeed']);
      expect(planText(text, { units: { 2: 'kPa' } }).needs).toEqual([]);
    },
  ); // prettier-ignore

  test('an unknown unit of pressure is asked for, and gauge units are read', () => {
    const text = (unit: string) =>
      `Time (s);RPM;Supply pressure (${unit})\n${body((i) => `${i / 2};${140 + i};${800 + i}`)}\n`;
    expect(planText(text('kgf/cm2')).needs).toEqual(['pressureUnit']);
    expect(planText(text('psig')).needs).toEqual([]);
    expect(planText(text('barg')).needs).toEqual([]);
  });
});

describe('date-times read row by row', () => {
  test('go over the day, and a row in another notation keeps its own date', () => {
    const { log } = readText('Date,RPM\n2024-02-28 23:59:59.5,1\n2024-02-29 00:00:00.0,2\n2024-02-29T00:00:00.5Z,3\n2024-02-29 00:00:01.0,4\n'); // prettier-ignore
    expect(speedOf(log)).toEqual([[0, 1], [500, 2], [1000, 3], [1500, 4]]); // prettier-ignore
  });

  test('of a date that cannot be are left out, and later rows with that date too', () => {
    const good = body((i) => `12.03.2024 10:00:${10 + i},${i}`);
    const { log } = readText(
      `Date,RPM\n${good}\n12.33.2024 10:00:31,90\n12.33.2024 10:00:32,91\n12.03.2024 10:00:33,92\n`,
    );
    expect(speedOf(log).map(([, value]) => value)).toEqual([...Array(20).keys(), 92]);
    expect(log.leftOut.find(({ reason }) => reason === 'unreadableTime')?.count).toBe(2);
  });
});
