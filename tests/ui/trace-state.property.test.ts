import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Pixel } from '../../src/tracing/pixel.ts';
import {
  beginTrace,
  CURVE_NAMES,
  stepTrace,
  type TraceAction,
  type TraceSpot,
  type TraceState,
} from '../../src/ui/trace-state.ts';

const PICTURE = { width: 800, height: 600 };
const side = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
const place: fc.Arbitrary<Pixel> = fc.record({ x: side(800), y: side(600) });
const index = fc.integer({ min: 0, max: 6 });
const axis = fc.constantFrom('x' as const, 'y' as const);
const curve = fc.constantFrom(...CURVE_NAMES);
const spot: fc.Arbitrary<TraceSpot> = fc.oneof(
  fc.record({ kind: fc.constant('corner' as const), index }),
  fc.record({ kind: fc.constant('mark' as const), axis, index }),
  fc.record({ kind: fc.constant('point' as const), curve, index }),
);
const action: fc.Arbitrary<TraceAction> = fc.oneof(
  fc.record({ type: fc.constant('step' as const), step: fc.constantFrom('corners', 'axes', 'curves') }),
  fc.record({ type: fc.constantFrom('take straight', 'square up') }),
  fc.record({ type: fc.constant('choose axis' as const), axis }),
  fc.record({ type: fc.constant('scale' as const), axis, kind: fc.constantFrom('linear', 'log') }),
  fc.record({ type: fc.constantFrom('add mark', 'add point'), at: place }),
  fc.record({ type: fc.constant('type' as const), axis, index, text: fc.string({ maxLength: 4 }) }),
  fc.record({ type: fc.constant('choose curve' as const), curve }),
  fc.record({
    type: fc.constant('replace curve' as const),
    curve,
    places: fc.array(place, { maxLength: 4 }),
  }),
  fc.record({ type: fc.constant('select' as const), spot: fc.option(spot) }),
  fc.record({
    type: fc.constant('move' as const),
    spot,
    at: place,
    gesture: fc.constantFrom(null, 'drag 1', 'drag 2'),
  }),
  fc.record({ type: fc.constant('remove' as const), spot }),
) as fc.Arbitrary<TraceAction>;
const actions = fc.array(action, { maxLength: 40 });
const run = (state: TraceState, list: readonly TraceAction[]) => list.reduce(stepTrace, state);
const times = (type: 'undo' | 'redo', count: number): TraceAction[] =>
  Array.from({ length: count }, () => ({ type }));

/** What was made, without what is only looked at. */
const made = ({ history: { now } }: TraceState) => ({
  corners: now.corners,
  straight: now.straight,
  axes: now.axes,
  curves: now.curves,
});

function isThere({ history: { now }, selected }: TraceState): boolean {
  if (!selected) return true;
  if (selected.kind === 'corner') return selected.index in now.corners;
  if (selected.kind === 'mark') return selected.index in now.axes[selected.axis].marks;
  return selected.index in now.curves[selected.curve];
}

describe('whatever a person does to a picture', () => {
  test('undone to the beginning nothing is left of it, and redone all of it is there again', () => {
    fc.assert(
      fc.property(actions, (list) => {
        const begun = beginTrace(PICTURE);
        const after = run(begun, list);
        const back = run(after, times('undo', list.length));
        expect(made(back)).toEqual(made(begun));
        expect(back.history.past).toEqual([]);
        const again = run(back, times('redo', list.length));
        expect(made(again)).toEqual(made(after));
        expect(again.history.future).toEqual([]);
      }),
    );
  });

  test('what is held is always there, through every undo', () => {
    fc.assert(
      fc.property(actions, actions, (first, second) => {
        let state = beginTrace(PICTURE);
        for (const each of [
          ...first,
          ...times('undo', 3),
          ...second,
          ...times('redo', 2),
          ...times('undo', 5),
        ]) {
          state = stepTrace(state, each);
          expect(isThere(state)).toBe(true);
        }
      }),
    );
  });

  test('moving corners leaves marks and points where they are, and the frame has four corners', () => {
    fc.assert(
      fc.property(actions, fc.array(place, { minLength: 1, maxLength: 4 }), (list, to) => {
        const before = run(beginTrace(PICTURE), list);
        const moves = to.map((at, which): TraceAction => ({
          type: 'move',
          spot: { kind: 'corner', index: which },
          at,
          gesture: null,
        }));
        const after = run(before, moves);
        expect(after.history.now.axes).toBe(before.history.now.axes);
        expect(after.history.now.curves).toBe(before.history.now.curves);
        expect(after.history.now.corners).toHaveLength(4);
        expect(after.history.now.corners.slice(0, to.length)).toEqual(to);
      }),
    );
  });

  test('a step changes no earlier state', () => {
    fc.assert(
      fc.property(actions, action, (list, next) => {
        const before = run(beginTrace(PICTURE), list);
        const copy = structuredClone(before);
        stepTrace(before, next);
        expect(before).toEqual(copy);
      }),
    );
  });
});
