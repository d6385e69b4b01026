import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { straightLine } from './axis-fit.ts';
import type { Pixel } from './pixel.ts';

/** A graduation of a vessel in a photograph. */
export interface VesselMark {
  readonly at: Pixel;
  readonly volumeMl: number;
}

/** The volume at the liquid line, with the standard uncertainty of reading it off the photograph. */
export interface PhotoReading {
  readonly volumeMl: number;
  readonly uMl: number;
  /** Root mean square of the marks about the fitted scale, px; null where nothing is left over. */
  readonly residualPx: number | null;
  readonly marks: number;
}

/** How far off a click on a graduation or on the lowest point of the curve lies, one standard deviation, px. Common practice, no source. */
const MARK_PX = 1;
/** Marks nearer than this cannot be told apart well enough, px. */
const LEAST_SPAN_PX = 30;

/**
 * Reads the volume at the liquid line from marked graduations. Places count along the vessel: the straight line through
 * the marks. Two marks give an even scale. Three or more also take up that the camera looked at an angle, by the
 * projective scale of a line, volume = (a + b s) / (1 + c s). Nothing is read outside the marks.
 * Problems: `tracing.too-few-marks`, `tracing.marks-together`, `tracing.marks-same-value`, `tracing.marks-out-of-order`,
 * `tracing.outside-the-marks`.
 */
export function readVesselPhoto(marks: readonly VesselMark[], liquid: Pixel): Result<PhotoReading> {
  if (marks.length < 2) return failed(problem('tracing.too-few-marks', { marks: marks.length }));
  const axis = axisThrough(marks.map(({ at }) => at));
  const scale = marks
    .map(({ at, volumeMl }) => ({ s: along(axis, at), v: volumeMl }))
    .sort((a, b) => a.s - b.s);
  const refusal = refusalOf(scale, along(axis, liquid));
  if (refusal) return failed(refusal);
  const at = along(axis, liquid);
  const read = (moved: readonly ScaleMark[], place: number) => volumeAt(moved, place);
  const volumeMl = read(scale, at);
  // First order (GUM 5.1.2): each click is moved a little, and the effects add in quadrature.
  const effects = scale.map((_, index) => {
    const moved = scale.map((mark, other) => (other === index ? { ...mark, s: mark.s + STEP_PX } : mark));
    return ((read(moved, at) - volumeMl) / STEP_PX) * MARK_PX;
  });
  const byLiquid = ((read(scale, at + STEP_PX) - volumeMl) / STEP_PX) * MARK_PX;
  const { residualPx, widen } = residualOf(scale);
  const uMl = Math.sqrt(byLiquid ** 2 + effects.reduce((sum, effect) => sum + (effect * widen) ** 2, 0));
  return ok({ volumeMl, uMl, residualPx, marks: marks.length });
}

const STEP_PX = 0.25;

interface ScaleMark {
  readonly s: number;
  readonly v: number;
}

function refusalOf(scale: readonly ScaleMark[], at: number): Problem | null {
  const [first, last] = [scale[0]!, scale.at(-1)!];
  if (last.s - first.s < LEAST_SPAN_PX) return problem('tracing.marks-together', { px: LEAST_SPAN_PX });
  if (scale.every(({ v }) => v === first.v)) return problem('tracing.marks-same-value');
  const way = Math.sign(last.v - first.v);
  const ordered = scale.every(({ v }, index) => index === 0 || (v - scale[index - 1]!.v) * way > 0);
  if (!ordered) return problem('tracing.marks-out-of-order');
  if (at < first.s - MARK_PX || at > last.s + MARK_PX)
    return problem('tracing.outside-the-marks', {
      least: Math.min(first.v, last.v),
      most: Math.max(first.v, last.v),
    });
  return null;
}

/** The volume at a place: even with two marks, projective with more. */
function volumeAt(scale: readonly ScaleMark[], s: number): number {
  if (scale.length === 2) {
    const [low, high] = [scale[0]!, scale[1]!];
    return low.v + ((s - low.s) / (high.s - low.s)) * (high.v - low.v);
  }
  const [a, b, c] = projective(scale);
  return (a + b * s) / (1 + c * s);
}

/**
 * Least squares of a + b s - c s v = v over the marks, in places and volumes brought to the order of one, so that the
 * equations are well conditioned.
 */
function projective(scale: readonly ScaleMark[]): readonly [number, number, number] {
  const sMiddle = scale.reduce((sum, { s }) => sum + s, 0) / scale.length;
  const sSpan = scale.at(-1)!.s - scale[0]!.s;
  const vSpan = Math.abs(scale.at(-1)!.v - scale[0]!.v);
  const rows = scale.map(({ s, v }) => {
    const [p, q] = [(s - sMiddle) / sSpan, v / vSpan];
    return [1, p, -p * q, q];
  });
  const [a, b, c] = normalSolution(rows);
  // Back from p = (s - middle) / span: (a + b p) / (1 + c p), over the value of the denominator at s = 0.
  const base = 1 - (c * sMiddle) / sSpan;
  return [((a - (b * sMiddle) / sSpan) * vSpan) / base, ((b / sSpan) * vSpan) / base, c / sSpan / base];
}

/** Solves the three normal equations of rows [x0, x1, x2, y] by Cramer's rule. */
function normalSolution(rows: readonly (readonly number[])[]): readonly [number, number, number] {
  const sum = (i: number, j: number) => rows.reduce((total, row) => total + row[i]! * row[j]!, 0);
  const m = [0, 1, 2].map((i) => [0, 1, 2].map((j) => sum(i, j)));
  const y = [0, 1, 2].map((i) => sum(i, 3));
  const whole = determinant(m);
  const part = (column: number) =>
    determinant(m.map((row, i) => row.map((each, j) => (j === column ? y[i]! : each)))) / whole;
  return [part(0), part(1), part(2)];
}

const determinant = (m: readonly (readonly number[])[]): number =>
  m[0]![0]! * (m[1]![1]! * m[2]![2]! - m[1]![2]! * m[2]![1]!) -
  m[0]![1]! * (m[1]![0]! * m[2]![2]! - m[1]![2]! * m[2]![0]!) +
  m[0]![2]! * (m[1]![0]! * m[2]![1]! - m[1]![1]! * m[2]![0]!);

/** How far the marks lie off the scale; marks that fit worse than clicking explains widen the uncertainty. */
function residualOf(scale: readonly ScaleMark[]): { residualPx: number | null; widen: number } {
  if (scale.length <= 3) return { residualPx: null, widen: 1 };
  const offs = scale.map(({ s, v }) => (volumeAt(scale, s) - v) / slopeAt(scale, s));
  const residualPx = Math.sqrt(offs.reduce((sum, off) => sum + off * off, 0) / (scale.length - 3));
  return { residualPx, widen: Math.max(1, residualPx / MARK_PX) };
}

const slopeAt = (scale: readonly ScaleMark[], s: number): number =>
  (volumeAt(scale, s + STEP_PX) - volumeAt(scale, s - STEP_PX)) / (2 * STEP_PX);

interface VesselAxis {
  readonly from: Pixel;
  readonly unit: Pixel;
}

/** The straight line through the marks, along the direction in which they spread most. */
function axisThrough(places: readonly Pixel[]): VesselAxis {
  const xs = places.map(({ x }) => x);
  const ys = places.map(({ y }) => y);
  const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  const upright = spread(ys) >= spread(xs);
  const line = upright ? straightLine(ys, xs) : straightLine(xs, ys);
  const slope = Number.isFinite(line.slope) ? line.slope : 0;
  const length = Math.hypot(1, slope);
  const unit = upright ? { x: slope / length, y: 1 / length } : { x: 1 / length, y: slope / length };
  return { from: places[0]!, unit };
}

const along = ({ from, unit }: VesselAxis, { x, y }: Pixel): number =>
  (x - from.x) * unit.x + (y - from.y) * unit.y;
