import type { CurvePoint } from '../limits/boundary-curve.ts';
import type { ChartScale, Frame } from './limit-chart-geometry.ts';

/** Shown while there is no point yet: speeds and volumes of an empty chart. */
const EMPTY = { fromRpm: 80, toRpm: 260, maxVolume: 400 };

/** Axes that show every point with room around it, whether or not they make a chart yet. */
export function editorScale(points: readonly CurvePoint[], frame: Frame): ChartScale {
  const speeds = points.map(([speed]) => speed);
  const some = points.length > 0;
  const [low, high] = some ? [Math.min(...speeds), Math.max(...speeds)] : [EMPTY.fromRpm, EMPTY.toRpm];
  const room = Math.max((high - low) * 0.1, 10);
  const top = Math.max(0, ...points.map(([, volume]) => volume));
  const minRpm = Math.max(0, low - room);
  const maxRpm = high + room;
  const maxMl = (top > 0 ? top : EMPTY.maxVolume) * 1.18;
  return {
    ...frame,
    minRpm,
    maxRpm,
    maxMl,
    x: (rpm) => frame.left + ((rpm - minRpm) / (maxRpm - minRpm)) * (frame.right - frame.left),
    y: (ml) => frame.bottom - (Math.max(0, ml) / maxMl) * (frame.bottom - frame.top),
  };
}

/** The step of a drag and of an arrow key: 1, or smaller on a chart of few units (litres, ounces). */
export function chartSteps({ maxMl }: ChartScale): { readonly speed: number; readonly volume: number } {
  const pixel = maxMl / 400;
  return { speed: 1, volume: pixel >= 0.4 ? 1 : 10 ** Math.ceil(Math.log10(pixel)) };
}

/** The point of the chart at a place of the drawing, rounded to the steps and kept on the axes. */
export function pointAt(scale: ChartScale, x: number, y: number): CurvePoint {
  const inside = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);
  const across = inside((x - scale.left) / (scale.right - scale.left), 0, 1);
  const up = inside((scale.bottom - y) / (scale.bottom - scale.top), 0, 1);
  const steps = chartSteps(scale);
  return [
    onStep(scale.minRpm + across * (scale.maxRpm - scale.minRpm), steps.speed),
    onStep(up * scale.maxMl, steps.volume),
  ];
}

const onStep = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toPrecision(12));
