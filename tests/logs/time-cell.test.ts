import { describe, expect, test } from 'vitest';
import {
  parseClock,
  parseDateTime,
  parseTimeCell,
  splitDateTime,
  type TimeKind,
} from '../../src/logs/time-cell.ts';

const parse = (cell: string, kind: TimeKind, mark: '.' | ',' = '.') =>
  parseTimeCell(cell, { kind, dateOrder: 'dayFirst', mark });

describe('a cell of time by its kind', () => {
  // 60 s a minute, 3,600 s an hour, 86,400 s a day
  test.each<[TimeKind, string, number]>([
    ['seconds', '1.5', 1500],
    ['seconds', '-0.5', -500],
    ['unixSeconds', '1710237600.5', 1_710_237_600_500],
    ['milliseconds', '1500', 1500],
    ['unixMilliseconds', '1710237600500', 1_710_237_600_500],
    ['minutes', '1.5', 90_000],
    ['excelDay', '0.5', 43_200_000],
    ['excelDay', '2', 172_800_000],
    ['clock', '10:00:00.5', 36_000_500],
    ['clock', ' 10:00 ', 36_000_000],
    ['minuteSecond', '01:30', 90_000],
    ['minuteSecond', '01:30.25', 90_250],
    ['minuteSecond', '90:00,5', 5_400_500],
    ['minuteSecond', '1234:5', 74_045_000],
    ['dateTime', ' 1970-01-02 00:00:00 ', 86_400_000],
  ])('%s: "%s" is %d ms', (kind, cell, ms) => expect(parse(cell, kind)).toBeCloseTo(ms, 6));

  test('seconds with a decimal comma', () => expect(parse('1,5', 'seconds', ',')).toBe(1500));

  test.each<[TimeKind, string]>([
    ['seconds', '10:00:00'],
    ['seconds', ''],
    ['milliseconds', 'N/A'],
    ['clock', '1.5'],
    ['minuteSecond', '10:00:00'],
    ['minuteSecond', '10:60'],
    ['minuteSecond', '10:00.'],
    ['dateTime', '10:00:00'],
    ['dateTime', '2024-03-12'],
    ['excelDay', 'today'],
  ])('%s: "%s" is none', (kind, cell) => expect(parse(cell, kind)).toBeNaN());
});

describe('clock times', () => {
  test.each([
    ['0:00', 0],
    ['24:00:00', 86_400_000],
    ['100:00:00', 360_000_000],
    ['10:00 Uhr', 36_000_000],
    ['9:5:7', 32_707_000],
    ['23:59:60', 86_400_000], // a leap second
    ['12:30:00 a.m.', 1_800_000],
    ['12:30:00PM', 45_000_000],
    ['1:00 pm', 46_800_000],
    ['1:00:00.250 P M', 46_800_250],
    ['10:00:00,123456789', 36_000_123.456789],
  ])('"%s" is %d ms after midnight', (text, ms) => expect(parseClock(text)).toBeCloseTo(ms, 6));

  test.each(['10', '10:', ':10', '10:60', '10:00:61', '13:00 pm', '0:30 am', '10:00:00 xm', '-1:00:00', '10.00.00', '1000:00:00'])(
    '"%s" is none',
    (text) => expect(parseClock(text)).toBeNaN(),
  ); // prettier-ignore
});

describe('dates with a time', () => {
  const leapDay = Date.parse('2024-02-29T13:05:07.250Z'); // the runtime's own reading

  test.each([
    '2024-02-29 13:05:07.25',
    '2024-02-29T13:05:07.25',
    '2024-02-29T13:05:07.25Z',
    '2024-02-29T13:05:07.25+01:00', // one zone in a log drops out
    '2024-02-29 13:05:07.25 UTC',
    '2024/2/29 13:05:07,250',
    '2024.02.29, 13:05:07.250',
    '2024-02-29_13:05:07.250',
    '20240229T130507.25Z',
    '20240229 130507,25',
    '29.02.2024 13:05:07.250',
    '29/02/2024 1:05:07.250 PM',
    '29-02-24 13:05:07.25',
    '29-Feb-2024 13:05:07.25',
    '29 February 2024 13:05:07.25',
    '29. Februar 2024, 13:05:07,25',
    '29 feb. 2024 13:05:07.25',
  ])('"%s" is the afternoon of the leap day', (text) => {
    expect(parseDateTime(text, 'dayFirst')).toBe(leapDay);
  });

  test.each([
    ['12 März 2024 10:00:00', 3],
    ['12 mai 2024 10:00:00', 5],
    ['12 Okt 2024 10:00:00', 10],
    ['12 Dez 2024 10:00:00', 12],
    ['12 ene 2024 10:00:00', 1],
    ['12 abr 2024 10:00:00', 4],
    ['12 ago 2024 10:00:00', 8],
    ['12 dic 2024 10:00:00', 12],
    ['12-Jun-2024 10:00:00', 6],
  ])('"%s" is in month %d', (text, month) => {
    expect(new Date(parseDateTime(text, 'dayFirst')).getUTCMonth() + 1).toBe(month);
  });

  test('day or month first as told, where the text leaves it open', () => {
    const read = (order: 'dayFirst' | 'monthFirst') => new Date(parseDateTime('03/04/2024 10:00:00', order)).toISOString(); // prettier-ignore
    expect(read('dayFirst')).toBe('2024-04-03T10:00:00.000Z');
    expect(read('monthFirst')).toBe('2024-03-04T10:00:00.000Z');
  });

  test('the year first stays so, whatever is told', () => {
    expect(parseDateTime('2024-03-04 00:00:00', 'monthFirst')).toBe(Date.UTC(2024, 2, 4));
  });

  test.each(['2024-13-01 10:00:00', '2024-00-01 10:00:00', '2024-01-32 10:00:00', '2024-01-00 10:00:00', '12 foo 2024 10:00:00', '2024-01-01', '2024-01-01 noon', '', '10:00:00'])(
    '"%s" is none',
    (text) => expect(parseDateTime(text, 'dayFirst')).toBeNaN(),
  ); // prettier-ignore

  test('come apart into their pieces as written', () => {
    expect(splitDateTime('03/04/24 10:00')).toEqual({ first: 3, second: 4, year: 2024, clock: '10:00', order: null }); // prettier-ignore
    expect(splitDateTime('2024-03-04T10:00Z')).toEqual({ first: 4, second: 3, year: 2024, clock: '10:00Z', order: 'yearFirst' }); // prettier-ignore
    expect(splitDateTime('4 Mar 2024 10:00')).toMatchObject({ first: 4, second: 3, order: 'dayFirst' });
    expect(splitDateTime('146')).toBeNull();
  });
});
