import { CLICK_PX, readAxis, valuePerPx, type AxisFit } from './axis-fit.ts';
import type { Pixel } from './pixel.ts';

/** Both axes of a chart in the squared-up picture: speed along x, volume along y. */
export interface ChartAxes {
  readonly x: AxisFit;
  readonly y: AxisFit;
}

/** A point of a traced curve in the units printed on the chart, each with its standard uncertainty. */
export interface TracedPoint {
  readonly x: number;
  readonly y: number;
  readonly uX: number;
  readonly uY: number;
}

/** A place in the picture as chart values; the click's own doubt is added to that of the axes. */
export function readPlace(axes: ChartAxes, { x, y }: Pixel, placePx = CLICK_PX): TracedPoint {
  const across = readAxis(axes.x, x);
  const up = readAxis(axes.y, y);
  return {
    x: across.value,
    y: up.value,
    uX: Math.hypot(across.u, valuePerPx(axes.x, across.value) * placePx),
    uY: Math.hypot(up.u, valuePerPx(axes.y, up.value) * placePx),
  };
}

/**
 * The standard uncertainty of the curve across itself, in the unit of y: the root mean square over its points of
 * u(y) and slope * u(x), first order (GUM 5.1.2). A curve of fewer than two points has none to tell: NaN.
 */
export function curveUncertainty(points: readonly TracedPoint[]): number {
  if (points.length < 2) return NaN;
  const squares = points.map(({ uX, uY }, place) => uY ** 2 + (slopeAt(points, place) * uX) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / points.length);
}

function slopeAt(points: readonly TracedPoint[], place: number): number {
  const before = points[Math.max(0, place - 1)]!;
  const after = points[Math.min(points.length - 1, place + 1)]!;
  return after.x === before.x ? 0 : (after.y - before.y) / (after.x - before.x);
}

/** Half the columns over which a followed line is smoothed before it is thinned out. */
const SMOOTH_COLUMNS = 6;

/** A followed line with its pixel noise taken out: each place on the straight line through its neighbours. */
export function smoothPlaces(places: readonly Pixel[]): readonly Pixel[] {
  return places.map((place, index) => {
    const reach = Math.min(SMOOTH_COLUMNS, index, places.length - 1 - index);
    const around = places.slice(index - reach, index + reach + 1);
    return { x: place.x, y: around.reduce((sum, { y }) => sum + y, 0) / around.length };
  });
}

/**
 * The fewest places from which straight lines come within `tolerancePx` of all others; the ends stay.
 * Method: Ramer 1972 and Douglas & Peucker 1973, by height (y) since a curve is read at a given x.
 */
export function thinOut(places: readonly Pixel[], tolerancePx: number): readonly Pixel[] {
  if (places.length <= 2) return places;
  const keep = new Set([0, places.length - 1]);
  const spans: [number, number][] = [[0, places.length - 1]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const [from, to] = span;
    const worst = farthest(places, from, to);
    if (worst === null || worst.off <= tolerancePx) continue;
    keep.add(worst.place);
    spans.push([from, worst.place], [worst.place, to]);
  }
  return places.filter((_, place) => keep.has(place));
}

function farthest(places: readonly Pixel[], from: number, to: number): { place: number; off: number } | null {
  const [start, end] = [places[from]!, places[to]!];
  let found: { place: number; off: number } | null = null;
  for (let place = from + 1; place < to; place++) {
    const { x, y } = places[place]!;
    const off = Math.abs(y - start.y - ((x - start.x) * (end.y - start.y)) / (end.x - start.x));
    if (found === null || off > found.off) found = { place, off };
  }
  return found;
}
