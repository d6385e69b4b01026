import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { frozen, listOf, movedRange, NO_MATCHES, stepMatches } from '../../src/ui/raw-monitor-list.ts';
import { monitorRing } from '../../src/ui/raw-monitor-ring.ts';
import type { MonitorRow, MonitorSource } from '../../src/ui/raw-monitor-row.ts';

const rowOf = (at: number): MonitorRow => ({ kind: 'note', time: '', text: `${at}`, reason: '' });
const numberOf = (row: MonitorRow) => ('text' in row ? Number(row.text) : NaN);
const even = (row: MonitorRow) => numberOf(row) % 2 === 0;
const ring = (pushed: number, capacity: number) => {
  const made = monitorRing(capacity, rowOf);
  for (let at = 0; at < pushed; at += 1) made.push(at);
  return made;
};
const numbers = (source: MonitorSource) => {
  const list = listOf(source, null);
  return Array.from({ length: list.length }, (_, at) => numberOf(list.rowAt(at)));
};

describe('monitorRing', () => {
  test('holds the newest, numbered since the beginning, whatever the capacity', () => {
    fc.assert(
      fc.property(fc.nat(60), fc.integer({ min: 1, max: 20 }), (pushed, capacity) => {
        const { source } = ring(pushed, capacity);
        const first = Math.max(0, pushed - capacity);
        expect([source.count(), source.first?.()]).toEqual([pushed, first]);
        expect(numbers(source)).toEqual(Array.from({ length: pushed - first }, (_, at) => first + at));
      }),
    );
  });

  test('a frozen view stays while the ring goes on', () => {
    const made = ring(30, 10);
    const still = frozen(made.source);
    for (let at = 30; at < 47; at += 1) made.push(at);
    expect(numbers(still)).toEqual([20, 21, 22, 23, 24, 25, 26, 27, 28, 29]);
    expect(numbers(made.source)).toEqual([37, 38, 39, 40, 41, 42, 43, 44, 45, 46]);
  });

  test('describes a row only when it is looked at', () => {
    const looked: number[] = [];
    const made = monitorRing(10, (at: number) => {
      looked.push(at);
      return rowOf(at);
    });
    for (let at = 0; at < 100; at += 1) made.push(at);
    expect(looked).toEqual([]);
    made.source.row(95);
    expect(looked).toEqual([95]);
  });
});

describe('frozen, of a source that cannot freeze', () => {
  test('says which rows have gone instead of showing others in their place', () => {
    const { push, source } = ring(12, 10);
    const bare: MonitorSource = {
      count: source.count,
      row: source.row,
      first: () => source.first?.() ?? 0,
    };
    const still = frozen(bare);
    for (let at = 12; at < 15; at += 1) push(at);
    expect([still.first?.(), still.count()]).toEqual([2, 12]);
    expect(still.row(4)).toMatchObject({ text: 'No longer held' });
    expect(numberOf(still.row(5))).toBe(5);
  });

  test('a source without first holds everything', () => {
    const bare: MonitorSource = { count: () => 3, row: rowOf };
    expect(numbers(frozen(bare))).toEqual([0, 1, 2]);
  });
});

describe('stepMatches', () => {
  test('finds the same rows in any budget, never looking through more than it', () => {
    fc.assert(
      fc.property(
        fc.nat(80),
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 9 }),
        (pushed, capacity, budget) => {
          const { source } = ring(pushed, capacity);
          const looked: number[] = [];
          const fits = (row: MonitorRow) => {
            looked.push(numberOf(row));
            return even(row);
          };
          let matches = NO_MATCHES;
          for (let turn = 0; turn < 200 && matches.scanned < pushed; turn += 1) {
            const before = looked.length;
            matches = stepMatches(matches, source, fits, budget);
            expect(looked.length - before).toBeLessThanOrEqual(budget);
          }
          expect(matches.numbers).toEqual(numbers(source).filter((at) => at % 2 === 0));
          expect(looked).toEqual(numbers(source));
        },
      ),
    );
  });

  test('knows where a row stands, by its number', () => {
    const { source } = ring(30, 10);
    const all = listOf(source, null);
    const evens = listOf(source, stepMatches(NO_MATCHES, source, even, 100));
    for (let at = 0; at < all.length; at += 1) expect(all.positionOf(all.numberAt(at))).toBe(at);
    for (let at = 0; at < evens.length; at += 1) expect(evens.positionOf(evens.numberAt(at))).toBe(at);
    expect([all.positionOf(3), evens.positionOf(3)]).toEqual([0, 0]);
  });

  test('lets go of rows that are no longer held', () => {
    const made = ring(10, 10);
    const before = stepMatches(NO_MATCHES, made.source, even, 100);
    for (let at = 10; at < 15; at += 1) made.push(at);
    const after = stepMatches(before, made.source, even, 100);
    expect(before.numbers).toEqual([0, 2, 4, 6, 8]);
    expect(after).toEqual({ numbers: [6, 8, 10, 12, 14], scanned: 15 });
    expect(listOf(made.source, after).length).toBe(5);
    expect(numberOf(listOf(made.source, after).rowAt(1))).toBe(8);
  });
});

describe('movedRange', () => {
  const at = { start: 30, page: 10, length: 100 };
  const here = { anchor: 50, cursor: 50 };

  test.each([
    ['ArrowUp', 49],
    ['ArrowDown', 51],
    ['PageUp', 40],
    ['PageDown', 60],
    ['Home', 0],
    ['End', 99],
  ])('%s goes to %d, with Shift from where it began', (key, cursor) => {
    expect(movedRange(key, here, false, at)).toEqual({ anchor: cursor, cursor });
    expect(movedRange(key, here, true, at)).toEqual({ anchor: 50, cursor });
  });

  test('begins at the start, stays within the list, and knows no other key', () => {
    expect(movedRange('ArrowUp', null, true, at)).toEqual({ anchor: 30, cursor: 30 });
    expect(movedRange('ArrowDown', { anchor: 0, cursor: 99 }, true, at)).toEqual({ anchor: 0, cursor: 99 });
    expect(movedRange('PageUp', { anchor: 3, cursor: 3 }, false, at)).toEqual({ anchor: 0, cursor: 0 });
    expect(movedRange('x', here, false, at)).toBeNull();
    expect(movedRange('ArrowUp', here, false, { ...at, length: 0 })).toBeNull();
  });
});
