import { formatNumber } from '../quantities/format.ts';
import type { AxisFit } from '../tracing/axis-fit.ts';
import type { ChartAxes } from '../tracing/traced-curve.ts';
import { readPlace } from '../tracing/traced-curve.ts';
import type { Pixel } from '../tracing/pixel.ts';
import type { AxisName } from './trace-state.ts';

/** Figures after the point so that about three of a small number count. */
export const figures = (value: number): string => {
  const size = Math.abs(value);
  return formatNumber(value, { decimals: size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3 });
};

/** Pixels off a scale: a tenth is more than a click knows. */
export const offWords = (px: number): string => `${formatNumber(px, { decimals: 1 })} px`;

/** What the axis is called on the screen. */
export const AXIS_WORDS: Readonly<Record<AxisName, string>> = { x: 'Speed, across', y: 'Volume, up' };

/** The fitted scale in words: how far a pixel reaches, and how far the marks lie off. */
export function scaleWords(fit: AxisFit, unit: string): { scale: string; residual: string } {
  const scale =
    fit.kind === 'linear'
      ? `${figures(Math.abs(1 / fit.slope))} px a ${unit}`
      : `${figures(Math.abs(1 / fit.slope))} px a decade`;
  if (fit.residual === null)
    return { scale, residual: 'Two marks leave nothing over to judge them by. A third one would.' };
  const px = offWords(Math.abs(fit.residual / fit.slope));
  const value = fit.kind === 'linear' ? ` (${figures(fit.residual)} ${unit})` : '';
  return { scale, residual: `The marks lie ${px}${value} off the scale, one standard deviation.` };
}

/** A place of the squared-up picture in the units of the chart, or in pixels before there are scales. */
export function placeWords(axes: ChartAxes | null, at: Pixel, volumeUnit: string): string {
  if (!axes) return `${at.x.toFixed(0)} px across, ${at.y.toFixed(0)} px down`;
  const { x, y } = readPlace(axes, at);
  return `${formatNumber(x, { decimals: 1 })} rpm, ${figures(y)} ${volumeUnit}`;
}

/** Two standard uncertainties, as on the limit chart. */
export const doubtWords = (u: number, unit: string): string =>
  `± ${figures(2 * u)} ${unit} (two standard uncertainties) from marks and pixels`;
