import type { Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { problem } from '../problems/problem.ts';
import { toCanonical } from '../quantities/convert.ts';
import type { UnitId } from '../quantities/unit.ts';
import { fitAxis, placeOnAxis, type AxisFit } from '../tracing/axis-fit.ts';
import { applyMap, invertMap, type Homography } from '../tracing/homography.ts';
import type { Pixel } from '../tracing/pixel.ts';
import { squaredFrame } from '../tracing/squared-frame.ts';
import { curveUncertainty, readPlace, type ChartAxes, type TracedPoint } from '../tracing/traced-curve.ts';
import type { Extent } from './picture-view.ts';
import { readNumber } from './read-number.ts';
import { CURVE_NAMES, type AxisName, type CurveName, type TraceWork } from './trace-state.ts';

/** The squared-up picture: the map to it from the picture as it came, the map back, and its size. */
export interface TraceFrame extends Extent {
  readonly map: Homography;
  readonly back: Homography;
}

const SAME: Homography = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const ANY_NUMBER = { min: null, max: null, unit: '' };
/** Points nearer to each other than this along x are one, px: a boundary has one height at a speed. */
const SAME_PLACE_PX = 0.5;

/** The frame of the corners, or the picture itself where it is taken as straight. */
export function frameOf(work: Pick<TraceWork, 'corners' | 'straight'>, picture: Extent): Result<TraceFrame> {
  if (work.straight) return ok({ map: SAME, back: SAME, width: picture.width, height: picture.height });
  const squared = squaredFrame(work.corners, picture);
  if (!squared.ok) return squared;
  return ok({ ...squared.value, back: invertMap(squared.value.map) });
}

/** A mark as the fit sees it: its number or why it has none, and how far it lies off a scale of three marks or more, px. */
export interface MarkView {
  readonly at: Pixel;
  readonly value: number | null;
  readonly refusal: string | null;
  readonly offPx: number | null;
}

/** An axis with its marks in the squared-up picture; `fit` waits for two numbers. */
export interface AxisView {
  readonly marks: readonly MarkView[];
  readonly fit: Result<AxisFit>;
}

/** Fits an axis to the marks that carry a number; the others are told why they do not count. */
export function axisView(work: TraceWork, axis: AxisName, frame: TraceFrame): AxisView {
  const { kind, marks } = work.axes[axis];
  const read = marks.map(({ at, text }) => {
    const number = readNumber(text, ANY_NUMBER);
    const place = applyMap(frame.map, at);
    return 'value' in number
      ? { at: place, value: number.value, refusal: null }
      : { at: place, value: null, refusal: number.refusal };
  });
  const along = ({ x, y }: Pixel) => (axis === 'x' ? x : y);
  const fit = fitAxis(
    read.flatMap(({ at, value }) => (value === null ? [] : [{ px: along(at), value }])),
    kind,
  );
  const off = (at: Pixel, value: number | null) =>
    fit.ok && fit.value.freedom > 0 && value !== null ? along(at) - placeOnAxis(fit.value, value) : null;
  return { fit, marks: read.map((mark) => ({ ...mark, offPx: off(mark.at, mark.value) })) };
}

/** Both scales, where both stand. */
export function axesOf(work: TraceWork, frame: TraceFrame): ChartAxes | null {
  const [x, y] = [axisView(work, 'x', frame).fit, axisView(work, 'y', frame).fit];
  return x.ok && y.ok ? { x: x.value, y: y.value } : null;
}

/** The places of a curve in the squared-up picture from left to right, places at one x made one. */
export function curvePlaces(work: TraceWork, curve: CurveName, frame: TraceFrame): readonly Pixel[] {
  const places = work.curves[curve].map((at) => applyMap(frame.map, at)).sort((a, b) => a.x - b.x);
  const groups: Pixel[][] = [];
  for (const place of places) {
    const group = groups.at(-1);
    if (group && place.x - group[0]!.x < SAME_PLACE_PX) group.push(place);
    else groups.push([place]);
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return groups.map((group) => ({ x: mean(group.map(({ x }) => x)), y: mean(group.map(({ y }) => y)) }));
}

/** A curve in the units of the chart, from left to right on paper, and its standard uncertainty (NaN under two points). */
export function curveView(
  work: TraceWork,
  curve: CurveName,
  frame: TraceFrame,
): { points: readonly TracedPoint[]; u: number } | null {
  const axes = axesOf(work, frame);
  if (!axes) return null;
  const points = curvePlaces(work, curve, frame).map((place) => readPlace(axes, place));
  return { points, u: curveUncertainty(points) };
}

/** What tracing hands over: points [speed rpm, volume mL] in ascending speed, and a standard uncertainty a curve, mL. */
export interface TracedChart {
  readonly curves: Readonly<Partial<Record<CurveName, readonly (readonly [number, number])[]>>>;
  readonly uVolumeMl: Readonly<Partial<Record<CurveName, number>>>;
  readonly notes: readonly string[];
}

/**
 * The traced chart in canonical units. Fail below and pass above need two points each; fail above may be left out.
 * Problems: those of the corners and of the scales, `tracing.curve-missing`.
 */
export function tracedChart(work: TraceWork, picture: Extent, volumeUnit: UnitId): Result<TracedChart> {
  const frame = frameOf(work, picture);
  if (!frame.ok) return frame;
  const refusal = scaleProblem(work, frame.value);
  if (refusal) return failed(refusal);
  const chart: {
    curves: Partial<Record<CurveName, readonly (readonly [number, number])[]>>;
    uVolumeMl: Partial<Record<CurveName, number>>;
  } = { curves: {}, uVolumeMl: {} };
  for (const name of CURVE_NAMES) {
    const view = curveView(work, name, frame.value)!;
    if (name === 'failAbove' && view.points.length === 0) continue;
    if (view.points.length < 2)
      return failed(
        problem('tracing.curve-missing', { curve: CURVE_WORDS[name], points: view.points.length }),
      );
    const ml = (value: number) => toCanonical(value, volumeUnit);
    const points = view.points.map(({ x, y }) => [rounded(x), rounded(ml(y))] as const);
    chart.curves[name] = points.sort((a, b) => a[0] - b[0]);
    chart.uVolumeMl[name] = rounded(ml(view.u));
  }
  return ok({ ...chart, notes: notesOf(work, picture, frame.value) });
}

/** What stands between the marks and a scale, if anything. */
export function scaleProblem(work: TraceWork, frame: TraceFrame): Problem | null {
  for (const axis of ['x', 'y'] as const) {
    const { fit } = axisView(work, axis, frame);
    if (!fit.ok) return fit.problem;
  }
  return null;
}

export const CURVE_WORDS: Readonly<Record<CurveName, string>> = {
  failBelow: 'fail below',
  passAbove: 'pass above',
  failAbove: 'fail above',
};

/** A hundredth of a mL or rpm is far below what a picture gives. */
const rounded = (value: number): number => Math.round(value * 100) / 100;

function notesOf(work: TraceWork, picture: Extent, frame: TraceFrame): readonly string[] {
  const size = `${picture.width} × ${picture.height} pixels`;
  const scales = (['x', 'y'] as const).map((axis) => {
    const { fit, marks } = axisView(work, axis, frame);
    if (!fit.ok) return '';
    const { kind, fromValue, toValue, residual, slope } = fit.value;
    const off =
      residual === null ? 'two marks, no residual' : `residual ${Math.abs(residual / slope).toFixed(2)} px`;
    const counted = marks.filter(({ value }) => value !== null).length;
    return `${axis === 'x' ? 'Speed' : 'Volume'} scale: ${counted} marks from ${fromValue} to ${toValue}, ${kind}, ${off}.`;
  });
  return [
    `Traced from a picture of ${size}, ${work.straight ? 'taken as straight' : 'squared up by four corners'}.`,
    ...scales,
    ...CURVE_NAMES.flatMap((name) => {
      const count = work.curves[name].length;
      return count > 0 ? [`${CURVE_WORDS[name]}: ${count} points.`] : [];
    }),
  ];
}
