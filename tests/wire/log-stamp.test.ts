import { describe, expect, test } from 'vitest';
import { PROBE_BYTES, PROBE_STAMPS, probeStamps, readLogStamp } from '../../src/wire/log-stamp.ts';
import { ascii } from './decode-all.ts';

// Forms of stamps: can-text-formats.md, Part 2. Values are read off by hand; dates: calendar arithmetic of Date.UTC.
const read = (text: string) => {
  const stamp = { end: 0, ms: 0, kind: 'small' as 'small' | 'absolute' };
  const bytes = ascii(text);
  return readLogStamp(bytes, 0, bytes.length, stamp) ? stamp : null;
};

describe('a stamp in brackets', () => {
  test.each([
    ['absolute, 6 digits', '(1589326646.631333)', 1_589_326_646_631.333, 'absolute'],
    ['absolute, 9 digits (-N)', '(1589326646.631333000)', 1_589_326_646_631.333, 'absolute'],
    ['absolute, no fraction', '(1589326646)', 1_589_326_646_000, 'absolute'],
    ['the first second of ten digits is absolute', '(1000000000.0)', 1_000_000_000_000, 'absolute'],
    ['the second before is small', '(999999999.0)', 999_999_999_000, 'small'],
    ['zero or delta, 3 digits of seconds', '(000.123456)', 123.456, 'small'],
    ['as at the end of one file of ours', '(064.758912)', 64_758.912, 'small'],
    ['more than 3 digits of seconds', '(3600.000001)', 3_600_000.001, 'small'],
    ['1 digit of fraction', '(001.5)', 1_500, 'small'],
    ['2 digits', '(001.05)', 1_050, 'small'],
    ['3 digits', '(001.005)', 1_005, 'small'],
    ['4 digits', '(001.0005)', 1_000.5, 'small'],
    ['5 digits', '(001.00005)', 1_000.05, 'small'],
    ['7 digits', '(001.0000005)', 1_000.0005, 'small'],
    ['8 digits', '(001.00000005)', 1_000.00005, 'small'],
    ['9 digits', '(001.000000005)', 1_000.000005, 'small'],
    ['a point and no digits', '(001.)', 1_000, 'small'],
    ['date and time', '(2026-11-24 12:00:00.123456)', Date.UTC(2026, 10, 24, 12, 0, 0) + 123.456, 'absolute'],
    [
      'date and time without a fraction',
      '(2026-11-24 12:34:56)',
      Date.UTC(2026, 10, 24, 12, 34, 56),
      'absolute',
    ],
    [
      'a leap day, 9 digits',
      '(2024-02-29 23:59:59.999000000)',
      Date.UTC(2024, 1, 29, 23, 59, 59, 999),
      'absolute',
    ],
  ] as const)('%s: %s', (_what, text, ms, kind) => {
    const stamp = read(`${text}  can0`);
    expect(stamp?.ms).toBeCloseTo(ms, 3);
    expect(stamp).toMatchObject({ kind, end: text.length });
  });

  test.each([
    ['empty', '()'],
    ['not closed', '(1589326646.631333'],
    ['not closed before what follows', '(1589326646.631333 can0'],
    ['ten digits of fraction', '(1.0123456789)'],
    ['a comma', '(1,5)'],
    ['two points', '(1.5.5)'],
    ['negative', '(-1.5)'],
    ['letters', '(abc)'],
    ['a date alone', '(2026-11-24)'],
    ['a date whose day has one digit', '(2026-11-4 12:00:00)'],
    ['a date not closed', '(2026-11-24 12:00:00.5'],
    ['a date with a zone', '(2026-11-24 12:00:00Z)'],
    ['a year of five digits', '(12026-11-24 12:00:00)'],
  ])('%s is no stamp: %s', (_what, text) => {
    expect(read(text)).toBeNull();
  });

  test('a bracket behind the end of the line does not close it', () => {
    const bytes = ascii('(1.5)');
    const stamp = { end: 0, ms: 0, kind: 'small' as const };
    expect(readLogStamp(bytes, 0, bytes.length - 1, stamp)).toBe(false);
    expect(readLogStamp(bytes, 0, bytes.length, stamp)).toBe(true);
  });
});

describe('zero-based or delta, from the beginning of the file', () => {
  const line = (s: number) => ` (${s.toFixed(6).padStart(10, '0')})  can0  123   [0]\n`;
  const lines = (stamps: readonly number[]) => ascii(stamps.map(line).join(''));
  const rising = (count: number) => Array.from({ length: count }, (_, i) => i * 0.001);
  const probe = (stamps: readonly number[], complete = false) => probeStamps(lines(stamps), complete);

  test.each([
    ['stamps that never fall are zero-based', rising(64), 'zero'],
    ['stamps that stand still are zero-based', rising(64).map(() => 0.5), 'zero'],
    ['every second one falls: delta', rising(64).map((_, i) => (i % 2) / 100), 'delta'],
    ['8 of 64 fall: delta', rising(64).map((s, i) => (i % 8 === 7 ? 0 : s)), 'delta'],
    [
      '7 of 64 fall: zero-based, slight disorder',
      rising(64).map((s, i) => (i % 8 === 7 && i < 60 ? 0 : s)),
      'zero',
    ],
  ] as const)('%s', (_what, stamps, wanted) => {
    expect(probe(stamps)).toBe(wanted);
  });

  test('the 64th stamped line decides, not the 63rd', () => {
    expect(PROBE_STAMPS).toBe(64);
    expect(probe(rising(63))).toBeNull();
    expect(probe(rising(64))).toBe('zero');
  });

  test('the end of the file decides too: one fall is enough in a short one', () => {
    expect(probe([0, 0.2, 0.1], true)).toBe('delta');
    expect(probe([0, 0.1, 0.2], true)).toBe('zero');
    expect(probe([], true)).toBe('zero');
    expect(probe([0, 0.2, 0.1])).toBeNull();
  });

  test('one absolute stamp decides at once', () => {
    expect(probeStamps(ascii('# remark\n(1589326646.631333) can1 123#\n'), false)).toBe('zero');
  });

  test('lines without stamps are passed over, but not for ever', () => {
    const bare = '  can0  123   [0]\n';
    expect(probeStamps(ascii(bare.repeat(100)), false)).toBeNull();
    expect(probeStamps(ascii(bare.repeat(Math.ceil(PROBE_BYTES / bare.length))), false)).toBe('zero');
  });

  test('falls behind the looked-at part do not count', () => {
    expect(probe([...rising(64), 0, 0, 0, ...rising(9).map(() => 0)])).toBe('zero');
  });
});
