import { describe, expect, test } from 'vitest';
import { vinCheckDigit } from '../../src/j1939/vin-check-digit.ts';
import { jobMistakes } from '../../src/jobs/job-mistakes.ts';
import { at, field, job, note } from './example-job.ts';

const mistakes = (...entries: Parameters<typeof job>[0] & object) =>
  jobMistakes(job(entries), { nowIso: at(30), vinCheckDigit }).map(({ code }) => code);

describe('mistakes in a job', () => {
  test('are none in one that can be, or is empty', () => {
    expect(mistakes()).toEqual([]);
    const right = [
      field('engineHours', '12345.6'),
      field('distanceKm', '812000'),
      field('serialNumber', 'X1'),
    ];
    // The worked example of 49 CFR 565.15(c)(5), Table V: check digit X.
    expect(mistakes(...right, field('vin', '1M8GDM9AXKP042788'))).toEqual([]);
  });

  test.each([
    ['engineHours', '-5', 'job.not-a-number'],
    ['engineHours', '12,5', 'job.not-a-number'],
    ['engineHours', '1e9', 'job.not-a-number'],
    ['engineHours', '200001', 'job.impossible-number'],
    ['distanceKm', 'many', 'job.not-a-number'],
    ['distanceKm', '10000001', 'job.impossible-number'],
    ['vin', '1M8GDM9AXKP04278', 'job.vin-length'],
    ['vin', '1M8GDM9AXKP04278O', 'job.vin-characters'],
    ['vin', '1M8GDM9A1KP042788', 'job.vin-check-digit'],
    ['serialNumber', '1M8GDM9AXKP042788', 'job.serial-is-vin'],
  ] as const)('name %s "%s" as %s', (name, value, code) => {
    expect(mistakes(field(name, value))).toEqual([code]);
  });

  test('name a serial number that was typed as VIN', () => {
    expect(mistakes(field('vin', 'x 123'), field('serialNumber', 'X123'))).toEqual(['job.vin-is-serial']);
  });

  test('take a VIN whose ninth character is no check digit as it is', () => {
    expect(mistakes(field('vin', 'WAAZZZZZZZZ000001'))).toEqual([]);
  });

  test('name a date to come once, and forgive ten minutes between two clocks', () => {
    expect(mistakes(note('a', 41), note('b', 50))).toEqual(['job.in-the-future']);
    expect(mistakes(note('a', 40))).toEqual([]);
    const tomorrow = job([], { createdAt: '2026-11-26T08:00:00.000Z' });
    expect(jobMistakes(tomorrow, { nowIso: at(0), vinCheckDigit })).toMatchObject([
      { code: 'job.in-the-future', context: { when: '2026-11-26T08:00:00.000Z' } },
    ]);
  });
});
