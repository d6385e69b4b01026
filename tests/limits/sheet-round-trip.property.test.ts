import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundaryAt, commonRange, curveRange } from '../../src/limits/boundary-curve.ts';
import { chooseLimit } from '../../src/limits/choose-limit.ts';
import { DEMONSTRATION_SHEET } from '../../src/limits/demonstration-sheet.ts';
import type { Limit, LimitCondition, LimitSheet, SpeedChart, Window } from '../../src/limits/limit-sheet.ts';
import { parseLimitSheet } from '../../src/limits/parse-limit-sheet.ts';
import { compareSerials, sheetCovers } from '../../src/limits/serial-range.ts';
import { sheetMistakes } from '../../src/limits/sheet-mistakes.ts';
import { describeProblem } from '../../src/problems/problem.ts';

const number = fc.double({ min: 0, max: 1000, noNaN: true, noDefaultInfinity: true });
const word = fc.string({ minLength: 1, maxLength: 12 });
const maybe = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(value, { nil: null });

const condition: fc.Arbitrary<LimitCondition> = fc
  .record({
    signal: fc.constantFrom(
      'fuelTemperature' as const,
      'coolantTemperature' as const,
      'batteryVoltage' as const,
      'railPressure' as const,
    ),
    low: number,
    width: number,
    open: fc.constantFrom('min', 'max', 'none'),
    outside: fc.constantFrom('warn' as const, 'not valid' as const),
  })
  .map(({ signal, low, width, open, outside }) => ({
    signal,
    min: open === 'min' ? null : low,
    max: open === 'max' ? null : low + width,
    outside,
  }));

/** Three curves one above the other over the same speeds: sound by design. */
const chart: fc.Arbitrary<SpeedChart> = fc
  .record({
    steps: fc.array(fc.tuple(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 0, max: 90 })), {
      minLength: 2,
      maxLength: 6,
    }),
    band: fc.integer({ min: 0, max: 80 }),
    high: maybe(fc.integer({ min: 1, max: 200 })),
    cranks: fc.integer({ min: 1, max: 10 }),
    crankSeconds: fc.double({ min: 0.5, max: 30, noNaN: true }),
    join: fc.constantFrom('straight' as const, 'monotone cubic' as const),
    speedAverage: fc.constantFrom('time-weighted' as const, 'samples' as const),
    conditions: fc.array(condition, { maxLength: 3 }),
  })
  .map(({ steps, band, high, ...rest }) => {
    let [speed, volume] = [60, 20];
    const base = steps.map(([step, rise]) => [(speed += step), (volume += rise)] as [number, number]);
    const raised = (by: number) => base.map(([at, height]) => [at, height + by] as [number, number]);
    return {
      kind: 'speed chart' as const,
      check: 'crank-delivery',
      title: 'Made up',
      timeTolerancePercent: 5,
      ...rest,
      failBelow: base,
      passAbove: raised(band),
      failAbove: high === null ? null : raised(band + high),
    };
  });

const window: fc.Arbitrary<Window> = fc
  .record({
    low: number,
    width: number,
    seconds: maybe(fc.double({ min: 1, max: 60, noNaN: true })),
    check: word,
  })
  .map(({ low, width, seconds, check }) => ({
    kind: 'window' as const,
    check: `window ${check}`,
    title: 'Made up',
    quantity: 'volume' as const,
    min: low,
    max: low + width,
    durationSeconds: seconds,
    conditions: [],
  }));

const limits: fc.Arbitrary<Limit[]> = fc.tuple(chart, window).map(([one, other]) => [one, other]);
const sheets: fc.Arbitrary<LimitSheet> = fc
  .record({ limits, title: word, engineFamily: word, revision: word, readFrom: word, invented: fc.boolean() })
  .map((change) => ({ ...DEMONSTRATION_SHEET, ...change }));

describe('a sound sheet', () => {
  it('is read as it stands, and a sheet that was read survives being written as JSON and read again', () => {
    fc.assert(
      fc.property(sheets, (sheet) => {
        const first = parseLimitSheet(sheet);
        expect(first).toEqual({ ok: true, value: sheet });
        if (!first.ok) return;
        const again = parseLimitSheet(JSON.parse(JSON.stringify(first.value)));
        expect(again).toEqual(first);
      }),
    );
  });

  it('does not change the value it was read from', () => {
    fc.assert(
      fc.property(sheets, (sheet) => {
        const before = JSON.stringify(sheet);
        parseLimitSheet(sheet);
        expect(JSON.stringify(sheet)).toBe(before);
      }),
    );
  });

  it('gives every one of its limits by the name of its check, and no other', () => {
    fc.assert(
      fc.property(sheets, word, (sheet, other) => {
        for (const limit of sheet.limits) {
          const chosen = chooseLimit(sheet, limit.check);
          expect(chosen.ok && chosen.value.limit).toEqual(limit);
        }
        const known = sheet.limits.some(({ check }) => check === other);
        expect(chooseLimit(sheet, other).ok).toBe(known);
      }),
    );
  });

  it('with failBelow and passAbove exchanged is refused wherever the band has any height', () => {
    fc.assert(
      fc.property(chart, (one) => {
        const turned = { ...one, failBelow: one.passAbove, passAbove: one.failBelow, failAbove: null };
        const apart = (one.passAbove[0]?.[1] ?? NaN) > (one.failBelow[0]?.[1] ?? NaN);
        const mistakes = sheetMistakes({ ...DEMONSTRATION_SHEET, limits: [turned] }).map(({ code }) => code);
        expect(mistakes).toEqual(apart ? ['limit.curves-cross'] : []);
      }),
    );
  });

  it('keeps its curves in order at every speed that all of them know', () => {
    fc.assert(
      fc.property(chart, fc.double({ min: 0, max: 1, noNaN: true }), (one, part) => {
        const curves = [one.failBelow, one.passAbove, ...(one.failAbove ? [one.failAbove] : [])];
        const range = commonRange(curves);
        expect(range).toEqual(curveRange(one.failBelow));
        if (!range) return;
        const speed = Math.min(range.toRpm, range.fromRpm + part * (range.toRpm - range.fromRpm));
        const at = curves.map((points) => boundaryAt(points, one.join, speed)?.volumeMl ?? NaN);
        at.slice(1).forEach((volume, index) =>
          expect(volume).toBeGreaterThanOrEqual((at[index] ?? NaN) - 1e-9),
        );
      }),
    );
  });
});

describe('any JSON at all', () => {
  it('never throws, and is refused with both texts whole', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (json) => {
        const parsed = parseLimitSheet(json);
        expect(parsed.ok).toBe(false);
        if (parsed.ok) return;
        const { message, remedy } = describeProblem(parsed.problem);
        expect(message + remedy).not.toMatch(/\{\w+\}|undefined|\[object/);
      }),
      { numRuns: 300 },
    );
  });

  it('in place of any entry of a sound sheet never throws; what is read can be written and read again', () => {
    const keys = fc.constantFrom(...Object.keys(DEMONSTRATION_SHEET));
    const inner = fc.constantFrom(
      'failBelow',
      'passAbove',
      'failAbove',
      'conditions',
      'cranks',
      'join',
      'check',
      'kind',
    );
    fc.assert(
      fc.property(
        sheets,
        fc.tuple(keys, inner),
        fc.boolean(),
        fc.jsonValue(),
        (sheet, [key, part], deep, by) => {
          const [first, ...others] = sheet.limits;
          const changed = deep
            ? { ...sheet, limits: [{ ...first, [part]: by }, ...others] }
            : { ...sheet, [key]: by };
          const parsed = parseLimitSheet(changed);
          if (parsed.ok) {
            expect(sheetMistakes(parsed.value)).toEqual([]);
            expect(parseLimitSheet(JSON.parse(JSON.stringify(parsed.value)))).toEqual(parsed);
          } else {
            expect(describeProblem(parsed.problem).message.length).toBeGreaterThan(20);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('serial numbers', () => {
  const serial = fc.stringMatching(/^[A-Ca-c0-9 -]{0,8}$/);

  it('have an order: exchanged it turns round, and it carries on', () => {
    fc.assert(
      fc.property(serial, serial, serial, (a, b, c) => {
        expect(Math.sign(compareSerials(a, b))).toBe(-Math.sign(compareSerials(b, a)) + 0);
        expect(compareSerials(a, a)).toBe(0);
        if (compareSerials(a, b) <= 0 && compareSerials(b, c) <= 0)
          expect(compareSerials(a, c)).toBeLessThanOrEqual(0);
      }),
    );
  });

  it('of digits alone are ordered as the numbers they are', () => {
    const digits = fc.integer({ min: 0, max: 99_999 });
    fc.assert(
      fc.property(digits, digits, (a, b) => {
        expect(Math.sign(compareSerials(String(a), String(b).padStart(7, '0')))).toBe(Math.sign(a - b));
      }),
    );
  });

  it('are covered by a wider range wherever a narrower one covers them', () => {
    fc.assert(
      fc.property(serial, serial, serial, (from, to, one) => {
        const covers = (low: string | null, high: string | null) =>
          sheetCovers({ serialRanges: [{ from: low, to: high }] }, one);
        if (covers(from, to)) expect([covers(null, to), covers(from, null)]).toEqual([true, true]);
        expect(covers(null, null)).toBe(true);
      }),
    );
  });
});
