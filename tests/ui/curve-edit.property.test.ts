import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  beginEdit,
  cellNumber,
  CURVE_NAMES,
  inOrder,
  stepEdit,
  type CurveAction,
  type CurveEdit,
} from '../../src/ui/curve-edit.ts';
import { readCurves } from '../../src/ui/curve-reading.ts';
import { DRAFT } from './sheet-samples.ts';

const curve = fc.constantFrom(...CURVE_NAMES);
const index = fc.integer({ min: -1, max: 6 });
const cell = fc.oneof(
  fc.integer({ min: -5, max: 400 }).map(String),
  fc.constantFrom('', 'x', '12,5', '.', '1e3'),
);
const number = fc.oneof(fc.double({ min: -50, max: 600 }), fc.constantFrom(NaN, Infinity, -Infinity));
const change: fc.Arbitrary<CurveAction> = fc.oneof(
  fc.record({
    do: fc.constant('type' as const),
    curve,
    index,
    field: fc.constantFrom('speed' as const, 'volume' as const),
    text: cell,
  }),
  fc.record({
    do: fc.constant('move' as const),
    curve,
    index,
    speed: number,
    volume: number,
    gesture: fc.constantFrom('a', 'b'),
  }),
  fc.record({ do: fc.constant('insert' as const), curve, index }),
  fc.record({ do: fc.constant('remove' as const), curve, index }),
  fc.record({ do: fc.constant('leave' as const), curve }),
  fc.record({
    do: fc.constant('join' as const),
    join: fc.constantFrom('straight' as const, 'monotone cubic' as const),
  }),
);
const any = fc.oneof(
  { weight: 5, arbitrary: change },
  { weight: 2, arbitrary: fc.constantFrom<CurveAction>({ do: 'undo' }, { do: 'redo' }) },
);
const after = (actions: readonly CurveAction[], from: CurveEdit = beginEdit(DRAFT)) =>
  actions.reduce(stepEdit, from);
const times = (count: number, action: CurveAction) => Array.from({ length: count }, () => action);

describe('editing curves, whatever is done', () => {
  test('undo to the end gives the first draft, redo to the end the last', () => {
    fc.assert(
      fc.property(fc.array(change, { maxLength: 60 }), (actions) => {
        const edit = after(actions);
        const steps = edit.past.length;
        const back = after(times(steps, { do: 'undo' }), edit);
        expect(back.draft).toBe(DRAFT);
        expect(after(times(steps, { do: 'redo' }), back).draft).toBe(edit.draft);
      }),
    );
  });

  test('one undo after a change gives a draft that stood before, and its redo the changed one', () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 40 }), change, (actions, last) => {
        const before = after(actions);
        const edit = stepEdit(before, last);
        if (edit.draft === before.draft) return;
        const back = stepEdit(edit, { do: 'undo' });
        expect([before.draft, ...before.past]).toContain(back.draft);
        expect(stepEdit(back, { do: 'redo' }).draft).toBe(edit.draft);
      }),
    );
  });

  test('a change forgets what could be redone', () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 40 }), change, (actions, last) => {
        const before = after(actions);
        const edit = stepEdit(before, last);
        if (edit.draft !== before.draft) expect(edit.future).toEqual([]);
      }),
    );
  });

  test('leaving a table gives rising readable speeds, keeps every row and is done once', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ speed: cell, volume: cell }), { maxLength: 12 }), (rows) => {
        const sorted = inOrder(rows);
        const speeds = sorted.map(({ speed }) => cellNumber(speed));
        const readable = speeds.filter((speed) => !Number.isNaN(speed));
        expect(readable).toEqual(readable.toSorted((a, b) => a - b));
        expect(speeds.slice(readable.length).every(Number.isNaN)).toBe(true);
        expect(new Set(sorted)).toEqual(new Set(rows));
        expect(inOrder(sorted)).toBe(sorted);
      }),
    );
  });

  test('dragging never makes a mistake of order or sign in a chart without mistakes', () => {
    const drag = fc.record({
      do: fc.constant('move' as const),
      curve,
      index,
      speed: number,
      volume: number,
      gesture: fc.constantFrom('a', 'b'),
    });
    fc.assert(
      fc.property(fc.array(drag, { maxLength: 40 }), (drags) => {
        const { mistakes } = readCurves(after(drags).draft);
        expect(mistakes.filter(({ words }) => !/near .* rpm|share no speeds/.test(words))).toEqual([]);
      }),
    );
  });

  test('reading a draft gives a chart or a mistake, never both and never neither', () => {
    fc.assert(
      fc.property(fc.array(any, { maxLength: 40 }), (actions) => {
        const { chart, mistakes } = readCurves(after(actions).draft);
        expect(chart === null).toBe(mistakes.length > 0);
      }),
    );
  });
});
