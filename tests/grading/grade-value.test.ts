import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noValue, partsOf } from '../../src/checks/empty-value.ts';
import type { ValueMeasurement } from '../../src/checks/value-measurement.ts';
import { stepText } from '../../src/grading/arithmetic-step.ts';
import { valueArithmetic } from '../../src/grading/arithmetic-value.ts';
import { gradeValue, windowValue } from '../../src/grading/grade-value.ts';
import { placeInWindow } from '../../src/grading/grade-window.ts';
import { whatSettles } from '../../src/grading/what-settles.ts';
import type { Window } from '../../src/limits/limit-sheet.ts';
import { problem } from '../../src/problems/problem.ts';
import { codesOf } from '../checks/example-signals.ts';

const window = (min: number | null, max: number | null, quantity: Window['quantity'] = 'time'): Window => ({
  kind: 'window',
  check: 'example',
  title: 'Example',
  quantity,
  min,
  max,
  durationSeconds: null,
  conditions: [],
});
const OPEN = problem('check.build-not-reached', { seconds: 6, highest: 9000, to: 20_000 });
const measured = (value: number | null, change: Partial<ValueMeasurement> = {}): ValueMeasurement => ({
  ...noValue('time', []),
  value,
  ...partsOf({ startEdge: 30, endEdge: 40 }), // together 50
  ...change,
});

describe('a measured value against its window', () => {
  // u = 50 ms: 5 000 + 1.645 · 50 = 5 082 is where 95 % are reached (normal quantile, check-values.md A3).
  it.each([
    [4000, 'pass', 'pass'],
    [4910, 'pass', 'pass'],
    [4950, 'too close to call', 'pass'],
    [5000, 'too close to call', 'pass'],
    [5050, 'too close to call', 'fail high'],
    [5090, 'fail high', 'fail high'],
    [9000, 'fail high', 'fail high'],
  ])('of %i ms at most 5000 is: %s, leaning %s', (value, word, leaning) => {
    expect(gradeValue(measured(value), window(null, 5000))).toMatchObject({ word, leaning });
  });

  it('passes reasons on and is not valid for them', () => {
    const reasons = [problem('check.engine-stop-unknown')];
    const verdict = gradeValue(measured(4000, { reasons }), window(null, 5000), [problem('check.one-run')]);
    expect(verdict).toMatchObject({ word: 'not valid', reasons });
    expect(codesOf(verdict.warnings)).toEqual(['check.one-run']);
  });

  it('says why where there is no value, and that there is none where nothing says why', () => {
    expect(gradeValue(measured(null, { reasons: [OPEN] }), window(null, 5000)).reasons).toEqual([OPEN]);
    expect(codesOf(gradeValue(measured(null), window(null, 5000)).reasons)).toEqual(['check.no-value']);
  });

  it('is not held against a window of another quantity', () => {
    const verdict = gradeValue(measured(4000), window(null, 5000, 'pressure'));
    expect(codesOf(verdict.reasons)).toEqual(['check.other-quantity']);
  });

  it('without an uncertainty is decided by where it lies', () => {
    const exact = measured(5000, partsOf({}));
    expect(gradeValue(exact, window(null, 5000))).toMatchObject({ word: 'pass', confidence: 1 });
  });
});

describe('a value that is only known to be at least so much', () => {
  const atLeast = (value: number, min: number | null, max: number | null) =>
    gradeValue(measured(value, { atLeast: true, reasons: [OPEN] }), window(min, max));

  it('fails high once it is above the highest for sure: no more waiting changes that', () => {
    const verdict = atLeast(6000, null, 5000);
    expect(verdict).toMatchObject({ word: 'fail high', reasons: [] });
    expect(codesOf(verdict.warnings)).toEqual(['check.build-not-reached']);
  });

  it('passes once it is above the lowest, where there is no highest: a decay that holds for long enough', () => {
    expect(atLeast(6000, 5000, null)).toMatchObject({ word: 'pass' });
  });

  it.each([
    ['below the highest', 4000, null, 5000],
    ['above it by less than is sure', 5050, null, 5000],
    ['between the two', 4000, 3000, 5000],
    ['below the lowest', 4000, 5000, null],
  ])('says nothing yet %s', (_, value, min, max) => {
    expect(atLeast(value, min, max)).toMatchObject({ word: 'not valid', reasons: [OPEN] });
  });

  it('never says more than the value itself would, and keeps its word as it grows', () => {
    const number = fc.integer({ min: 0, max: 10_000 });
    fc.assert(
      fc.property(number, number, number, number, (a, more, x, y) => {
        const [min, max] = [Math.min(x, y), Math.max(x, y)];
        const early = atLeast(a, min, max);
        if (early.word === 'not valid') return;
        expect(early.word).toBe(gradeValue(measured(a), window(min, max)).word);
        expect(atLeast(a + more, min, max).word).toBe(early.word);
      }),
    );
  });
});

describe('what would settle a value that is too close to call', () => {
  const settle = (each: Parameters<typeof partsOf>[0]) => {
    const value = measured(4990, partsOf(each));
    const placed = placeInWindow(windowValue(value)!, window(null, 5000));
    if (!placed.ok) throw new Error('not placed');
    return whatSettles(placed.value, gradeValue(value, window(null, 5000))).map(({ action }) => action);
  };

  it.each([
    ['the spread of the values', { spread: 50 }, 'longer stretch'],
    ['one step of the signal', { resolution: 50 }, 'finer instrument'],
    ['the tolerance of the instrument', { instrument: 50 }, 'finer instrument'],
    ['edges between two values', { startEdge: 40, endEdge: 40 }, 'log more often'],
    ['a late first report', { lateReport: 300 }, 'log the starter'],
  ] as const)('where most of the doubt is %s', (_, each, action) => {
    expect(settle(each)[0]).toBe(action);
  });
});

describe('the arithmetic of a value', () => {
  const stretch = { startMs: 2000, endMs: 6900 };
  const facts = [{ name: 'crank', value: 1, unit: '' }];
  const lines = (value: ValueMeasurement, limit: Window | null) => {
    const verdict = limit ? gradeValue(value, limit) : null;
    return valueArithmetic('pressure build', value, limit, verdict).map((step) => stepText(step));
  };

  it('shows what was measured, the uncertainty, the limit, distance, probability and verdict', () => {
    const shown = lines(measured(4900, { stretch, facts }), window(null, 5000));
    expect(shown[0]).toContain('from 2 s; to 6.9 s; crank 1');
    expect(shown[0]).toContain('= value 4900 ms');
    expect(shown[1]).toContain('= u 50 ms');
    expect(shown.find((line) => line.startsWith('Distance to the nearest'))).toContain('= distance -100 ms');
    expect(shown.find((line) => line.includes('in standard uncertainties'))).toContain('= z -2');
    expect(shown.at(-1)).toContain('= pass');
  });

  it('can be repeated by hand: the parts make up u', () => {
    const [, step] = valueArithmetic('pressure decay', measured(4900), null, null);
    const u = Math.hypot(...step!.numbers.map(({ value }) => value));
    expect('value' in step!.result && step!.result.value).toBeCloseTo(u, 12);
  });

  it('says that it is known only to be at least so much', () => {
    const value = measured(6000, { atLeast: true, reasons: [OPEN] });
    expect(lines(value, window(null, 5000))[0]).toContain('= at least 6000 ms');
    expect(lines(value, window(null, 9000)).at(-1)).toContain('= not valid');
  });

  it('says that it was typed, and says of a sensor that its own error is not in it', () => {
    expect(lines(measured(4900, { typed: true }), null)[0]).toContain('Value read off an instrument');
    const pressure = { ...measured(490), quantity: 'pressure' as const };
    const [, step] = valueArithmetic('steady pressure', pressure, null, null);
    expect(step?.formula).toContain('how far off the sensor itself may be is not known');
  });

  it('is empty without a value and a verdict, and a verdict alone without a value', () => {
    expect(lines(measured(null), null)).toEqual([]);
    expect(lines(measured(null), window(null, 5000))).toHaveLength(1);
  });
});
