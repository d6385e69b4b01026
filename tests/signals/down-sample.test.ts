import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { downSample, type DrawWindow } from '../../src/signals/down-sample.ts';
import { append, columns, createTrace } from '../../src/signals/growing-trace.ts';

type Pair = readonly [atMs: number, value: number];
const traceOf = (...pairs: Pair[]) =>
  columns(
    append(
      createTrace(),
      pairs.map(([atMs, value]) => ({ atMs, value, quality: Number.isNaN(value) ? 2 : 0 })),
    ),
  );
const WINDOW: DrawWindow = { fromMs: 0, toMs: 100, pixels: 10, staleMs: 1000 };
const drawn = (pairs: readonly Pair[], window: Partial<DrawWindow> = {}) =>
  downSample(traceOf(...pairs), { ...WINDOW, ...window });

describe('a single sample', () => {
  test.each([0, 50, 100])('at %s ms of a window from 0 to 100 is drawn', (atMs) => {
    expect(drawn([[atMs, 7]])).toEqual({ x: [atMs], y: [7] });
  });
  test.each([-1, 101])('at %s ms, outside, is not', (atMs) => {
    expect(drawn([[atMs, 7]])).toEqual({ x: [], y: [] });
  });
  test('in a window of one instant is drawn', () => {
    expect(drawn([[50, 7]], { fromMs: 50, toMs: 50 })).toEqual({ x: [50], y: [7] });
  });
  test('without a number gives a null, not a zero', () => {
    expect(drawn([[50, NaN]]).y).not.toContain(0);
    expect(drawn([[50, NaN]]).y.filter((y) => y !== null)).toEqual([]);
  });
});

describe('the edges', () => {
  const line: readonly Pair[] = [
    [-20, 1],
    [-10, 2],
    [5, 3],
    [95, 4],
    [110, 5],
    [120, 6],
  ];
  test('exactly one row before and one after are drawn', () => {
    expect(drawn(line)).toEqual({ x: [-10, 5, 95, 110], y: [2, 3, 4, 5] });
  });
  test('rows at the very ends belong to the window', () => {
    const at: readonly Pair[] = [
      [-10, 1],
      [0, 2],
      [100, 3],
      [110, 4],
    ];
    expect(drawn(at)).toEqual({ x: [-10, 0, 100, 110], y: [1, 2, 3, 4] });
  });
  test('a window between two rows is crossed by their line', () => {
    expect(
      drawn([
        [-10, 1],
        [110, 5],
      ]),
    ).toEqual({ x: [-10, 110], y: [1, 5] });
  });
  test('a neighbour without a number gives no number', () => {
    const { y } = drawn([
      [-10, NaN],
      [5, 3],
      [110, NaN],
    ]);
    expect(y.filter((each) => each !== null)).toEqual([3]);
  });
});

describe('pixel columns', () => {
  test('keep the smallest and the largest value at their own times, in the order of time', () => {
    const pairs: readonly Pair[] = [
      [0, 5],
      [2, 9],
      [4, 6],
      [6, 1],
      [9.9, 4],
    ];
    expect(drawn(pairs)).toEqual({ x: [2, 6], y: [9, 1] });
    expect(drawn(pairs.map(([atMs, value]) => [atMs, -value]))).toEqual({ x: [2, 6], y: [-9, -1] });
  });
  test('end before the next begins: a spike on the border is drawn once, with the column to its right', () => {
    const pairs: readonly Pair[] = [
      [9, 1],
      [10, 99],
      [11, 1],
      [19, 2],
    ];
    expect(drawn(pairs)).toEqual({ x: [9, 10, 11], y: [1, 99, 1] });
  });
  test.each([9.999, 10, 10.001, 89.999, 90, 99.999, 100])('a spike at %s ms is kept', (spikeMs) => {
    const times = [...Array.from({ length: 101 }, (_, i) => i).filter((ms) => ms !== spikeMs), spikeMs];
    const pairs = times.sort((a, b) => a - b).map((ms): Pair => [ms, ms === spikeMs ? 99 : 1]);
    const { x, y } = drawn(pairs);
    expect(x[y.indexOf(99)]).toBe(spikeMs);
    expect(y.filter((each) => each === 99)).toHaveLength(1);
  });
  test('of which all values are equal take one point, the first', () => {
    expect(
      drawn([
        [1, 4],
        [2, 4],
        [3, 4],
      ]),
    ).toEqual({ x: [1], y: [4] });
  });
  test('are counted in whole pixels', () => {
    const pairs: readonly Pair[] = Array.from({ length: 100 }, (_, ms) => [ms, ms % 2]);
    expect(drawn(pairs, { pixels: 2.9 })).toEqual(drawn(pairs, { pixels: 2 }));
  });
  test('skip what is missing beside a number', () => {
    expect(
      drawn([
        [1, NaN],
        [2, 4],
        [3, NaN],
      ]),
    ).toEqual({ x: [2], y: [4] });
  });
});

describe('holes', () => {
  const inTwo = (gapMs: number) =>
    drawn(
      [
        [0, 1],
        [gapMs, 2],
      ],
      { toMs: 5000, pixels: 100 },
    );
  test('exactly as long as the limit are none', () => {
    expect(inTwo(1000)).toEqual({ x: [0, 1000], y: [1, 2] });
  });
  test('a little longer break the line in their middle', () => {
    expect(inTwo(1002)).toEqual({ x: [0, 501, 1002], y: [1, null, 2] });
  });
  test('within a pixel column break the line too', () => {
    const { y } = drawn(
      [
        [0, 1],
        [2000, 2],
      ],
      { toMs: 5000, pixels: 1 },
    );
    expect(y).toEqual([1, null, 2]);
  });
  test('several in a row each break the line once', () => {
    const pairs: readonly Pair[] = [
      [0, 1],
      [2000, 2],
      [4000, 3],
    ];
    expect(drawn(pairs, { toMs: 5000, pixels: 100 }).y).toEqual([1, null, 2, null, 3]);
  });
  test('before a row that is not drawn still break the line', () => {
    // 2000 ms comes after a hole, but 2001 and 2002 are the extremes of the last column.
    const pairs: readonly Pair[] = [
      [0, 1],
      [2000, 2],
      [2001, 1],
      [2002, 3],
    ];
    expect(drawn(pairs, { toMs: 5000, pixels: 5 }).y).toEqual([1, null, 1, 3]);
  });
  test('between the last extreme of a column and the next column break the line, though the row after them is not drawn', () => {
    const pairs: readonly Pair[] = [
      [0, 1],
      [10, 3],
      [2000, 2],
      [2600, 2],
    ];
    expect(drawn(pairs, { toMs: 2500, pixels: 1 })).toEqual({
      x: [0, 10, 1305, 2600],
      y: [1, 3, null, 2],
    });
  });
  test('a missing row at the instant of the last one drawn breaks the line after it', () => {
    const pairs: readonly Pair[] = [
      [50, 1],
      [50, NaN],
      [110, 3],
    ];
    expect(drawn(pairs, { fromMs: 50, toMs: 50 })).toEqual({ x: [50, 80, 110], y: [1, null, 3] });
  });
  test('a run without numbers, however long, gives one null', () => {
    const missing = Array.from({ length: 30 }, (_, i): Pair => [10 + i, NaN]);
    const { x, y } = drawn([[5, 1], ...missing, [45, 2]]);
    expect(y).toEqual([1, null, 2]);
    expect(x).toEqual([5, 10, 45]);
  });
});

describe('two rows of one instant', () => {
  test('are both kept, at unlike x', () => {
    const { x, y } = drawn([
      [50, 1],
      [50, 9],
    ]);
    expect(y).toEqual([1, 9]);
    expect(x[0]).toBe(50);
    expect(x[1]).toBeGreaterThan(50);
    expect(x[1]! - 50).toBeLessThan(1e-9);
  });
  test('at zero too, where a relative step would vanish', () => {
    const { x } = drawn([
      [0, 1],
      [0, 9],
    ]);
    expect(x[1]).toBeGreaterThan(0);
  });
});

test('every window without width or pixels is empty: reversed, not a number, too narrow', () => {
  const pairs: readonly Pair[] = [[50, 1]];
  const bad: readonly Partial<DrawWindow>[] = [
    { fromMs: 60, toMs: 40 },
    { fromMs: NaN },
    { toMs: NaN },
    { pixels: 0 },
    { pixels: 0.5 },
    { pixels: -3 },
    { pixels: NaN },
  ];
  for (const window of bad) expect(drawn(pairs, window)).toEqual({ x: [], y: [] });
  expect(drawn([])).toEqual({ x: [], y: [] });
});

test('room beyond the rows is never drawn', () => {
  const trace = traceOf([10, 1], [20, 2], [30, 99]);
  expect(downSample({ ...trace, length: 2 }, WINDOW)).toEqual({ x: [10, 20], y: [1, 2] });
});

test('with a column for each row all rows are drawn as they are', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -5, max: 5 }), { maxLength: 101 }), (values) => {
      const pairs = values.map((value, ms): Pair => [ms, value]);
      const { x, y } = drawn(pairs, { pixels: 1000 });
      expect(x).toEqual(pairs.map(([ms]) => ms));
      expect(y).toEqual(values);
    }),
  );
});
