import { describe, expect, test } from 'vitest';
import { growingFloats } from '../../src/logs/growing-floats.ts';

describe('a column of numbers that grows', () => {
  test('is empty at first', () => {
    const column = growingFloats();
    expect(column.length()).toBe(0);
    expect([...column.take(0)]).toEqual([]);
  });

  test.each([1, 1023, 1024, 1025, 2048, 2049, 5000])('keeps %d numbers in order', (count) => {
    const column = growingFloats();
    for (let i = 0; i < count; i++) column.push(i / 4);
    expect(column.length()).toBe(count);
    expect([...column.take(count)]).toEqual(Array.from({ length: count }, (_, i) => i / 4));
  });

  test('hands out its first numbers only', () => {
    const column = growingFloats();
    for (const value of [1, 2, 3]) column.push(value);
    expect([...column.take(2)]).toEqual([1, 2]);
  });

  test('what was handed out does not change with what comes later', () => {
    const column = growingFloats();
    column.push(1);
    const taken = column.take(1);
    column.push(2);
    taken[0] = 9;
    expect([...column.take(2)]).toEqual([1, 2]);
  });

  test('keeps NaN and infinity, which stand for "no data" and blank', () => {
    const column = growingFloats();
    column.push(NaN);
    column.push(Infinity);
    expect([...column.take(2)]).toEqual([NaN, Infinity]);
  });

  test('two columns know nothing of each other', () => {
    const a = growingFloats();
    const b = growingFloats();
    a.push(1);
    expect(b.length()).toBe(0);
  });
});
