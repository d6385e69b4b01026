import {
  applyMap,
  homographyOf,
  invertMap,
  type Corners,
  type Homography,
} from '../../src/tracing/homography.ts';
import type { Colour } from '../../src/tracing/line-colour.ts';
import type { Picture, Pixel } from '../../src/tracing/pixel.ts';

/** A chart that the tests draw themselves: invented curves of volume (mL) over speed (rpm). */
export interface DrawnCurve {
  readonly colour: Colour;
  readonly dash: number | null; // columns on and off
  readonly volumeAt: (speedRpm: number) => number;
}

export interface DrawnChart {
  readonly width: number;
  readonly height: number;
  readonly speed: readonly [number, number];
  readonly volume: readonly [number, number];
  readonly curves: readonly DrawnCurve[];
}

const MARGIN = 0.08;
const GRID: Colour = [205, 205, 205];
const FRAME: Colour = [40, 40, 40];

export const CHART: Omit<DrawnChart, 'width' | 'height'> = {
  speed: [100, 260],
  volume: [100, 700],
  curves: [
    { colour: [200, 30, 30], dash: null, volumeAt: (n) => 150 + 2.1 * (n - 100) - 0.0018 * (n - 100) ** 2 },
    { colour: [20, 110, 40], dash: null, volumeAt: (n) => 230 + 2.4 * (n - 100) - 0.0012 * (n - 100) ** 2 },
    { colour: [30, 60, 180], dash: 9, volumeAt: (n) => 330 + 2.0 * (n - 100) + 0.001 * (n - 100) ** 2 },
  ],
};

/** The same curves in one black ink, as on a photocopy. */
export const PHOTOCOPY: Omit<DrawnChart, 'width' | 'height'> = {
  ...CHART,
  curves: CHART.curves.map((curve) => ({ ...curve, colour: [25, 25, 25] })),
};

/** The frame's corners in the flat picture. */
export const flatCorners = ({ width, height }: Pick<DrawnChart, 'width' | 'height'>): Corners => [
  { x: MARGIN * width, y: MARGIN * height },
  { x: (1 - MARGIN) * width, y: MARGIN * height },
  { x: (1 - MARGIN) * width, y: (1 - MARGIN) * height },
  { x: MARGIN * width, y: (1 - MARGIN) * height },
];

/** Where a chart value lies in the flat picture. */
export function placeOf(chart: DrawnChart, speedRpm: number, volumeMl: number): Pixel {
  const [left, , right] = flatCorners(chart);
  const part = (value: number, [from, to]: readonly [number, number]) => (value - from) / (to - from);
  return {
    x: left.x + part(speedRpm, chart.speed) * (right.x - left.x),
    y: right.y - part(volumeMl, chart.volume) * (right.y - left.y),
  };
}

/** Draws the chart flat: paper, grid, frame and curves, edges smooth by how much of a pixel is covered. */
export function drawChart(chart: DrawnChart): Picture {
  const { width, height } = chart;
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  const thick = Math.max(1.6, width / 450);
  const [topLeft, , bottomRight] = flatCorners(chart);
  const inside = (x: number, y: number) =>
    x >= topLeft.x && x <= bottomRight.x && y >= topLeft.y && y <= bottomRight.y;
  const steps = 8;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [cx, cy] = [x + 0.5, y + 0.5];
      if (!inside(cx, cy)) continue;
      const across = ((cx - topLeft.x) / (bottomRight.x - topLeft.x)) * steps;
      const up = ((cy - topLeft.y) / (bottomRight.y - topLeft.y)) * steps;
      const toGrid = Math.min(
        Math.abs(across - Math.round(across)) * ((bottomRight.x - topLeft.x) / steps),
        Math.abs(up - Math.round(up)) * ((bottomRight.y - topLeft.y) / steps),
      );
      const edge = [across, up].some((part) => Math.min(part, steps - part) < 0.02);
      paint(data, 4 * (y * width + x), edge ? FRAME : GRID, coverage(toGrid, thick / 2));
      const speed =
        chart.speed[0] + ((cx - topLeft.x) / (bottomRight.x - topLeft.x)) * (chart.speed[1] - chart.speed[0]);
      for (const curve of chart.curves) {
        if (curve.dash !== null && Math.floor(x / curve.dash) % 3 === 2) continue;
        const place = placeOf(chart, speed, curve.volumeAt(speed));
        const next = placeOf(chart, speed + 1, curve.volumeAt(speed + 1));
        const slope = (next.y - place.y) / (next.x - place.x);
        paint(
          data,
          4 * (y * width + x),
          curve.colour,
          coverage(Math.abs(cy - place.y) / Math.hypot(1, slope), thick),
        );
      }
    }
  return { width, height, data };
}

const coverage = (distance: number, thickness: number) =>
  Math.max(0, Math.min(1, thickness / 2 + 0.5 - distance));

function paint(data: Uint8ClampedArray, at: number, colour: Colour, cover: number): void {
  for (let channel = 0; channel < 3; channel++)
    data[at + channel] = data[at + channel]! * (1 - cover) + colour[channel]! * cover;
}

/** A photograph of the flat picture, taken askew: the map from flat to photo, and the photo on a grey bench. */
export function photograph(picture: Picture, map: Homography): Picture {
  const { width, height } = picture;
  const back = invertMap(map);
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const from = applyMap(back, { x: x + 0.5, y: y + 0.5 });
      const [fx, fy] = [from.x - 0.5, from.y - 0.5];
      const [left, top] = [Math.floor(fx), Math.floor(fy)];
      const at = 4 * (y * width + x);
      if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) {
        data.set([120, 118, 116], at);
        continue;
      }
      for (let channel = 0; channel < 3; channel++) {
        const value = (dx: number, dy: number) =>
          picture.data[4 * ((top + dy) * width + left + dx) + channel]!;
        const [r, d] = [fx - left, fy - top];
        data[at + channel] =
          (value(0, 0) * (1 - r) + value(1, 0) * r) * (1 - d) + (value(0, 1) * (1 - r) + value(1, 1) * r) * d;
      }
    }
  return { width, height, data };
}

/** The map of a camera held askew: each corner of the picture moves by a part of its size. */
export function askew(width: number, height: number, amount: number): Homography {
  const from: Corners = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ];
  const to: Corners = [
    { x: 0.9 * amount * width, y: 0.6 * amount * height },
    { x: (1 - 0.3 * amount) * width, y: 0.2 * amount * height },
    { x: (1 - 0.8 * amount) * width, y: (1 - 0.3 * amount) * height },
    { x: 0.2 * amount * width, y: (1 - 0.7 * amount) * height },
  ];
  return homographyOf(from, to)!;
}

/** A box blur of this radius, twice: near enough to a lens out of focus. */
export function blur(picture: Picture, radius: number): Picture {
  const once = ({ width, height, data }: Picture): Picture => {
    const out = new Uint8ClampedArray(data.length).fill(255);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++)
        for (let channel = 0; channel < 3; channel++) {
          let [sum, count] = [0, 0];
          for (let dy = -radius; dy <= radius; dy++)
            for (let dx = -radius; dx <= radius; dx++) {
              const [px, py] = [x + dx, y + dy];
              if (px < 0 || py < 0 || px >= width || py >= height) continue;
              sum += data[4 * (py * width + px) + channel]!;
              count++;
            }
          out[4 * (y * width + x) + channel] = sum / count;
        }
    return { width, height, data: out };
  };
  return once(picture);
}

/** Shade that falls across the page, and noise of this standard deviation, from a seed. */
export function shadeAndNoise(
  { width, height, data }: Picture,
  shade: number,
  noise: number,
  seed: number,
): Picture {
  const draw = draws(seed);
  const out = Uint8ClampedArray.from(data);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let channel = 0; channel < 3; channel++) {
        const at = 4 * (y * width + x) + channel;
        const light = 1 - shade * (0.7 * (x / width) + 0.3 * (y / height));
        out[at] = data[at]! * light + noise * normal(draw);
      }
  return { width, height, data: out };
}

/** Even numbers from 0 to 1, always the same for a seed (mulberry32, from memory; only its evenness matters here). */
export function draws(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A normal deviate by Box and Muller. */
export const normal = (draw: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());
