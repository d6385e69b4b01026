import {
  colourAt,
  coverOf,
  LEAST_CONTRAST,
  lengthOf,
  medianColour,
  minus,
  type Colour,
  type LineColour,
} from './line-colour.ts';
import { distancePx, type Picture, type Pixel } from './pixel.ts';

/** How far from the click a line is looked for, px. */
export const SNAP_PX = 8;
/** Pixels about the click from which the colour of the paper is taken. */
const PAPER_PX = 14;

/** A line that was found at a click. */
export interface Snapped {
  readonly at: Pixel;
  readonly colour: LineColour;
}

/**
 * Finds the line nearest to a click: the place of most contrast against the paper, near first, moved to the middle of the
 * line across both directions. Null where nothing stands out within `SNAP_PX`.
 */
export function snapToLine(picture: Picture, click: Pixel): Snapped | null {
  const paper = medianColour(coloursAbout(picture, click, PAPER_PX).map(({ colour }) => colour));
  const near = coloursAbout(picture, click, SNAP_PX);
  const scored = near.map(({ colour, at }) => ({
    at,
    colour,
    contrast: lengthOf(minus(colour, paper)),
    score: lengthOf(minus(colour, paper)) * (1 - (0.5 * distancePx(at, click)) / SNAP_PX),
  }));
  const best = scored.reduce((found, each) => (each.score > found.score ? each : found), {
    at: click,
    colour: paper,
    contrast: 0,
    score: 0,
  });
  if (best.contrast < LEAST_CONTRAST) return null;
  const colour = { line: coreColour(scored, best), paper };
  return { at: middleOfLine(picture, best.at, colour), colour };
}

interface Spot {
  readonly at: Pixel;
  readonly colour: Colour;
}

/** The pixels within a square about a place that lie in the picture. */
function coloursAbout(picture: Picture, { x, y }: Pixel, reach: number): readonly Spot[] {
  const spots: Spot[] = [];
  for (let row = Math.floor(y) - reach; row <= Math.floor(y) + reach; row++)
    for (let column = Math.floor(x) - reach; column <= Math.floor(x) + reach; column++)
      if (row >= 0 && column >= 0 && row < picture.height && column < picture.width)
        spots.push({ at: { x: column + 0.5, y: row + 0.5 }, colour: colourAt(picture, column, row) });
  return spots;
}

/** The ink of the line: the mean of what is next to the best pixel and nearly as strong. */
function coreColour(
  scored: readonly (Spot & { contrast: number })[],
  best: Spot & { contrast: number },
): Colour {
  const core = scored.filter(
    ({ at, contrast }) => distancePx(at, best.at) <= 2.5 && contrast > 0.75 * best.contrast,
  );
  const mean = (channel: 0 | 1 | 2) =>
    core.reduce((sum, { colour }) => sum + colour[channel], 0) / core.length;
  return [mean(0), mean(1), mean(2)];
}

/** Moves up or down to the middle of the ink; a line is taken to run more across than up. */
function middleOfLine(picture: Picture, { x, y }: Pixel, colour: LineColour): Pixel {
  const column = Math.floor(x);
  let [sum, weight] = [0, 0];
  for (let row = Math.floor(y) - 4; row <= Math.floor(y) + 4; row++) {
    if (row < 0 || row >= picture.height) continue;
    const cover = coverOf(colourAt(picture, column, row), colour);
    sum += cover * (row + 0.5);
    weight += cover;
  }
  return { x, y: weight > 0 ? sum / weight : y };
}
