import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SIGNAL_IDS } from '../../src/quantities/reading.ts';
import type { ReadingBatch } from '../../src/signals/reading-batch.ts';
import {
  appendReadings,
  createTraceSet,
  originsOf,
  traceOf,
  type TraceSet,
} from '../../src/signals/trace-set.ts';

interface Row {
  readonly signal: number;
  readonly origin: number;
  readonly atMs: number;
  readonly value: number;
}

const ORIGINS = [-1, 0, 3, 49, 256, 65_535];
const rows = fc.array(
  fc.record({
    signal: fc.nat(SIGNAL_IDS.length - 1),
    origin: fc.constantFrom(...ORIGINS),
    atMs: fc.oneof({ weight: 9, arbitrary: fc.nat(5000) }, fc.constant(NaN)),
    value: fc.oneof(fc.nat(1000), fc.constant(NaN)),
  }),
  { maxLength: 300, size: 'max' },
);

const batchOf = (some: readonly Row[]): ReadingBatch => ({
  count: some.length,
  signal: Uint8Array.from(some, ({ signal }) => signal),
  atMs: Float64Array.from(some, ({ atMs }) => atMs),
  value: Float64Array.from(some, ({ value }) => value),
  quality: Uint8Array.from(some, ({ value }) => (Number.isNaN(value) ? 2 : 0)),
  origin: Int32Array.from(some, ({ origin }) => origin),
});

const held = (set: TraceSet) =>
  SIGNAL_IDS.flatMap((id) =>
    ORIGINS.map((origin) => {
      const { length, atMs, value, quality } = traceOf(set, id, origin);
      return [atMs, value, quality].map((column) => [...column.subarray(0, length)]);
    }),
  );

test('each trace holds exactly the rows of its signal and origin, in order, with time that never falls', () => {
  fc.assert(
    fc.property(rows, (some) => {
      const set = appendReadings(createTraceSet(), batchOf(some));
      SIGNAL_IDS.forEach((id, signal) => {
        for (const origin of ORIGINS) {
          const mine = some.filter((row) => row.signal === signal && row.origin === origin && row.atMs >= 0);
          const { length, atMs, value } = traceOf(set, id, origin);
          expect([...value.subarray(0, length)]).toEqual(mine.map((row) => row.value));
          let lastMs = 0;
          expect([...atMs.subarray(0, length)]).toEqual(
            mine.map((row) => (lastMs = Math.max(lastMs, row.atMs))),
          );
          const everValid = mine.some((row) => !Number.isNaN(row.value));
          const listed = originsOf(set, id).find((each) => each.origin === origin);
          expect(listed).toEqual(mine.length > 0 ? { origin, everValid } : undefined);
        }
      });
    }),
    { numRuns: 40 },
  );
});

test('batches cut anyhow give the same traces, and each older set still reads what it held', () => {
  fc.assert(
    fc.property(
      rows,
      fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 9 }),
      (some, cuts) => {
        let set = createTraceSet();
        const older: [TraceSet, unknown][] = [];
        for (let at = 0, i = 0; at < some.length; at += cuts[i++ % cuts.length]!) {
          set = appendReadings(set, batchOf(some.slice(at, at + cuts[i % cuts.length]!)));
          older.push([set, held(set)]);
        }
        appendReadings(older[0]?.[0] ?? set, batchOf(some)); // goes on from an old set, beside the others
        expect(held(set)).toEqual(held(appendReadings(createTraceSet(), batchOf(some))));
        for (const [each, then] of older) expect(held(each)).toEqual(then);
      },
    ),
    { numRuns: 25 },
  );
});

test('a batch in which no row has a time adds no origin', () => {
  const set = appendReadings(createTraceSet(), batchOf([{ signal: 0, origin: 0, atMs: NaN, value: 1 }]));
  expect(originsOf(set, 'engineSpeed')).toEqual([]);
});
