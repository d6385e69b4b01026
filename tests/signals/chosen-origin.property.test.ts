import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Reading } from '../../src/quantities/reading.ts';
import { millis } from '../../src/quantities/time.ts';
import {
  appendReading,
  chosenOrigin,
  createTraceSet,
  latest,
  originsOf,
  traceOf,
  type TraceSet,
} from '../../src/signals/trace-set.ts';

type Heard = readonly [origin: number, value: number | null];
const ORIGINS = [-1, 0, 1, 3, 11, 49, 255, 256, 259, 512, 65_280, 65_535];
const origin = fc.constantFrom(...ORIGINS);
const heard = fc.array(fc.tuple(origin, fc.option(fc.nat(40), { freq: 2 })), { maxLength: 40 });
const SIGNAL = 'batteryVoltage';

const reading = ([from, value]: Heard, i: number): Reading => ({
  signal: SIGNAL,
  atMs: millis(i),
  value,
  quality: value === null ? 'notAvailable' : 'valid',
  origin: from,
});
const setOf = (rows: readonly Heard[]): TraceSet => rows.map(reading).reduce(appendReading, createTraceSet());

/** Address 00 of any channel, by the definition of an origin (channel * 256 + address). */
const ENGINES = [0, 256, 512, 65_280];

/** The rule in words, step by step, over plain lists. */
function expected(rows: readonly Heard[], preference?: number): number | null {
  const all = [...new Set(rows.map(([from]) => from))];
  if (preference !== undefined && all.includes(preference)) return preference;
  const numbers = all.filter((each) => rows.some(([from, value]) => from === each && value !== null));
  const engines = numbers.filter((each) => ENGINES.includes(each));
  if (engines.length > 0) return Math.min(...engines);
  if (numbers.length > 0) return Math.min(...numbers);
  return all.find((each) => ENGINES.includes(each)) ?? all[0] ?? null;
}

describe('the chosen origin', () => {
  test('is the one that the rule names', () => {
    fc.assert(
      fc.property(heard, fc.option(origin, { nil: undefined }), (rows, preference) => {
        expect(chosenOrigin(setOf(rows), SIGNAL, preference)).toBe(expected(rows, preference));
      }),
      { numRuns: 300 },
    );
  });

  test('is always one that was heard', () => {
    fc.assert(
      fc.property(heard, origin, (rows, preference) => {
        const chosen = chosenOrigin(setOf(rows), SIGNAL, preference);
        if (rows.length === 0) expect(chosen).toBeNull();
        else expect(rows.map(([from]) => from)).toContain(chosen);
      }),
    );
  });

  test('stays the preference for as long as data arrive, once that was heard', () => {
    fc.assert(
      fc.property(heard, heard, origin, (before, after, preference) => {
        const set = setOf([...before, [preference, null], ...after]);
        expect(chosenOrigin(set, SIGNAL, preference)).toBe(preference);
      }),
    );
  });

  test('stays an engine once an engine gave a number, and moves only to a lower channel', () => {
    fc.assert(
      fc.property(heard, heard, (before, after) => {
        const then = chosenOrigin(setOf([...before, [256, 12]]), SIGNAL);
        const now = chosenOrigin(setOf([...before, [256, 12], ...after]), SIGNAL);
        expect(ENGINES).toContain(now);
        expect(now).toBeLessThanOrEqual(then!);
      }),
    );
  });

  test('does not move while only origins that were heard before send on, whatever they send', () => {
    fc.assert(
      fc.property(heard, fc.array(fc.nat(39)), (rows, picks) => {
        const numbered = rows.map(([from]): Heard => [from, 1]);
        const more = picks.flatMap((pick): Heard[] =>
          rows.length === 0 ? [] : [[rows[pick % rows.length]![0], pick % 2 ? null : 7]],
        );
        const set = setOf(numbered);
        expect(chosenOrigin(setOf([...numbered, ...more]), SIGNAL)).toBe(chosenOrigin(set, SIGNAL));
      }),
    );
  });

  test('does not depend on the order heard where any number came', () => {
    fc.assert(
      fc.property(heard, (rows) => {
        fc.pre(rows.some(([, value]) => value !== null));
        expect(chosenOrigin(setOf(rows.toReversed()), SIGNAL)).toBe(chosenOrigin(setOf(rows), SIGNAL));
      }),
    );
  });

  test('does not look at other signals', () => {
    fc.assert(
      fc.property(heard, heard, (rows, others) => {
        const set = others
          .map((each, i): Reading => ({ ...reading(each, i), signal: 'keySwitchVoltage' }))
          .reduce(appendReading, setOf(rows));
        expect(chosenOrigin(set, SIGNAL)).toBe(expected(rows));
        expect(originsOf(set, SIGNAL)).toEqual(originsOf(setOf(rows), SIGNAL));
      }),
    );
  });
});

describe('what is read', () => {
  test('is never mixed: the trace of an origin holds its own values and no other', () => {
    fc.assert(
      fc.property(heard, (rows) => {
        const set = setOf(rows);
        for (const each of ORIGINS) {
          const { length, value } = traceOf(set, SIGNAL, each);
          const mine = rows.filter(([from]) => from === each).map(([, number]) => number ?? NaN);
          expect([...value.subarray(0, length)]).toEqual(mine);
        }
      }),
    );
  });

  test('last is the last of the chosen origin, not the last that came', () => {
    fc.assert(
      fc.property(heard, fc.option(origin, { nil: undefined }), (rows, preference) => {
        const set = setOf(rows);
        const chosen = chosenOrigin(set, SIGNAL, preference);
        const at = rows.findLastIndex(([from]) => from === chosen);
        expect(latest(set, SIGNAL, preference)).toEqual(at < 0 ? null : reading(rows[at]!, at));
      }),
    );
  });
});
