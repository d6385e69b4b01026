import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { distancePx, type Pixel } from './pixel.ts';

/** Four corners of the chart's frame in the picture: top left, top right, bottom right, bottom left. */
export type Corners = readonly [Pixel, Pixel, Pixel, Pixel];

/** A projective map of the plane, row by row; the last number is 1. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** A corner that lies nearly on the line between its neighbours makes no frame; as a fraction of the frame's area. */
const LEAST_CORNER = 0.02;

/**
 * The map that takes the frame in the picture to an upright rectangle `width` by `height`, whose pixels are about as
 * large as those of the picture. Corners in another order, in a line, or crossing give `tracing.corners-unusable`.
 * Method: direct linear solution of the eight equations of four points (from memory, any text on projective geometry).
 */
export function squareUp(corners: Corners): Result<{ map: Homography; width: number; height: number }> {
  if (!isConvex(corners)) return failed(problem('tracing.corners-unusable'));
  const [topLeft, topRight, bottomRight, bottomLeft] = corners;
  const width = Math.round(Math.max(distancePx(topLeft, topRight), distancePx(bottomLeft, bottomRight)));
  const height = Math.round(Math.max(distancePx(topLeft, bottomLeft), distancePx(topRight, bottomRight)));
  const target: Corners = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ];
  const map = homographyOf(corners, target);
  return map ? ok({ map, width, height }) : failed(problem('tracing.corners-unusable'));
}

/** Takes a place through the map. On the map's horizon there is no place: NaN. */
export function applyMap(map: Homography, { x, y }: Pixel): Pixel {
  const depth = map[6] * x + map[7] * y + map[8];
  if (Math.abs(depth) < 1e-12) return { x: NaN, y: NaN };
  return {
    x: (map[0] * x + map[1] * y + map[2]) / depth,
    y: (map[3] * x + map[4] * y + map[5]) / depth,
  };
}

/** The map back: adjugate over its last element. */
export function invertMap(map: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = map;
  const adjugate = [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
  const last = adjugate[8]!;
  return adjugate.map((element) => element / last) as unknown as Homography;
}

/** The map that takes each of four places to its partner; null where they do not fix one. */
export function homographyOf(from: Corners, to: Corners): Homography | null {
  const rows: number[][] = [];
  from.forEach(({ x, y }, place) => {
    const { x: u, y: v } = to[place]!;
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, u], [0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  });
  const solution = solve(rows);
  return solution ? ([...solution, 1] as unknown as Homography) : null;
}

/** Gauss elimination with row exchange on the eight equations; the last column is the right side. */
function solve(rows: number[][]): number[] | null {
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    const best = rows
      .slice(column)
      .reduce(
        (found, row, index) =>
          Math.abs(row[column]!) > Math.abs(rows[found]![column]!) ? column + index : found,
        column,
      );
    if (Math.abs(rows[best]![column]!) < 1e-12) return null;
    [rows[column], rows[best]] = [rows[best]!, rows[column]!];
    for (let other = 0; other < size; other++) {
      if (other === column) continue;
      const factor = rows[other]![column]! / rows[column]![column]!;
      for (let k = column; k <= size; k++) rows[other]![k]! -= factor * rows[column]![k]!;
    }
  }
  return rows.map((row, index) => row[size]! / row[index]!);
}

/** Each corner turns the same way (clockwise on the screen), and none is nearly flat. */
function isConvex(corners: Corners): boolean {
  const turns = corners.map((corner, place) => {
    const next = corners[(place + 1) % 4]!;
    const after = corners[(place + 2) % 4]!;
    return (next.x - corner.x) * (after.y - next.y) - (next.y - corner.y) * (after.x - next.x);
  });
  const area = turns.reduce((sum, turn) => sum + Math.abs(turn), 0) / 4;
  return area > 0 && turns.every((turn) => turn > LEAST_CORNER * area);
}
