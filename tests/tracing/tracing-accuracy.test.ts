import { describe, expect, test } from 'vitest';
import { fitAxis, type AxisFit } from '../../src/tracing/axis-fit.ts';
import { followLine } from '../../src/tracing/follow-line.ts';
import { applyMap, squareUp, type Corners, type Homography } from '../../src/tracing/homography.ts';
import type { Picture, Pixel } from '../../src/tracing/pixel.ts';
import { snapToLine } from '../../src/tracing/snap.ts';
import {
  curveUncertainty,
  readPlace,
  smoothPlaces,
  thinOut,
  type TracedPoint,
} from '../../src/tracing/traced-curve.ts';
import { warpPicture } from '../../src/tracing/warp-picture.ts';
import {
  askew,
  blur,
  CHART,
  PHOTOCOPY,
  drawChart,
  draws,
  flatCorners,
  normal,
  photograph,
  placeOf,
  shadeAndNoise,
  type DrawnChart,
} from './draw-chart.ts';
import { throughJpeg } from './through-jpeg.ts';

/** How a chart comes to the shop: what was done to the drawn picture, and how good following has to be on it. */
interface Sample {
  readonly name: string;
  readonly skew: number;
  readonly degraded: boolean;
  readonly spoil: (picture: Picture) => Picture;
}

const SAMPLES: readonly Sample[] = [
  { name: 'clean', skew: 0, degraded: false, spoil: (picture) => picture },
  { name: 'skewed', skew: 0.12, degraded: false, spoil: (picture) => picture },
  { name: 'blurred', skew: 0, degraded: true, spoil: (picture) => blur(picture, 1) },
  { name: 'JPEG at quality 40', skew: 0, degraded: true, spoil: (picture) => throughJpeg(picture, 40) },
  { name: 'noisy', skew: 0, degraded: true, spoil: (picture) => shadeAndNoise(picture, 0, 12, 5) },
  {
    name: 'photographed',
    skew: 0.12,
    degraded: true,
    spoil: (picture) => throughJpeg(shadeAndNoise(blur(picture, 1), 0.35, 6, 9), 60),
  },
];
const SIZES = [
  [640, 480],
  [1200, 900],
  [2000, 1500],
] as const;

/** A person's click: off by about a pixel each way. */
const clicked = ({ x, y }: Pixel, draw: () => number): Pixel => ({
  x: x + 0.7 * normal(draw),
  y: y + 0.7 * normal(draw),
});

/** All that a person does before the first boundary: four corners, then marks on both axes. */
function calibrated(chart: DrawnChart, picture: Picture, map: Homography, draw: () => number) {
  const corners = flatCorners(chart).map((corner) =>
    clicked(applyMap(map, corner), draw),
  ) as unknown as Corners;
  const squared = squareUp(corners);
  if (!squared.ok) throw new Error(squared.problem.code);
  const upright = squared.value;
  const seen = (speed: number, volume: number): Pixel =>
    applyMap(upright.map, clicked(applyMap(map, placeOf(chart, speed, volume)), draw));
  const x = fitted([100, 140, 180, 220, 260].map((value) => ({ px: seen(value, 100).x, value })));
  const y = fitted([100, 250, 400, 550, 700].map((value) => ({ px: seen(100, value).y, value })));
  const flat = warpPicture(picture, upright.map, upright.width, upright.height);
  return { axes: { x, y }, flat, seen };
}

function fitted(marks: readonly { px: number; value: number }[]): AxisFit {
  const fit = fitAxis(marks, 'linear');
  if (!fit.ok) throw new Error(fit.problem.code);
  return fit.value;
}

/** Differences from the drawn curve in per cent of full scale at fifty speeds, sorted. */
function errorsOf(points: readonly TracedPoint[], volumeAt: (speed: number) => number): number[] {
  const [from, to] = [points[0]!.x, points.at(-1)!.x];
  return Array.from({ length: 50 }, (_, step) => {
    const speed = from + ((step + 0.5) / 50) * (to - from);
    const next = points.findIndex(({ x }) => x >= speed);
    const [a, b] = [points[Math.max(0, next - 1)]!, points[Math.max(1, next)]!];
    const volume = a.y + ((speed - a.x) / (b.x - a.x)) * (b.y - a.y);
    return (100 * Math.abs(volume - volumeAt(speed))) / (CHART.volume[1] - CHART.volume[0]);
  }).sort((a, b) => a - b);
}

const results: string[] = [];
const note = (name: string, errors: readonly number[]) =>
  results.push(
    `${name}: median ${errors[25]!.toFixed(2)} %, worst ${errors.at(-1)!.toFixed(2)} % of full scale`,
  );

describe.each(SIZES)('a chart of %i by %i pixels', (width, height) => {
  const chart: DrawnChart = { ...CHART, width, height };
  const drawn = drawChart(chart);

  test.each(SAMPLES)(
    '$name: clicking and following give the drawn curves',
    ({ name, skew, degraded, spoil }) => {
      const draw = draws(width + name.length);
      const map = askew(width, height, skew);
      const picture = spoil(skew === 0 ? drawn : photograph(drawn, map));
      const { axes, flat, seen } = calibrated(chart, picture, map, draw);
      chart.curves.forEach(({ volumeAt }, which) => {
        const speeds = Array.from({ length: 9 }, (_, step) => 104 + (step * 152) / 8).filter(
          (speed) => volumeAt(speed) < 690,
        );
        const clicks = speeds.map((speed) => {
          const click = seen(speed, volumeAt(speed));
          return readPlace(axes, snapToLine(flat, click)?.at ?? click);
        });
        const byHand = errorsOf(clicks, volumeAt);
        note(`${width} ${name}, curve ${which + 1}, clicked`, byHand);
        expect(byHand[25]).toBeLessThan(0.5);
        expect(byHand.at(-1)).toBeLessThan(1);
        expect(curveUncertainty(clicks)).toBeGreaterThan(0);

        const followed = followLine(flat, seen(150, volumeAt(150)));
        if (!followed.ok) throw new Error(`${name}: ${followed.problem.code}`);
        const places = thinOut(smoothPlaces(followed.value), 0.4);
        const points = places.map((place) => readPlace(axes, place));
        const byColour = errorsOf(points, volumeAt);
        note(`${width} ${name}, curve ${which + 1}, followed`, byColour);
        // The whole of the curve, not a stretch of it.
        expect(points.at(-1)!.x - points[0]!.x).toBeGreaterThan(0.85 * (speeds.at(-1)! - speeds[0]!));
        expect(byColour.at(-1)).toBeLessThan(degraded ? 2 : 1);
      });
    },
  );
});

test.each(SIZES)(
  'a photocopy with curves, frame and grid all grey or black is followed too, %i by %i',
  (width, height) => {
    const chart: DrawnChart = { ...PHOTOCOPY, width, height };
    const picture = throughJpeg(shadeAndNoise(drawChart(chart), 0, 6, 3), 60);
    const { axes, flat, seen } = calibrated(chart, picture, askew(width, height, 0), draws(width));
    chart.curves.forEach(({ volumeAt }, which) => {
      const followed = followLine(flat, seen(150, volumeAt(150)));
      if (!followed.ok) throw new Error(followed.problem.code);
      const points = smoothPlaces(followed.value).map((place) => readPlace(axes, place));
      // At the frame, which is as black as they are, the curves end.
      const inside = points.filter(({ x, y }) => x > 102 && x < 258 && y < 690);
      const errors = errorsOf(inside, volumeAt);
      note(`${width} photocopy, curve ${which + 1}, followed`, errors);
      expect(inside.at(-1)!.x - inside[0]!.x).toBeGreaterThan(130);
      expect(errors.at(-1)).toBeLessThan(2);
    });
  },
);

test('the figures', () => {
  console.log(results.join('\n'));
  expect(results.length).toBe(SIZES.length * CHART.curves.length * (SAMPLES.length * 2 + 1));
});
