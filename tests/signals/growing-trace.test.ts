import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  append,
  columns,
  createTrace,
  lowerBound,
  putRow,
  traceFrom,
  writerOf,
  type Trace,
  type TraceRow,
} from '../../src/signals/growing-trace.ts';

const row = (atMs: number, value = atMs, quality = 0): TraceRow => ({ atMs, value, quality });
const rowsTo = (n: number) => Array.from({ length: n }, (_, i) => row(i));
const read = (trace: Trace) => {
  const { length, atMs, value, quality } = columns(trace);
  return Array.from({ length }, (_, i) => row(atMs[i]!, value[i], quality[i]));
};

describe('growing', () => {
  test.each([0, 1, 63, 64, 65, 127, 128, 129, 1000])('%i rows are held as they came', (n) => {
    expect(read(append(createTrace(), rowsTo(n)))).toEqual(rowsTo(n));
  });
  test('each column keeps its own: time, value and quality are not swapped', () => {
    expect(read(append(createTrace(), [row(1, 20, 0), row(3, NaN, 1), row(4, NaN, 2)]))).toEqual([
      row(1, 20, 0),
      row(3, NaN, 1),
      row(4, NaN, 2),
    ]);
  });
  test('qualities survive a move to larger columns', () => {
    const some = Array.from({ length: 200 }, (_, i) => row(i, i, i % 3));
    expect(read(append(createTrace(), some))).toEqual(some);
  });
  test('row by row is the same as all at once', () => {
    const single = rowsTo(150).reduce((trace, each) => append(trace, [each]), createTrace());
    expect(read(single)).toEqual(read(append(createTrace(), rowsTo(150))));
  });
  test('rows one by one seldom move the columns: room doubles', () => {
    let trace = createTrace();
    const stores = new Set<unknown>();
    for (let i = 0; i < 4096; i++) {
      trace = append(trace, [row(i)]);
      stores.add(trace.store);
    }
    expect(stores.size).toBeLessThanOrEqual(8); // 64, 128 … 4096 is 7
    expect(columns(trace).atMs.length).toBeLessThanOrEqual(2 * 4096);
  });
});

describe('time', () => {
  test('that falls is set to the last, and the value is kept', () => {
    expect(read(append(createTrace(), [row(10, 1), row(5, 2), row(7, 3), row(11, 4)]))).toEqual([
      row(10, 1),
      row(10, 2),
      row(10, 3),
      row(11, 4),
    ]);
  });
  test('below zero is time like any other', () => {
    expect(read(append(createTrace(), [row(-10), row(-5)]))).toEqual([row(-10), row(-5)]);
  });
  test('that is missing leaves the row out, first or later', () => {
    const trace = append(createTrace(), [row(NaN, 1), row(1, 2), row(NaN, 3)]);
    expect(read(trace)).toEqual([row(1, 2)]);
    expect(append(createTrace(), [row(NaN, 1)]).everValid).toBe(false);
  });
});

describe('whether any number came', () => {
  test.each([
    [[], false],
    [[NaN], false],
    [[NaN, NaN], false],
    [[0], true],
    [[NaN, 5], true],
    [[5, NaN], true],
  ])('after %j is %s', (values, expected) => {
    const some = values.map((value, i) => row(i, value));
    expect(append(createTrace(), some).everValid).toBe(expected);
  });
  test('is not forgotten over batches, nor told to the older trace', () => {
    const silent = append(createTrace(), [row(0, NaN)]);
    const spoke = append(silent, [row(1, 1)]);
    expect([silent, spoke, append(spoke, [row(2, NaN)])].map(({ everValid }) => everValid)).toEqual([
      false,
      true,
      true,
    ]);
  });
});

describe('snapshots', () => {
  test('a tree of traces that go on from each other never meet', () => {
    const step = fc.record({ from: fc.nat(), values: fc.array(fc.integer(), { maxLength: 80 }) });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const traces = [createTrace()];
        const plain: TraceRow[][] = [[]];
        for (const { from, values } of steps) {
          const parent = from % traces.length;
          const atMs = plain[parent]!.length;
          const more = values.map((value, i) => row(atMs + i, value));
          traces.push(append(traces[parent]!, more));
          plain.push([...plain[parent]!, ...more]);
        }
        expect(traces.map(read)).toEqual(plain);
      }),
    );
  });
  test('nothing appended is the same rows', () => {
    const trace = append(createTrace(), rowsTo(3));
    expect(read(append(trace, []))).toEqual(rowsTo(3));
  });
  test('a writer does not move the trace it began from', () => {
    const trace = append(createTrace(), rowsTo(3));
    const writer = writerOf(trace);
    putRow(writer, 3, 3, 0);
    expect([trace.length, traceFrom(writer).length]).toEqual([3, 4]);
    expect(read(trace)).toEqual(rowsTo(3));
  });
});

test('lowerBound is the count of earlier times, as a plain count says', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -9, max: 9 })), fc.integer({ min: -10, max: 10 }), (some, t) => {
      const times = Float64Array.from(some).sort();
      expect(lowerBound(times, times.length, t)).toBe(some.filter((each) => each < t).length);
    }),
  );
});
