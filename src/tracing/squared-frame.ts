import { ok, type Result } from '../problems/result.ts';
import { squareUp, type Corners, type Homography } from './homography.ts';
import type { Picture, Pixel } from './pixel.ts';

/** An upright picture to be made: the map to it from the picture as it came, and its size. */
export interface SquaredFrame {
  readonly map: Homography;
  readonly width: number;
  readonly height: number;
}

/** The numbers of a scale are printed outside the chart's frame: so much beside it is kept, as a part of its side. */
const MARGIN = 0.2;

/** What the arithmetic of the map may leave over on a whole pixel: it must not buy another one. */
const ROUNDING_PX = 1e-6;

/**
 * The frame squared up with what stands beside it, as far as the picture reaches and at most a fifth of the frame's side.
 * Problems: those of `squareUp`.
 */
export function squaredFrame(
  corners: Corners,
  picture: Pick<Picture, 'width' | 'height'>,
): Result<SquaredFrame> {
  const squared = squareUp(corners);
  if (!squared.ok) return squared;
  const { map, width, height } = squared.value;
  const seen = outline(picture).map((corner) => placed(map, corner));
  const margin = (side: number, reaches: (at: Pixel) => number) => {
    // A corner behind the camera's horizon has no place: then nothing is known, and all of the margin is kept.
    const far = seen.map((at) => (at ? reaches(at) : Infinity));
    return Math.ceil(Math.min(MARGIN * side, Math.max(0, ...far)) - ROUNDING_PX);
  };
  const left = margin(width, ({ x }) => -x);
  const right = margin(width, ({ x }) => x - width);
  const top = margin(height, ({ y }) => -y);
  const bottom = margin(height, ({ y }) => y - height);
  return ok({ map: shifted(map, left, top), width: width + left + right, height: height + top + bottom });
}

const outline = ({ width, height }: Pick<Picture, 'width' | 'height'>): readonly Pixel[] => [
  { x: 0, y: 0 },
  { x: width, y: 0 },
  { x: width, y: height },
  { x: 0, y: height },
];

/** Where the map takes a place; null on its horizon and behind it. */
function placed(map: Homography, { x, y }: Pixel): Pixel | null {
  const depth = map[6] * x + map[7] * y + map[8];
  if (depth < 1e-9) return null;
  return {
    x: (map[0] * x + map[1] * y + map[2]) / depth,
    y: (map[3] * x + map[4] * y + map[5]) / depth,
  };
}

/** The map, then a shift to the right and down; its last element stays 1. */
function shifted(map: Homography, right: number, down: number): Homography {
  const [a, b, c, d, e, f, g, h, i] = map;
  return [a + right * g, b + right * h, c + right * i, d + down * g, e + down * h, f + down * i, g, h, i];
}
