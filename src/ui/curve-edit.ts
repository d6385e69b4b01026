import type { CurveJoin } from '../limits/boundary-curve.ts';
import { readNumber } from './read-number.ts';

/** The boundaries of a speed chart, in the order in which they lie above each other. */
export const CURVE_NAMES = ['failBelow', 'passAbove', 'failAbove'] as const;
export type CurveName = (typeof CURVE_NAMES)[number];

/** A point as it stands in the table: text, so that half a number can be on its way. Volume in the printed unit. */
export interface CurveRow {
  readonly speed: string;
  readonly volume: string;
}

/** What is edited. A boundary without rows is not on the chart (`failAbove` of most charts). */
export interface CurveDraft {
  readonly failBelow: readonly CurveRow[];
  readonly passAbove: readonly CurveRow[];
  readonly failAbove: readonly CurveRow[];
  readonly join: CurveJoin;
}

/** The draft with what undo and redo go to. `gesture` names what is being typed or dragged: it is undone as one. */
export interface CurveEdit {
  readonly draft: CurveDraft;
  readonly past: readonly CurveDraft[];
  readonly future: readonly CurveDraft[];
  readonly gesture: string | null;
}

export interface CurvePlace {
  readonly curve: CurveName;
  readonly index: number;
}

export type CurveAction =
  | ({ readonly do: 'type'; readonly field: keyof CurveRow; readonly text: string } & CurvePlace)
  /** Drags a point; `gesture` is the same for all moves of one drag. Stays between its neighbours and above zero. */
  | ({
      readonly do: 'move';
      readonly speed: number;
      readonly volume: number;
      readonly gesture: string;
    } & CurvePlace)
  /** A row before `index`; at the end where `index` is the number of rows. */
  | ({ readonly do: 'insert' } & CurvePlace)
  | ({ readonly do: 'remove' } & CurvePlace)
  /** The person left the table: rows are put in order of speed. */
  | { readonly do: 'leave'; readonly curve: CurveName }
  | { readonly do: 'replace'; readonly curves: Partial<Record<CurveName, readonly CurveRow[]>> }
  | { readonly do: 'join'; readonly join: CurveJoin }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' };

/** So many steps can be taken back. */
const DEPTH = 200;
const OPEN = { min: null, max: null, unit: '' };

/** The number of a cell; NaN for what is no number. Point or comma. */
export function cellNumber(text: string): number {
  const read = readNumber(text, OPEN);
  return 'value' in read ? read.value : NaN;
}

/** An edit that begins with this draft, nothing to undo. */
export const beginEdit = (draft: CurveDraft): CurveEdit => ({ draft, past: [], future: [], gesture: null });

/** One step of editing. What changes nothing returns the same edit, and a place that does not exist changes nothing. */
export function stepEdit(edit: CurveEdit, action: CurveAction): CurveEdit {
  if (action.do === 'undo') return undone(edit);
  if (action.do === 'redo') return redone(edit);
  const draft = changed(edit.draft, action);
  const gesture = gestureOf(action);
  if (draft === edit.draft) return action.do === 'leave' ? { ...edit, gesture: null } : edit;
  const goesOn = gesture !== null && gesture === edit.gesture;
  // Sorting belongs to the typing before it: one undo takes both back.
  const quiet = goesOn || (action.do === 'leave' && edit.past.length > 0);
  const past = quiet ? edit.past : [...edit.past, edit.draft].slice(-DEPTH);
  return { draft, past, future: [], gesture };
}

function gestureOf(action: CurveAction): string | null {
  if (action.do === 'type') return `type ${action.curve} ${action.index} ${action.field}`;
  return action.do === 'move' ? `move ${action.curve} ${action.index} ${action.gesture}` : null;
}

function undone(edit: CurveEdit): CurveEdit {
  const draft = edit.past.at(-1);
  if (!draft) return edit;
  return { draft, past: edit.past.slice(0, -1), future: [edit.draft, ...edit.future], gesture: null };
}

function redone(edit: CurveEdit): CurveEdit {
  const [draft, ...future] = edit.future;
  return draft ? { draft, past: [...edit.past, edit.draft], future, gesture: null } : edit;
}

type Change = Exclude<CurveAction, { do: 'undo' | 'redo' }>;

function changed(draft: CurveDraft, action: Change): CurveDraft {
  if (action.do === 'join') return action.join === draft.join ? draft : { ...draft, join: action.join };
  if (action.do === 'replace') return { ...draft, ...action.curves };
  const rows = draft[action.curve];
  const next = rowsAfter(rows, action);
  return next === rows ? draft : { ...draft, [action.curve]: next };
}

function rowsAfter(
  rows: readonly CurveRow[],
  action: Exclude<Change, { do: 'join' | 'replace' }>,
): readonly CurveRow[] {
  switch (action.do) {
    case 'leave':
      return inOrder(rows);
    case 'insert':
      return action.index < 0 || action.index > rows.length
        ? rows
        : rows.toSpliced(action.index, 0, between(rows, action.index));
    case 'remove':
      return rows[action.index] ? rows.toSpliced(action.index, 1) : rows;
    case 'move':
      return withRow(rows, action.index, moved(rows, action));
    case 'type':
      return withRow(rows, action.index, { ...rows[action.index], [action.field]: action.text } as CurveRow);
  }
}

function withRow(rows: readonly CurveRow[], index: number, row: CurveRow): readonly CurveRow[] {
  const old = rows[index];
  if (!old || (old.speed === row.speed && old.volume === row.volume)) return rows;
  return rows.with(index, row);
}

/** Rising speed; rows whose speed cannot be read stay at the end, in their order. The same list where nothing moves. */
export function inOrder(rows: readonly CurveRow[]): readonly CurveRow[] {
  const key = ({ speed }: CurveRow) => (Number.isNaN(cellNumber(speed)) ? Infinity : cellNumber(speed));
  const sorted = rows.toSorted((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
  return sorted.every((row, index) => row === rows[index]) ? rows : sorted;
}

/** The new row stands half way between its neighbours; at an end it is empty, since nothing is extrapolated. */
function between(rows: readonly CurveRow[], index: number): CurveRow {
  const [before, after] = [rows[index - 1], rows[index]];
  if (!before || !after) return { speed: '', volume: '' };
  const middle = (field: keyof CurveRow) => {
    const value = (cellNumber(before[field]) + cellNumber(after[field])) / 2;
    return Number.isNaN(value) ? '' : numberText(value);
  };
  return { speed: middle('speed'), volume: middle('volume') };
}

/** A number as it is put into a cell: no more than six figures and six decimals, no trailing zeros, never an exponent. */
export const numberText = (value: number): string => String(Number(Number(value.toPrecision(6)).toFixed(6)));

function moved(
  rows: readonly CurveRow[],
  { index, speed, volume }: { index: number; speed: number; volume: number },
): CurveRow {
  const old = rows[index] ?? { speed: '', volume: '' };
  if (!Number.isFinite(speed) || !Number.isFinite(volume)) return old;
  const below = cellNumber(rows[index - 1]?.speed ?? '');
  const above = cellNumber(rows[index + 1]?.speed ?? '');
  const least = Number.isNaN(below) ? 0 : below + MIN_STEP_RPM;
  const most = Number.isNaN(above) ? Infinity : above - MIN_STEP_RPM;
  if (least > most) return { ...old, volume: numberText(Math.max(0, volume)) };
  return {
    speed: numberText(Math.min(Math.max(speed, least), most)),
    volume: numberText(Math.max(0, volume)),
  };
}

/** Two points of a curve are kept so far apart while one is dragged. */
const MIN_STEP_RPM = 1;
