import { describe, expect, test } from 'vitest';
import {
  beginEdit,
  cellNumber,
  inOrder,
  stepEdit,
  type CurveAction,
  type CurveEdit,
} from '../../src/ui/curve-edit.ts';
import { DRAFT } from './sheet-samples.ts';

const run = (...actions: readonly CurveAction[]): CurveEdit => actions.reduce(stepEdit, beginEdit(DRAFT));
const type = (index: number, field: 'speed' | 'volume', text: string): CurveAction => ({
  do: 'type',
  curve: 'failBelow',
  index,
  field,
  text,
});
const move = (index: number, speed: number, volume: number, gesture = 'drag 1'): CurveAction => ({
  do: 'move',
  curve: 'failBelow',
  index,
  speed,
  volume,
  gesture,
});
const UNDO: CurveAction = { do: 'undo' };

describe('a cell', () => {
  test.each([
    ['150', 150],
    [' 150,5 ', 150.5],
    ['150.5', 150.5],
    ['-3', -3],
    ['', NaN],
    ['1,000.5', NaN],
    ['15 rpm', NaN],
  ])('%j is read as %s', (text, value) => {
    expect(cellNumber(text)).toBe(value);
  });
});

describe('typing into a boundary', () => {
  test('letters typed into one cell are undone as one', () => {
    const edit = run(type(1, 'volume', '3'), type(1, 'volume', '30'), type(1, 'volume', '300'));
    expect(edit.draft.failBelow[1]?.volume).toBe('300');
    expect(stepEdit(edit, UNDO).draft).toBe(DRAFT);
  });

  test('another cell is another step', () => {
    const edit = run(type(1, 'volume', '300'), type(2, 'volume', '440'));
    expect(stepEdit(edit, UNDO).draft.failBelow).toEqual([
      DRAFT.failBelow[0],
      { speed: '150', volume: '300' },
      DRAFT.failBelow[2],
    ]);
  });

  test('leaving the table puts the rows in order, and one undo takes both back', () => {
    const edit = run(type(0, 'speed', '180'), { do: 'leave', curve: 'failBelow' });
    expect(edit.draft.failBelow.map(({ speed }) => speed)).toEqual(['150', '180', '220']);
    expect(stepEdit(edit, UNDO).draft).toBe(DRAFT);
  });

  test('leaving a table in order changes nothing but ends the typing', () => {
    const edit = run(type(1, 'volume', '300'), { do: 'leave', curve: 'failBelow' }, type(1, 'volume', '301'));
    expect(edit.past).toHaveLength(2);
  });

  test('rows whose speed cannot be read stay last, in their order', () => {
    const rows = ['x', '200', '', '100'].map((speed) => ({ speed, volume: '1' }));
    expect(inOrder(rows).map(({ speed }) => speed)).toEqual(['100', '200', 'x', '']);
  });
});

describe('rows', () => {
  test('a new row stands half way between its neighbours', () => {
    const { draft } = run({ do: 'insert', curve: 'failBelow', index: 1 });
    expect(draft.failBelow[1]).toEqual({ speed: '125', volume: '235' }); // means of 100, 150 and of 180, 290
    expect(draft.failBelow).toHaveLength(4);
  });

  test.each([0, 3])('a new row at the end %i is empty: nothing is extrapolated', (index) => {
    const { draft } = run({ do: 'insert', curve: 'failBelow', index });
    expect(draft.failBelow[index]).toEqual({ speed: '', volume: '' });
  });

  test('a row is removed, and undo and redo bring it back and take it away', () => {
    const removed = run({ do: 'remove', curve: 'passAbove', index: 0 });
    expect(removed.draft.passAbove).toEqual(DRAFT.passAbove.slice(1));
    const back = stepEdit(removed, UNDO);
    expect(back.draft).toBe(DRAFT);
    expect(stepEdit(back, { do: 'redo' }).draft).toBe(removed.draft);
  });

  test.each<CurveAction>([
    { do: 'insert', curve: 'failBelow', index: 4 },
    { do: 'insert', curve: 'failBelow', index: -1 },
    { do: 'remove', curve: 'failBelow', index: 3 },
    type(9, 'speed', '1'),
    move(7, 1, 1),
    { do: 'join', join: 'straight' },
    UNDO,
    { do: 'redo' },
  ])('%o changes nothing', (action) => {
    const edit = beginEdit(DRAFT);
    expect(stepEdit(edit, action)).toBe(edit);
  });

  test('pasted rows replace the boundaries they are for', () => {
    const rows = [{ speed: '90', volume: '10' }];
    const { draft } = run({ do: 'replace', curves: { failAbove: rows } });
    expect(draft).toEqual({ ...DRAFT, failAbove: rows });
  });

  test('the join is a step that can be undone', () => {
    const edit = run({ do: 'join', join: 'monotone cubic' });
    expect(edit.draft.join).toBe('monotone cubic');
    expect(stepEdit(edit, UNDO).draft.join).toBe('straight');
  });
});

describe('dragging a point', () => {
  test('moves of one drag are undone as one, a second drag is a second step', () => {
    const edit = run(move(1, 151, 291), move(1, 152, 292), move(1, 150, 300, 'drag 2'));
    expect(stepEdit(edit, UNDO).draft.failBelow[1]).toEqual({ speed: '152', volume: '292' });
    expect(stepEdit(stepEdit(edit, UNDO), UNDO).draft).toBe(DRAFT);
  });

  test.each([
    [90, 300, { speed: '101', volume: '300' }],
    [400, 300, { speed: '219', volume: '300' }],
    [150, -5, { speed: '150', volume: '0' }],
    [NaN, 5, { speed: '150', volume: '290' }],
    [150, Infinity, { speed: '150', volume: '290' }],
  ])('to %s rpm, %s mL stays between its neighbours and above zero', (speed, volume, row) => {
    expect(run(move(1, speed, volume)).draft.failBelow[1]).toEqual(row);
  });

  test('the first point stops at zero', () => {
    expect(run(move(0, -20, 10)).draft.failBelow[0]).toEqual({ speed: '0', volume: '10' });
  });

  test('between neighbours without room only the volume moves', () => {
    const edit = run(type(0, 'speed', '149.5'), type(2, 'speed', '150,5'), move(1, 190, 333));
    expect(edit.draft.failBelow[1]).toEqual({ speed: '150', volume: '333' });
  });
});
