import { describe, expect, it } from 'vitest';
import { judgeConditions } from '../../src/checks/conditions.ts';
import type { LimitCondition } from '../../src/limits/limit-sheet.ts';
import { fromPrinted } from '../../src/limits/printed-unit.ts';
import { toCanonical } from '../../src/quantities/convert.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { codesOf } from './example-signals.ts';

const condition = (change: Partial<LimitCondition> = {}): LimitCondition => ({
  signal: 'fuelTemperature',
  min: 10,
  max: 40,
  outside: 'warn',
  ...change,
});
const codes = (value: number | null, change: Partial<LimitCondition> = {}) => {
  const { signal = 'fuelTemperature' } = change;
  const { reasons, warnings } = judgeConditions([condition(change)], { [signal]: value });
  return { reasons: codesOf(reasons), warnings: codesOf(warnings) };
};
const NOTHING = { reasons: [], warnings: [] };
const OUTSIDE = 'check.condition-outside';
const UNKNOWN = 'check.condition-unknown';

describe('a condition with both ends', () => {
  it.each([
    [9.999, false],
    [10, true],
    [25, true],
    [40, true],
    [40.001, false],
    [-40, false],
  ])('at %f °C holds: %s', (value, holds) => {
    expect(codes(value)).toEqual(holds ? NOTHING : { reasons: [], warnings: [OUTSIDE] });
    expect(codes(value, { outside: 'not valid' })).toEqual(
      holds ? NOTHING : { reasons: [OUTSIDE], warnings: [] },
    );
  });
});

describe('a condition with one end, or none', () => {
  it.each([
    [null, 40, -100, true],
    [null, 40, 41, false],
    [10, null, 1000, true],
    [10, null, 9, false],
    [null, null, 77, true],
  ])('from %s to %s holds at %f: %s', (min, max, value, holds) => {
    expect(codes(value, { min, max }).warnings).toEqual(holds ? [] : [OUTSIDE]);
  });

  it('of 0 is an end like any other', () => {
    expect(codes(-1, { min: 0, max: null }).warnings).toEqual([OUTSIDE]);
    expect(codes(0, { min: 0, max: null })).toEqual(NOTHING);
    expect(codes(1, { min: null, max: 0 }).warnings).toEqual([OUTSIDE]);
  });
});

describe('a condition that was not measured', () => {
  it.each([[null], [NaN], [Infinity], [-Infinity]])('as %s never passes in silence', (value) => {
    expect(codes(value)).toEqual({ reasons: [], warnings: [UNKNOWN] });
    expect(codes(value, { outside: 'not valid' })).toEqual({ reasons: [UNKNOWN], warnings: [] });
  });

  it('is told where nothing at all is known', () => {
    expect(codesOf(judgeConditions([condition()], {}).warnings)).toEqual([UNKNOWN]);
  });
});

describe('several conditions', () => {
  const all = [
    condition({ outside: 'not valid' }),
    condition({ signal: 'coolantTemperature', min: 60, max: null }),
    condition({ signal: 'batteryVoltage', min: 23, max: null, outside: 'not valid' }),
    condition({ signal: 'railPressure', min: 80_000, max: 120_000 }),
  ];

  it('are weighed each for itself, in the order of the sheet', () => {
    const found = judgeConditions(all, { fuelTemperature: 55, coolantTemperature: 20, batteryVoltage: 22 });
    expect(found.reasons.map(({ context }) => context.condition)).toEqual([
      'fuel temperature',
      'battery voltage',
    ]);
    expect(found.warnings.map(({ code, context }) => [code, context.condition])).toEqual([
      [OUTSIDE, 'coolant temperature'],
      [UNKNOWN, 'rail pressure'],
    ]);
  });

  it('that all hold say nothing, and none at all say nothing', () => {
    const values = { fuelTemperature: 20, coolantTemperature: 80, batteryVoltage: 25, railPressure: 100_000 };
    expect(judgeConditions(all, values)).toEqual(NOTHING);
    expect(judgeConditions([], {})).toEqual(NOTHING);
  });
});

describe('a condition is said with its number, its unit and what would be right', () => {
  const words = (change: Partial<LimitCondition>, value: number) => {
    const { signal = 'fuelTemperature' } = change;
    const [found] = judgeConditions([condition(change)], { [signal]: value }).warnings;
    return describeProblem(found!).message;
  };

  it.each([
    [{}, 52.34, 'The fuel temperature was 52.3 °C; the limit holds for 10 to 40 °C.'],
    [{ max: null }, 4, 'The fuel temperature was 4 °C; the limit holds for at least 10 °C.'],
    [
      { signal: 'batteryVoltage' as const, min: 23.5, max: null },
      21.98,
      'The battery voltage was 22 V; the limit holds for at least 23.5 V.',
    ],
    [
      { signal: 'railPressure' as const, min: null, max: 120_000 },
      130_000,
      'The rail pressure was 130000 kPa; the limit holds for at most 120000 kPa.',
    ],
    [{}, -0.04, 'The fuel temperature was 0 °C; the limit holds for 10 to 40 °C.'],
  ])('%#', (change, value, text) => expect(words(change, value)).toBe(text));
});

/* check-values.md I: °C = (°F − 32)/1.8, 125.6 °F are 52 °C; 1 bar = 100 kPa, 1 psi = 6.894757 kPa. */
describe('a condition logged in other units', () => {
  it('125.6 °F are 52 °C, which is inside 10 to 52 and outside 10 to 51.9', () => {
    const value = toCanonical(125.6, 'degF');
    expect(value).toBeCloseTo(52, 9);
    expect(codes(Math.round(value * 1e6) / 1e6, { max: 52 })).toEqual(NOTHING);
    expect(codes(value, { max: 51.9 }).warnings).toEqual([OUTSIDE]);
  });

  it('1000 bar and 14 503.774 psi are one rail pressure', () => {
    const rail = { signal: 'railPressure', min: 99_999, max: 100_001 } as const;
    expect(codes(fromPrinted(1000, 'bar'), rail)).toEqual(NOTHING);
    expect(codes(fromPrinted(14_503.774, 'psi'), rail)).toEqual(NOTHING);
    expect(codes(fromPrinted(14_400, 'psi'), rail).warnings).toEqual([OUTSIDE]);
  });
});
