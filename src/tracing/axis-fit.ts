import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';

/** A mark of an axis: where it lies along the axis in the squared-up picture, px, and the number printed at it. */
export interface AxisMark {
  readonly px: number;
  readonly value: number;
}

export type AxisKind = 'linear' | 'log';

/**
 * A straight line through the marks: value (or its logarithm to base 10) = intercept + slope * (px - middlePx).
 * `residual` is the standard deviation about the line in the unit of the value (or in decades), null with two marks,
 * which leave nothing over; `uMarkPx` stands in its place.
 */
export interface AxisFit {
  readonly kind: AxisKind;
  readonly slope: number;
  readonly intercept: number;
  readonly middlePx: number;
  readonly residual: number | null;
  readonly uSlope: number;
  readonly uIntercept: number;
  readonly freedom: number;
  /** Values between which the axis was marked; reading outside is not refused, but wider in doubt. */
  readonly fromValue: number;
  readonly toValue: number;
}

/** A value read off an axis, with its standard uncertainty from the fit alone (not from the click). */
export interface AxisReading {
  readonly value: number;
  readonly u: number;
}

/** How far off a person's click on a mark lies, one standard deviation, px. Common practice, no source. */
export const CLICK_PX = 0.7;

/** Marks nearer than this cannot be told apart well enough to fix a scale, px. */
const LEAST_SPAN_PX = 20;

/**
 * Fits an axis to two or more marks by least squares about their middle, where slope and intercept are independent.
 * Source: GUM (JCGM 100:2008) H.3. With two marks the uncertainty comes from `CLICK_PX`; with more from the residuals,
 * but never less than clicking gives. Problems: `tracing.too-few-marks`, `tracing.marks-together`, `tracing.log-needs-positive`.
 */
export function fitAxis(marks: readonly AxisMark[], kind: AxisKind): Result<AxisFit> {
  if (marks.length < 2) return failed(problem('tracing.too-few-marks', { marks: marks.length }));
  if (kind === 'log' && marks.some(({ value }) => !(value > 0)))
    return failed(problem('tracing.log-needs-positive'));
  const spots = marks.map(({ px }) => px);
  if (Math.max(...spots) - Math.min(...spots) < LEAST_SPAN_PX)
    return failed(problem('tracing.marks-together', { px: LEAST_SPAN_PX }));
  const values = marks.map(({ value }) => (kind === 'log' ? Math.log10(value) : value));
  if (values.every((value) => value === values[0])) return failed(problem('tracing.marks-same-value'));
  const line = straightLine(spots, values);
  const printed = marks.map(({ value }) => value);
  return ok({ kind, ...line, fromValue: Math.min(...printed), toValue: Math.max(...printed) });
}

/** The value at a place along the axis. For a log axis the uncertainty is first order: value * ln 10 * u(log). */
export function readAxis(fit: AxisFit, px: number): AxisReading {
  const along = px - fit.middlePx;
  const scaled = fit.intercept + fit.slope * along;
  const u = Math.hypot(fit.uIntercept, along * fit.uSlope);
  if (fit.kind === 'linear') return { value: scaled, u };
  const value = 10 ** scaled;
  return { value, u: value * Math.LN10 * u };
}

/** Where a value lies along the axis, px. A log axis has no place for zero and below: NaN. */
export function placeOnAxis(fit: AxisFit, value: number): number {
  const scaled = fit.kind === 'log' ? Math.log10(value) : value;
  return fit.middlePx + (scaled - fit.intercept) / fit.slope;
}

/** How much the value changes a pixel, at a value: the sensitivity to a click. */
export const valuePerPx = (fit: AxisFit, value: number): number =>
  fit.kind === 'linear' ? fit.slope : value * Math.LN10 * fit.slope;

type Line = Omit<AxisFit, 'kind' | 'fromValue' | 'toValue'>;

/** Least squares about the mean of x. Source: GUM H.3, with the covariance made zero by the shift. */
export function straightLine(xs: readonly number[], ys: readonly number[]): Line {
  const count = xs.length;
  const middlePx = mean(xs);
  const intercept = mean(ys);
  const sxx = xs.reduce((sum, x) => sum + (x - middlePx) ** 2, 0);
  const slope = xs.reduce((sum, x, i) => sum + (x - middlePx) * (ys[i]! - intercept), 0) / sxx;
  const squares = xs.reduce((sum, x, i) => sum + (ys[i]! - intercept - slope * (x - middlePx)) ** 2, 0);
  const freedom = count - 2;
  const residual = freedom > 0 ? Math.sqrt(squares / freedom) : null;
  const clicking = CLICK_PX * Math.abs(slope);
  const spread = Math.max(residual ?? 0, clicking);
  return {
    slope,
    intercept,
    middlePx,
    residual,
    uSlope: spread / Math.sqrt(sxx),
    uIntercept: spread / Math.sqrt(count),
    freedom,
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
