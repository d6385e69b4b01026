import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  extentOf,
  indexAt,
  shifted,
  sliceTable,
  summarise,
  zoomed,
} from '../../src/ui/strip-chart-summary.ts';

const whole = { min: 0, max: 100 };

describe('the extent of a column', () => {
  test('leaves nulls and NaN out', () => {
    expect(extentOf([null, 3, NaN, 1, 2, null])).toEqual({ last: 2, min: 1, max: 3 });
    expect(extentOf(Float64Array.of(NaN))).toEqual({ last: null, min: null, max: null });
    expect(extentOf([])).toEqual({ last: null, min: null, max: null });
  });
});

describe('indexAt', () => {
  test('finds the first sample not before a time', () => {
    const seconds = [0, 1, 1.5, 4];
    expect([-1, 0, 0.5, 1.5, 4, 5].map((at) => indexAt(seconds, at))).toEqual([0, 0, 1, 2, 3, 4]);
  });
});

describe('the table of a stretch', () => {
  test('keeps a single spike, since it shows least and most and never a mean', () => {
    const times = Array.from({ length: 1000 }, (_, index) => index / 10);
    const speed = times.map((_, index) => (index === 537 ? 900 : 150));
    const rows = sliceTable([times, speed], { min: 0, max: 99.9 }, 30);
    expect(rows.filter((row) => row.extents[0]?.max === 900)).toHaveLength(1);
    expect(rows.every((row) => row.extents[0]?.min === 150)).toBe(true);
  });

  test('puts every sample of the stretch in exactly one row', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 0, max: 5000 }), { minLength: 2 }),
        fc.integer({ min: 1, max: 40 }),
        (at, count) => {
          const times = [...at].sort((left, right) => left - right);
          const range = { min: times[0] ?? 0, max: times.at(-1) ?? 0 };
          // Each sample is its own value: least and most of all rows must cover all of them.
          const rows = sliceTable([times, times], range, count);
          expect(rows[0]?.extents[0]?.min).toBe(range.min);
          expect(rows.at(-1)?.extents[0]?.max).toBe(range.max);
          const maxima = rows.flatMap((row) => row.extents[0]?.max ?? []);
          expect([...maxima].sort((left, right) => left - right)).toEqual(maxima);
        },
      ),
    );
  });

  test('has no rows for an empty stretch', () => {
    expect(sliceTable([[], []], whole, 30)).toEqual([]);
    expect(sliceTable([[1], [2]], { min: 1, max: 1 }, 30)).toEqual([]);
  });
});

describe('zoom and shift', () => {
  test('never leave the whole, and keep the place under the cursor inside', () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(part, part, part, fc.double({ min: 0.01, max: 8, noNaN: true }), (a, b, where, factor) => {
        const [min = 0, max = 0] = [a * 100, b * 100].sort((left, right) => left - right);
        fc.pre(max - min > 1);
        const about = min + where * (max - min);
        const result = zoomed({ min, max }, whole, about, factor);
        expect(result.min).toBeGreaterThanOrEqual(-1e-9);
        expect(result.max).toBeLessThanOrEqual(100 + 1e-9);
        expect(result.min).toBeLessThanOrEqual(about + 1e-9);
        expect(result.max).toBeGreaterThanOrEqual(about - 1e-9);
      }),
    );
  });

  test('a shift keeps the width and stops at the end', () => {
    expect(shifted({ min: 10, max: 30 }, whole, 5)).toEqual({ min: 15, max: 35 });
    expect(shifted({ min: 10, max: 30 }, whole, 500)).toEqual({ min: 80, max: 100 });
    expect(shifted({ min: 10, max: 30 }, whole, -500)).toEqual({ min: 0, max: 20 });
  });
});

describe('the summary', () => {
  test('says so where a series has no value, or nothing has come', () => {
    const series = [{ kind: 'speed', label: 'Speed', unit: 'rpm', digits: 0 }] as const;
    expect(summarise([[], []], series)).toBe('No samples yet.');
    expect(
      summarise(
        [
          [0, 2],
          [null, null],
        ],
        series,
      ),
    ).toBe('2.0 s of samples. Speed: no values.');
  });
});
