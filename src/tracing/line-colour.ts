import type { Picture } from './pixel.ts';

/** Red, green, blue. */
export type Colour = readonly [number, number, number];

/** A line in a picture by its colours: that of its core and that of the paper beside it. */
export interface LineColour {
  readonly line: Colour;
  readonly paper: Colour;
}

/** Less difference from the paper than this cannot be followed (0 to 442, the length of a colour difference). */
export const LEAST_CONTRAST = 40;

export function colourAt({ width, data }: Picture, x: number, y: number): Colour {
  const at = 4 * (y * width + x);
  return [data[at]!, data[at + 1]!, data[at + 2]!];
}

export const minus = (a: Colour, b: Colour): Colour => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const dot = (a: Colour, b: Colour): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const lengthOf = (a: Colour): number => Math.sqrt(dot(a, a));

/** The middle colour, channel by channel: what most of the pixels are. An empty list is white. */
export function medianColour(colours: readonly Colour[]): Colour {
  const middle = (channel: 0 | 1 | 2) =>
    colours.map((colour) => colour[channel]).sort((a, b) => a - b)[colours.length >> 1] ?? 255;
  return [middle(0), middle(1), middle(2)];
}

/**
 * How much of a pixel the line covers, 0 to 1, by where its colour lies between paper and line. A colour that points
 * another way (another curve, a grid) covers nothing.
 */
export function coverOf(colour: Colour, { line, paper }: LineColour): number {
  const way = minus(line, paper);
  const off = minus(colour, paper);
  const square = dot(way, way);
  if (square === 0) return 0;
  const part = dot(off, way) / square;
  const far = lengthOf(off);
  if (part <= FAINTEST || dot(off, way) < LEAST_COSINE * far * Math.sqrt(square)) return 0;
  return Math.min(1, (part - FAINTEST) / (1 - FAINTEST));
}

/** Fainter than this a pixel may be grid or noise. */
const FAINTEST = 0.3;
/** The cosine of the angle between two colour differences below which they are different inks. */
const LEAST_COSINE = 0.9;
