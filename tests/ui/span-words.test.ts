import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spanWords } from '../../src/ui/span-words.ts';

describe('spanWords', () => {
  test.each([
    [0, '0.0 s'],
    [2.4, '2.4 s'],
    [9.99, '9.9 s'],
    [10, '10 s'],
    [119.9, '119 s'],
    [120, '2 min 0 s'],
    [3599, '59 min 59 s'],
    [3600, '1 h 0 min'],
    [90_061, '25 h 1 min'],
    [-1, '0.0 s'],
    [NaN, '0.0 s'],
    [Infinity, '0.0 s'],
  ])('%d s is %s', (seconds, words) => {
    expect(spanWords(seconds)).toBe(words);
  });

  test('shows every tenth below 10 s as typed', () => {
    for (let tenths = 0; tenths < 100; tenths += 1) {
      expect(spanWords(tenths / 10)).toBe(`${Math.floor(tenths / 10)}.${tenths % 10} s`);
    }
  });

  test('never looks older than it is', () => {
    const unitSeconds: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 };
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (seconds) => {
        const shown = [...spanWords(seconds).matchAll(/([\d.]+) (s|min|h)/g)].reduce(
          (sum, [, value, unit]) => sum + Number(value) * (unitSeconds[unit ?? ''] ?? NaN),
          0,
        );
        expect(shown).toBeLessThanOrEqual(seconds + 1e-6);
        expect(seconds - shown).toBeLessThan(seconds < 10 ? 0.1 + 1e-6 : 60);
      }),
    );
  });
});
