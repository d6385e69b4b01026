import type { Page } from 'playwright';
import { encode } from 'jpeg-js';
import { applyMap, type Corners } from '../../src/tracing/homography.ts';
import type { Pixel } from '../../src/tracing/pixel.ts';
import { squaredFrame } from '../../src/tracing/squared-frame.ts';
import {
  askew,
  CHART,
  drawChart,
  flatCorners,
  photograph,
  placeOf,
  type DrawnChart,
} from '../tracing/draw-chart.ts';

/** A chart that the test drew and photographed askew, as a file, and where its values lie on it. */
export interface ChartPhoto {
  readonly file: { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };
  /** The corners of its frame in the picture as it comes. */
  readonly corners: Corners;
  /** Where a value lies once the picture is squared up by these corners. */
  readonly squared: (speedRpm: number, volumeMl: number) => Pixel;
  /** The middle of the squared-up picture: there the cross hair begins when it was nowhere. */
  readonly middle: Pixel;
}

export function chartPhoto(width = 800, height = 600): ChartPhoto {
  const chart: DrawnChart = { ...CHART, width, height };
  const map = askew(width, height, 0.08);
  const picture = photograph(drawChart(chart), map);
  const [topLeft, topRight, bottomRight, bottomLeft] = flatCorners(chart);
  const corners: Corners = [
    applyMap(map, topLeft),
    applyMap(map, topRight),
    applyMap(map, bottomRight),
    applyMap(map, bottomLeft),
  ];
  const frame = squaredFrame(corners, picture);
  if (!frame.ok) throw new Error('the corners of the drawn chart make no frame');
  const up = frame.value.map;
  const data = Buffer.from(picture.data);
  return {
    file: {
      name: 'chart.jpg',
      mimeType: 'image/jpeg',
      buffer: encode({ width, height, data }, 92).data,
    },
    corners,
    squared: (speedRpm, volumeMl) => applyMap(up, applyMap(map, placeOf(chart, speedRpm, volumeMl))),
    middle: { x: frame.value.width / 2, y: frame.value.height / 2 },
  };
}

interface Board extends HTMLElement {
  readonly clientPlace: (at: Pixel) => Pixel;
}

/** Where a place of the picture that is shown lies in the window now. */
export const onBoard = (page: Page, at: Pixel): Promise<Pixel> =>
  page.locator('m-picture-board').evaluate((board, place) => (board as Board).clientPlace(place), at);

/** Moves the cross hair of the focused picture by arrow keys, by 50, 5 and 1 pixels; gives where it is then. */
export async function steer(page: Page, from: Pixel, to: Pixel): Promise<Pixel> {
  const along = async (way: number, back: string, forth: string): Promise<number> => {
    const arrow = way < 0 ? back : forth;
    const whole = Math.round(Math.abs(way));
    const steps = [
      [`Shift+${arrow}`, Math.floor(whole / 50)],
      [arrow, Math.floor((whole % 50) / 5)],
      [`Alt+${arrow}`, whole % 5],
    ] as const;
    for (const [key, count] of steps) for (let n = 0; n < count; n += 1) await page.keyboard.press(key);
    return Math.sign(way) * whole;
  };
  return {
    x: from.x + (await along(to.x - from.x, 'ArrowLeft', 'ArrowRight')),
    y: from.y + (await along(to.y - from.y, 'ArrowUp', 'ArrowDown')),
  };
}
