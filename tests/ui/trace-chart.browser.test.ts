import { page } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Corners } from '../../src/tracing/homography.ts';
import { applyMap } from '../../src/tracing/homography.ts';
import { squaredFrame } from '../../src/tracing/squared-frame.ts';
import type { Pixel } from '../../src/tracing/pixel.ts';
import type { ChartTrace } from '../../src/ui/trace-chart.ts';
import type { TracedChart } from '../../src/ui/trace-result.ts';
import type { CurveName } from '../../src/ui/trace-state.ts';
import {
  askew,
  CHART,
  drawChart,
  flatCorners,
  photograph,
  placeOf,
  type DrawnChart,
} from '../tracing/draw-chart.ts';
import { clearPage, drawn, every, heard, one, textOf } from './mount.ts';
import { handOn, press, traceOf } from './trace-drive.ts';

const [WIDTH, HEIGHT] = [800, 600];
const chart: DrawnChart = { ...CHART, width: WIDTH, height: HEIGHT };
const flat = drawChart(chart);
const FULL_SCALE_ML = CHART.volume[1] - CHART.volume[0];
const CURVES: readonly CurveName[] = ['failBelow', 'passAbove', 'failAbove'];

beforeEach(() => page.viewport(1280, 900));
afterEach(clearPage);

const trace = traceOf;
const wordsOf = (element: ChartTrace, selector: string) =>
  every(element, selector).map((each) => textOf(each));

/** The worst difference from the drawn curve at the traced points and half way between them, per cent of full scale. */
function worstOf(
  points: readonly (readonly [number, number])[],
  volumeAt: (speed: number) => number,
): number {
  const between = points.slice(1).map(([x, y], place) => {
    const [x0, y0] = points[place]!;
    return [(x0 + x) / 2, (y0 + y) / 2] as const;
  });
  const offs = [...points, ...between].map(([speed, volume]) => Math.abs(volume - volumeAt(speed)));
  return (100 * Math.max(...offs)) / FULL_SCALE_ML;
}

function expectCurves(found: TracedChart, widest = 130): void {
  CURVES.forEach((name, which) => {
    const points = found.curves[name]!;
    expect(worstOf(points, CHART.curves[which]!.volumeAt), name).toBeLessThan(1);
    expect(points.at(-1)![0] - points[0]![0]).toBeGreaterThan(widest);
    expect(found.uVolumeMl[name]).toBeGreaterThan(0.1);
    // Half a per cent of the scale is what a click is worth on this picture; the stated doubt is no larger than that.
    expect(found.uVolumeMl[name]).toBeLessThan(FULL_SCALE_ML / 200);
  });
}

const speedsOf = (volumeAt: (speed: number) => number) =>
  [104, 125, 150, 175, 200, 225, 250].filter((speed) => volumeAt(speed) < 690);

describe('m-chart-trace', () => {
  test('by clicks: corners of an askew photograph, scales, three boundaries clicked with snapping', async () => {
    const map = askew(WIDTH, HEIGHT, 0.12);
    const element = await trace(photograph(flat, map));
    const hand = handOn(element);
    const done = heard(element, 'chart-traced');
    const corners = flatCorners(chart).map((corner) => applyMap(map, corner)) as unknown as Corners;
    for (const corner of corners) await hand.click(corner);
    await press(element, '.primary');
    const squared = squaredFrame(corners, chart);
    if (!squared.ok) throw new Error(squared.problem.code);
    const seen = (speed: number, volume: number): Pixel =>
      applyMap(squared.value.map, applyMap(map, placeOf(chart, speed, volume)));
    for (const speed of [100, 180, 260]) {
      await hand.click(seen(speed, 130));
      await hand.type(`${speed}`);
    }
    await press(element, '[data-axis=y]');
    for (const volume of [100, 400, 700]) {
      await hand.click(seen(110, volume));
      await hand.type(`${volume}`);
    }
    await press(element, '.primary');
    for (const [which, name] of CURVES.entries()) {
      await press(element, `[data-curve=${name}]`);
      const { volumeAt } = CHART.curves[which]!;
      // Three pixels off: snapping finds the line.
      for (const speed of speedsOf(volumeAt)) {
        const { x, y } = seen(speed, volumeAt(speed));
        await hand.click({ x, y: y + 3 });
      }
    }
    expect(wordsOf(element, '.facts').join()).toMatch(
      /± .* mL \(two standard uncertainties\) from marks and pixels/,
    );
    await press(element, '.finish');
    expectCurves(done[0] as TracedChart, 100);
    expect((done[0] as TracedChart).notes[0]).toBe(
      `Traced from a picture of ${WIDTH} × ${HEIGHT} pixels, squared up by four corners.`,
    );
  }, 60_000);

  test('by the keyboard alone: straight picture, typed marks, lines followed', async () => {
    const element = await trace(flat);
    const hand = handOn(element);
    const done = heard(element, 'chart-traced');
    const focused = () => element.shadowRoot!.activeElement;
    const tabTo = async (wanted: string, keys = '{Tab}') => {
      for (let turn = 0; turn < 60 && !focused()?.matches(wanted); turn++) await hand.type(keys);
      expect(focused()?.matches(wanted), wanted).toBe(true);
    };
    await tabTo('.block > button:not(.primary)');
    await hand.type('{Enter}');
    let cross: Pixel = { x: 400, y: 300 };
    const go = async (to: Pixel) => {
      const at = { x: Math.round(to.x), y: Math.round(to.y) };
      await hand.steer(cross, at);
      cross = at;
    };
    // Back to the picture: its pane is the first stop in the board.
    const toPicture = async () => {
      element.shadowRoot!.querySelector<HTMLElement>('[data-step=corners]')!.focus();
      await hand.type('{Tab}{Tab}');
      await tabTo('m-picture-board');
    };
    await toPicture();
    cross = await centreOf(element);
    for (const speed of [100, 180, 260]) {
      await go(placeOf(chart, speed, 140));
      await hand.type('{Enter}');
      await hand.type(`${speed}{Enter}`);
      await hand.type('{Escape}');
    }
    await tabTo('[data-axis=y]');
    await hand.type('{Enter}');
    await tabTo('m-picture-board', '{Shift>}{Tab}{/Shift}');
    await toPicture();
    for (const volume of [100, 400, 700]) {
      await go(placeOf(chart, 115, volume));
      await hand.type('{Enter}');
      await hand.type(`${volume},0{Enter}`);
      await hand.type('{Escape}');
    }
    await tabTo('.primary');
    await hand.type('{Enter}');
    await tabTo('[data-follow=true]');
    await hand.type('{Enter}');
    for (const [which, name] of CURVES.entries()) {
      await tabTo(`[data-curve=${name}]`, which === 0 ? '{Shift>}{Tab}{/Shift}' : '{Tab}');
      await hand.type('{Enter}');
      await toPicture();
      await go(placeOf(chart, 150, CHART.curves[which]!.volumeAt(150)));
      await hand.type('{Enter}');
    }
    await tabTo('.finish');
    await hand.type('{Enter}');
    expectCurves(done[0] as TracedChart);
  }, 60_000);
});

/** The place of the picture in the middle of the pane, where the cross hair begins. */
async function centreOf(element: ChartTrace): Promise<Pixel> {
  const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
  await drawn();
  const { left, top, width, height } = one(board, 'canvas').getBoundingClientRect();
  const [o, p] = [board.clientPlace({ x: 0, y: 0 }), board.clientPlace({ x: 100, y: 100 })];
  const scale = (p.x - o.x) / 100;
  return { x: (left + width / 2 - o.x) / scale, y: (top + height / 2 - o.y) / scale };
}
