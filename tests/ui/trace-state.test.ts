import { describe, expect, test } from 'vitest';
import { beginHistory, historyKey, redo, remember, undo } from '../../src/ui/picture-history.ts';
import { spotId, spotOfId } from '../../src/ui/trace-scene.ts';
import { beginTrace, stepTrace, type TraceAction, type TraceSpot } from '../../src/ui/trace-state.ts';

const begun = beginTrace({ width: 1000, height: 500 });
const run = (...actions: TraceAction[]) => actions.reduce(stepTrace, begun);
const at = { x: 10, y: 20 };

test('a picture begins with handles a little inside its corners', () => {
  expect(begun.history.now.corners).toEqual([
    { x: 80, y: 40 },
    { x: 920, y: 40 },
    { x: 920, y: 460 },
    { x: 80, y: 460 },
  ]);
});

describe('undo', () => {
  test('takes a whole drag back at once, and the next drag by itself', () => {
    const corner: TraceSpot = { kind: 'corner', index: 0 };
    const drag = (x: number, gesture: string): TraceAction => ({
      type: 'move',
      spot: corner,
      at: { x, y: 0 },
      gesture,
    });
    const state = run(drag(1, 'a'), drag(2, 'a'), drag(3, 'a'), drag(4, 'b'), drag(5, 'b'));
    const once = stepTrace(state, { type: 'undo' });
    expect(once.history.now.corners[0].x).toBe(3);
    expect(stepTrace(once, { type: 'undo' }).history.now).toBe(begun.history.now);
  });

  test('takes a typed number back as a whole, but not the mark with it', () => {
    const type = (text: string): TraceAction => ({ type: 'type', axis: 'x', index: 0, text });
    const state = run({ type: 'add mark', at }, type('1'), type('15'), type('150'));
    const once = stepTrace(state, { type: 'undo' });
    expect(once.history.now.axes.x.marks).toEqual([{ at, text: '' }]);
  });

  test('what was taken back is forgotten when something new is done', () => {
    const state = run({ type: 'add point', at }, { type: 'undo' }, { type: 'add mark', at });
    expect(state.history.future).toEqual([]);
    expect(stepTrace(state, { type: 'redo' }).history).toBe(state.history);
  });

  test('choosing an axis, a boundary or a step is nothing to take back', () => {
    const state = run(
      { type: 'choose axis', axis: 'y' },
      { type: 'choose curve', curve: 'passAbove' },
      { type: 'step', step: 'curves' },
    );
    expect(state.history.past).toEqual([]);
    expect(state.history.now).toMatchObject({ axis: 'y', curve: 'passAbove', step: 'curves' });
  });

  test('with nothing to take back or to bring again does nothing', () => {
    const history = beginHistory(1);
    expect(undo(history)).toBe(history);
    expect(redo(history)).toBe(history);
    expect(remember(history, 1)).toBe(history);
  });
});

describe('what is added', () => {
  test('goes to the axis or boundary that is chosen, and is held', () => {
    const mark = run({ type: 'square up' }, { type: 'choose axis', axis: 'y' }, { type: 'add mark', at });
    expect(mark.history.now.axes.y.marks).toEqual([{ at, text: '' }]);
    expect(mark.selected).toEqual({ kind: 'mark', axis: 'y', index: 0 });
    const point = run({ type: 'choose curve', curve: 'failAbove' }, { type: 'add point', at });
    expect(point.history.now.curves.failAbove).toEqual([at]);
    expect(point.selected).toEqual({ kind: 'point', curve: 'failAbove', index: 0 });
  });

  test('can be removed; a corner cannot', () => {
    const spot: TraceSpot = { kind: 'point', curve: 'failBelow', index: 0 };
    const state = run({ type: 'add point', at }, { type: 'remove', spot });
    expect(state.history.now.curves.failBelow).toEqual([]);
    expect(state.selected).toBeNull();
    expect(run({ type: 'remove', spot: { kind: 'corner', index: 2 } }).history).toBe(begun.history);
  });

  test('an action on what is not there changes nothing', () => {
    const spot: TraceSpot = { kind: 'mark', axis: 'x', index: 3 };
    for (const action of [
      { type: 'move', spot, at, gesture: null },
      { type: 'move', spot: { kind: 'corner', index: 4 }, at, gesture: null },
      { type: 'remove', spot },
      { type: 'type', axis: 'y', index: 0, text: '5' },
    ] as const)
      expect(run(action).history).toBe(begun.history);
    expect(run({ type: 'select', spot }).selected).toBeNull();
  });
});

test('the name of a spot leads back to it; other names lead nowhere', () => {
  const spots: TraceSpot[] = [
    { kind: 'corner', index: 3 },
    { kind: 'mark', axis: 'y', index: 0 },
    { kind: 'point', curve: 'passAbove', index: 12 },
  ];
  for (const spot of spots) expect(spotOfId(spotId(spot))).toEqual(spot);
  for (const id of [null, '', 'point:elsewhere:1', 'mark:z:0']) expect(spotOfId(id)).toBeNull();
});

test.each([
  ['z', { ctrlKey: true }, 'undo'],
  ['Z', { ctrlKey: true, shiftKey: true }, 'redo'],
  ['z', { metaKey: true }, 'undo'],
  ['y', { ctrlKey: true }, 'redo'],
  ['z', {}, null],
  ['a', { ctrlKey: true }, null],
] as const)('the key %s with %j asks for %s', (key, held, wish) => {
  expect(historyKey({ key, ctrlKey: false, metaKey: false, shiftKey: false, ...held })).toBe(wish);
});
