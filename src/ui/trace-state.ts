import type { AxisKind } from '../tracing/axis-fit.ts';
import type { Corners } from '../tracing/homography.ts';
import type { Pixel } from '../tracing/pixel.ts';
import { amend, beginHistory, redo, remember, undo, type History } from './picture-history.ts';
import type { Extent } from './picture-view.ts';

export type TraceStep = 'corners' | 'axes' | 'curves';
export type AxisName = 'x' | 'y';
export const CURVE_NAMES = ['failBelow', 'passAbove', 'failAbove'] as const;
export type CurveName = (typeof CURVE_NAMES)[number];

/** A place on an axis and what the person typed for it. */
export interface TypedMark {
  readonly at: Pixel;
  readonly text: string;
}

/** One axis of the chart as marked so far. */
export interface AxisWork {
  readonly kind: AxisKind;
  readonly marks: readonly TypedMark[];
}

/**
 * All that a person does to a picture of a chart. Every place is kept in the pixels of the picture as it came, so that
 * moving a corner later loses nothing.
 */
export interface TraceWork {
  readonly step: TraceStep;
  readonly corners: Corners;
  /** The picture is taken as it is; corners do not count. */
  readonly straight: boolean;
  readonly axis: AxisName;
  readonly axes: Readonly<Record<AxisName, AxisWork>>;
  readonly curve: CurveName;
  readonly curves: Readonly<Record<CurveName, readonly Pixel[]>>;
}

/** Something that can be taken hold of. */
export type TraceSpot =
  | { readonly kind: 'corner'; readonly index: number }
  | { readonly kind: 'mark'; readonly axis: AxisName; readonly index: number }
  | { readonly kind: 'point'; readonly curve: CurveName; readonly index: number };

export interface TraceState {
  readonly history: History<TraceWork>;
  readonly selected: TraceSpot | null;
}

export type TraceAction =
  | { readonly type: 'step'; readonly step: TraceStep }
  | { readonly type: 'take straight' }
  | { readonly type: 'square up' }
  | { readonly type: 'choose axis'; readonly axis: AxisName }
  | { readonly type: 'scale'; readonly axis: AxisName; readonly kind: AxisKind }
  | { readonly type: 'add mark'; readonly at: Pixel }
  | { readonly type: 'type'; readonly axis: AxisName; readonly index: number; readonly text: string }
  | { readonly type: 'choose curve'; readonly curve: CurveName }
  | { readonly type: 'add point'; readonly at: Pixel }
  | { readonly type: 'replace curve'; readonly curve: CurveName; readonly places: readonly Pixel[] }
  | { readonly type: 'select'; readonly spot: TraceSpot | null }
  | { readonly type: 'move'; readonly spot: TraceSpot; readonly at: Pixel; readonly gesture: string | null }
  | { readonly type: 'remove'; readonly spot: TraceSpot }
  | { readonly type: 'undo' }
  | { readonly type: 'redo' };

/** How far the handles lie inside the picture at first, as a part of its sides. */
const INSET = 0.08;

/** Where a picture begins: corners a little inside its own. */
export function beginTrace({ width, height }: Extent): TraceState {
  const [left, top, right, bottom] = [
    INSET * width,
    INSET * height,
    (1 - INSET) * width,
    (1 - INSET) * height,
  ];
  const corners: Corners = [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
  const axis: AxisWork = { kind: 'linear', marks: [] };
  const work: TraceWork = {
    step: 'corners',
    corners,
    straight: false,
    axis: 'x',
    axes: { x: axis, y: axis },
    curve: 'failBelow',
    curves: { failBelow: [], passAbove: [], failAbove: [] },
  };
  return { history: beginHistory(work), selected: null };
}

/** One action of the person. An action on something that is not there changes nothing. */
export function stepTrace(state: TraceState, action: TraceAction): TraceState {
  const { history, selected } = state;
  if (action.type === 'undo') return settle({ history: undo(history), selected });
  if (action.type === 'redo') return settle({ history: redo(history), selected });
  if (action.type === 'select')
    return settle({ history: looked(history, action.spot), selected: action.spot });
  if (action.type === 'step' || action.type === 'choose axis' || action.type === 'choose curve')
    return { history: amend(history, { ...history.now, ...turnedTo(action) }), selected: null };
  return changeTrace(state, action);
}

function turnedTo(
  action: Extract<TraceAction, { type: 'step' | 'choose axis' | 'choose curve' }>,
): Partial<TraceWork> {
  if (action.type === 'step') return { step: action.step };
  return action.type === 'choose axis' ? { axis: action.axis } : { curve: action.curve };
}

/** What can be taken back. What was just added is held; a removed thing is let go. */
function changeTrace({ history, selected }: TraceState, action: Change): TraceState {
  const next = changed(history.now, action);
  const after = remember(history, next, gestureOf(action));
  if (action.type === 'add mark' || action.type === 'add point')
    return { history: after, selected: added(next, action.type) };
  if (action.type === 'remove') return { history: after, selected: null };
  return settle({ history: after, selected });
}

type Change = Exclude<
  TraceAction,
  { readonly type: 'undo' | 'redo' | 'select' | 'step' | 'choose axis' | 'choose curve' }
>;

function changed(work: TraceWork, action: Change): TraceWork {
  switch (action.type) {
    case 'take straight':
      return { ...work, straight: true, step: 'axes' };
    case 'square up':
      return { ...work, straight: false, step: 'axes' };
    case 'scale':
      return withAxis(work, action.axis, (axis) => ({ ...axis, kind: action.kind }));
    case 'add mark':
      return withMarks(work, work.axis, (marks) => [...marks, { at: action.at, text: '' }]);
    case 'type':
      return withMarks(work, action.axis, (marks) => replaced(marks, action.index, { text: action.text }));
    case 'add point':
      return withCurve(work, work.curve, (places) => [...places, action.at]);
    case 'replace curve':
      return withCurve(work, action.curve, () => action.places);
    case 'move':
      return moved(work, action.spot, action.at);
    case 'remove':
      return removed(work, action.spot);
  }
}

function moved(work: TraceWork, spot: TraceSpot, at: Pixel): TraceWork {
  switch (spot.kind) {
    case 'corner': {
      if (!work.corners[spot.index]) return work;
      const corners = work.corners.map((corner, index) => (index === spot.index ? at : corner));
      return { ...work, corners: corners as unknown as Corners };
    }
    case 'mark':
      return withMarks(work, spot.axis, (marks) => replaced(marks, spot.index, { at }));
    case 'point':
      return withCurve(work, spot.curve, (places) => replaced(places, spot.index, at));
  }
}

/** Corners stay: a frame has four. */
function removed(work: TraceWork, spot: TraceSpot): TraceWork {
  switch (spot.kind) {
    case 'corner':
      return work;
    case 'mark':
      return withMarks(work, spot.axis, (marks) => without(marks, spot.index));
    case 'point':
      return withCurve(work, spot.curve, (places) => without(places, spot.index));
  }
}

function withAxis(work: TraceWork, axis: AxisName, change: (axis: AxisWork) => AxisWork): TraceWork {
  const next = change(work.axes[axis]);
  return next === work.axes[axis] ? work : { ...work, axes: { ...work.axes, [axis]: next } };
}

const withMarks = (
  work: TraceWork,
  axis: AxisName,
  change: (marks: readonly TypedMark[]) => readonly TypedMark[],
): TraceWork =>
  withAxis(work, axis, (axisWork) => {
    const marks = change(axisWork.marks);
    return marks === axisWork.marks ? axisWork : { ...axisWork, marks };
  });

function withCurve(
  work: TraceWork,
  curve: CurveName,
  change: (places: readonly Pixel[]) => readonly Pixel[],
): TraceWork {
  const places = change(work.curves[curve]);
  return places === work.curves[curve] ? work : { ...work, curves: { ...work.curves, [curve]: places } };
}

/** The list with parts of one item replaced; the same list where the item is not there. */
export function replaced<T extends object>(
  items: readonly T[],
  index: number,
  part: Partial<T>,
): readonly T[] {
  return items[index] ? items.map((item, place) => (place === index ? { ...item, ...part } : item)) : items;
}

/** The list without one item; the same list where it is not there. */
export function without<T>(items: readonly T[], index: number): readonly T[] {
  return index in items ? items.filter((_, place) => place !== index) : items;
}

/** What was just added is the last of the list that is worked on. */
function added(work: TraceWork, type: 'add mark' | 'add point'): TraceSpot {
  if (type === 'add mark')
    return { kind: 'mark', axis: work.axis, index: work.axes[work.axis].marks.length - 1 };
  return { kind: 'point', curve: work.curve, index: work.curves[work.curve].length - 1 };
}

function gestureOf(action: Change): string | null {
  if (action.type === 'type') return `type ${action.axis} ${action.index}`;
  return action.type === 'move' ? action.gesture : null;
}

/** Taking hold of a mark or point of another list makes that list the one that is worked on. */
function looked(history: History<TraceWork>, spot: TraceSpot | null): History<TraceWork> {
  const { now } = history;
  if (spot?.kind === 'mark' && spot.axis !== now.axis) return amend(history, { ...now, axis: spot.axis });
  if (spot?.kind === 'point' && spot.curve !== now.curve)
    return amend(history, { ...now, curve: spot.curve });
  return history;
}

/** Lets go of what is not there any more, or is not shown at this step. */
function settle({ history, selected }: TraceState): TraceState {
  return { history, selected: selected && isThere(history.now, selected) ? selected : null };
}

function isThere(work: TraceWork, spot: TraceSpot): boolean {
  if (spot.kind === 'corner') return work.step === 'corners' && spot.index in work.corners;
  if (spot.kind === 'mark') return work.step === 'axes' && spot.index in work.axes[spot.axis].marks;
  return work.step === 'curves' && spot.index in work.curves[spot.curve];
}
