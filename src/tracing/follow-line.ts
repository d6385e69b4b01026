import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { colourAt, coverOf, medianColour, type LineColour } from './line-colour.ts';
import type { Picture, Pixel } from './pixel.ts';
import { snapToLine } from './snap.ts';

/** A dashed line, a grid line or a label may hide the curve for this many columns. */
const LONGEST_HOLE = 24;
/** How far above and below the place that is expected the curve is looked for, px; more in steep stretches and holes. */
const REACH = 5;
/** How much of a column's pixels the ink must cover to count as seen, px. */
const LEAST_INK = 0.45;
/** The direction of the curve is that of the last so many columns. */
const SLOPE_COLUMNS = 14;
/** Fewer columns than this are a dot or a letter. */
const LEAST_COLUMNS = 12;

/**
 * Follows a curve by its colour from a click, to the left and to the right, one place a column, in order of x. It goes straight
 * on over holes and crossings. Problems: `tracing.no-line-there` where nothing stands out at the click,
 * `tracing.line-too-short` where what stands out is no curve.
 */
export function followLine(picture: Picture, click: Pixel): Result<readonly Pixel[]> {
  const start = snapToLine(picture, click);
  if (!start) return failed(problem('tracing.no-line-there'));
  const right = walk(picture, start.at, start.colour, 1);
  const left = walk(picture, start.at, start.colour, -1);
  const places = [...left.reverse(), start.at, ...right];
  if (places.length < LEAST_COLUMNS)
    return failed(problem('tracing.line-too-short', { columns: places.length }));
  return ok(places);
}

/** The places of the curve one way from a start, nearest first. */
function walk(picture: Picture, start: Pixel, colour: LineColour, way: 1 | -1): Pixel[] {
  const places: Pixel[] = [];
  let last = start;
  let hole = 0;
  for (let x = Math.floor(start.x) + way; x >= 0 && x < picture.width && hole <= LONGEST_HOLE; x += way) {
    const slope = slopeOf(places.length < SLOPE_COLUMNS ? [start, ...places] : places);
    const expected = last.y + slope * (x + 0.5 - last.x);
    const reach = REACH + Math.abs(slope) + hole / 4;
    const y = inkIn(picture, { column: x, expected, reach }, colour);
    if (y === null) hole++;
    else {
      last = { x: x + 0.5, y };
      places.push(last);
      hole = 0;
    }
  }
  return places;
}

interface Look {
  readonly column: number;
  readonly expected: number;
  readonly reach: number;
}

/** The middle of the ink nearest to the place expected; null where there is too little. */
function inkIn(
  picture: Picture,
  { column, expected, reach }: Look,
  { line, paper }: LineColour,
): number | null {
  const from = Math.max(0, Math.round(expected - reach));
  const to = Math.min(picture.height - 1, Math.round(expected + reach));
  const local = paperBeside(picture, column, expected, paper);
  let best: { y: number; off: number } | null = null;
  let [sum, ink] = [0, 0];
  for (let row = from; row <= to + 1; row++) {
    const cover = row <= to ? coverOf(colourAt(picture, column, row), { line, paper: local }) : 0;
    if (cover > 0) {
      sum += cover * (row + 0.5);
      ink += cover;
      continue;
    }
    const off = Math.abs(sum / ink - expected);
    if (ink >= LEAST_INK && (best === null || off < best.off)) best = { y: sum / ink, off };
    [sum, ink] = [0, 0];
  }
  return best?.y ?? null;
}

/** Shade falls on a photograph: the paper is looked at beside the curve, and believed where it is much like the paper known. */
function paperBeside(picture: Picture, column: number, expected: number, known: LineColour['paper']) {
  const beside = [];
  for (let off = 6; off <= 14; off++)
    for (const row of [Math.round(expected) - off, Math.round(expected) + off])
      if (row >= 0 && row < picture.height) beside.push(colourAt(picture, column, row));
  const seen = medianColour(beside);
  const differs = Math.max(...seen.map((channel, index) => Math.abs(channel - known[index]!)));
  return beside.length >= 8 && differs < 60 ? seen : known;
}

/** Change of y a column over the last places, by least squares; level at the beginning. */
function slopeOf(places: readonly Pixel[]): number {
  const tail = places.slice(-SLOPE_COLUMNS);
  if (tail.length < 5) return 0;
  const middleX = tail.reduce((sum, { x }) => sum + x, 0) / tail.length;
  const middleY = tail.reduce((sum, { y }) => sum + y, 0) / tail.length;
  const sxx = tail.reduce((sum, { x }) => sum + (x - middleX) ** 2, 0);
  return tail.reduce((sum, { x, y }) => sum + (x - middleX) * (y - middleY), 0) / sxx;
}
