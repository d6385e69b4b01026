import { html } from 'lit';
import { page } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Corners } from '../../src/tracing/homography.ts';
import { applyMap, squareUp } from '../../src/tracing/homography.ts';
import type { Picture, Pixel } from '../../src/tracing/pixel.ts';
import '../../src/ui/trace-chart.ts';
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
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  settled,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';
import { handOn } from './trace-drive.ts';

const [WIDTH, HEIGHT] = [800, 600];
const chart: DrawnChart = { ...CHART, width: WIDTH, height: HEIGHT };
const flat = drawChart(chart);
const FULL_SCALE_ML = CHART.volume[1] - CHART.volume[0];
const CURVES: readonly CurveName[] = ['failBelow', 'passAbove', 'failAbove'];

beforeEach(() => page.viewport(1280, 900));
afterEach(clearPage);

const trace = async (picture: Picture) => {
  const element = await mount<ChartTrace>(html`<m-chart-trace .picture=${picture}></m-chart-trace>`);
  await drawn();
  return element;
};
const press = async (element: ChartTrace, selector: string) => {
  one(element, selector).click();
  await settled(element);
  await drawn();
};
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
    const squared = squareUp(corners);
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

  test('Ctrl+Z takes back one thing after the other, to the very beginning, and Ctrl+Shift+Z brings it again', async () => {
    const element = await trace(flat);
    const hand = handOn(element);
    await press(element, '.block > button:not(.primary)');
    await hand.click(placeOf(chart, 100, 140));
    await hand.type('1');
    await hand.type('00');
    expect(one<HTMLInputElement>(element, '[data-mark]').value).toBe('100');
    await hand.type('{Control>}z{/Control}');
    expect(one<HTMLInputElement>(element, '[data-mark]').value).toBe('');
    await hand.type('{Control>}z{/Control}');
    expect(every(element, '[data-mark]')).toHaveLength(0);
    one(element, '[data-history=undo]').click();
    await settled(element);
    expect(one(element, '[aria-current=step]').dataset['step']).toBe('corners');
    expect(one(element, '[data-history=undo]').getAttribute('aria-disabled')).toBe('true');
    one(element, '[data-history=redo]').focus();
    await hand.type('{Control>}{Shift>}z{/Shift}{/Control}');
    await hand.type('{Control>}{Shift>}z{/Shift}{/Control}');
    await hand.type('{Control>}y{/Control}');
    expect(one<HTMLInputElement>(element, '[data-mark]').value).toBe('100');
  });

  test('a point is dragged, nudged by 0.25, 1 and 5 pixels, and removed', async () => {
    const element = await traced();
    const hand = handOn(element);
    const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
    const at = () => board.spots[0]!.at;
    await press(element, '.tick input');
    const start = placeOf(chart, 150, 600);
    await hand.click(start);
    board.focusPane();
    await hand.type('{ArrowRight}{Shift>}{ArrowDown}{/Shift}{Alt>}{ArrowLeft}{/Alt}');
    expect(at().x - start.x).toBeCloseTo(0.75, 2);
    expect(at().y - start.y).toBeCloseTo(5, 2);
    const before = at();
    await hand.drag(before, { x: before.x + 40, y: before.y - 30 });
    expect(at().x).toBeCloseTo(before.x + 40, 1);
    expect(at().y).toBeCloseTo(before.y - 30, 1);
    await hand.type('{Control>}z{/Control}');
    expect(at()).toEqual(before);
    await hand.type('{Delete}');
    expect(board.spots).toHaveLength(0);
  });

  test('a click beside every line is told, and a follow from there is refused with its remedy', async () => {
    const element = await traced();
    const hand = handOn(element);
    const empty = placeOf(chart, 110, 650);
    await hand.click(empty);
    expect(textOf(one(element, '.note'))).toContain('No line stands out there');
    await press(element, '[data-follow=true]');
    await hand.click(placeOf(chart, 125, 650));
    expect(textOf(one(element, 'm-problem'))).toContain('Nothing at that place stands out');
  });

  test('corners that cross are refused, and nothing is lost', async () => {
    const element = await trace(flat);
    const hand = handOn(element);
    const [topLeft, topRight] = one<HTMLElementTagNameMap['m-picture-board']>(
      element,
      'm-picture-board',
    ).spots;
    await hand.drag(topLeft!.at, { x: topRight!.at.x + 40, y: topRight!.at.y + 60 });
    await press(element, '.primary');
    expect(textOf(one(element, 'm-problem'))).toContain('four corners do not make a frame');
    expect(one(element, '[aria-current=step]').dataset['step']).toBe('corners');
  });

  test('boundaries that are missing are named', async () => {
    const element = await traced();
    await press(element, '.finish');
    expect(textOf(one(element, 'm-problem'))).toContain('“fail below” has too few points (0)');
  });

  test('a warp that fails goes back to the corners with its problem', async () => {
    const element = await trace(flat);
    const code = 'tracing.picture-work-failed' as const;
    element.warp = () => Promise.resolve({ ok: false, problem: { code, context: {} } });
    await press(element, '.primary');
    expect(textOf(one(element, 'm-problem'))).toContain('could not work on the picture');
    expect(one(element, '[aria-current=step]').dataset['step']).toBe('corners');
  });

  test('a finger sets a point where it lifts, and two fingers enlarge without setting one', async () => {
    const element = await traced();
    const hand = handOn(element);
    const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
    await press(element, '.tick input');
    const to = placeOf(chart, 180, 600);
    await hand.drag(placeOf(chart, 150, 640), to, 'touch');
    expect(board.spots).toHaveLength(1);
    expect(board.spots[0]!.at.x).toBeCloseTo(to.x, 1);
    const apart = () => board.clientPlace({ x: 500, y: 0 }).x - board.clientPlace({ x: 100, y: 0 }).x;
    const before = apart();
    pinch(board);
    expect(apart()).toBeGreaterThan(1.5 * before);
    expect(board.spots).toHaveLength(1);
  });

  test.each(['corners', 'axes', 'curves'])(
    'axe finds nothing and a phone need not scroll: %s',
    async (step) => {
      const element = await traced();
      await handOn(element).click(placeOf(chart, 150, CHART.curves[0]!.volumeAt(150)));
      await handOn(element).click(placeOf(chart, 200, CHART.curves[0]!.volumeAt(200)));
      await press(element, `[data-step=${step}]`);
      expect(await axeFindings(element)).toEqual([]);
      await page.viewport(390, 844);
      expect(await sideways(element)).toEqual([]);
      expect(smallTargets(element, 'button, input[type=text]')).toEqual([]);
      expect(one(one(element, 'm-picture-board'), '.pane').getBoundingClientRect().height).toBeGreaterThan(
        300,
      );
    },
  );
});

/** A straight chart with both scales marked, ready for its boundaries. */
async function traced(): Promise<ChartTrace> {
  const element = await trace(flat);
  const hand = handOn(element);
  await press(element, '.block > button:not(.primary)');
  for (const speed of [100, 260]) {
    await hand.click(placeOf(chart, speed, 140));
    await hand.type(`${speed}`);
  }
  await press(element, '[data-axis=y]');
  for (const volume of [100, 700]) {
    await hand.click(placeOf(chart, 115, volume));
    await hand.type(`${volume}`);
  }
  await press(element, '.primary');
  return element;
}

/** The place of the picture in the middle of the pane, where the cross hair begins. */
async function centreOf(element: ChartTrace): Promise<Pixel> {
  const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
  await drawn();
  const { left, top, width, height } = one(board, 'canvas').getBoundingClientRect();
  const [o, p] = [board.clientPlace({ x: 0, y: 0 }), board.clientPlace({ x: 100, y: 100 })];
  const scale = (p.x - o.x) / 100;
  return { x: (left + width / 2 - o.x) / scale, y: (top + height / 2 - o.y) / scale };
}

function pinch(board: HTMLElementTagNameMap['m-picture-board']): void {
  const pane = one(board, '.pane');
  const { left, top } = pane.getBoundingClientRect();
  const send = (kind: string, pointerId: number, x: number) =>
    pane.dispatchEvent(
      new PointerEvent(kind, {
        bubbles: true,
        composed: true,
        pointerType: 'touch',
        pointerId,
        clientX: left + x,
        clientY: top + 200,
      }),
    );
  send('pointerdown', 901, 300);
  send('pointerdown', 902, 400);
  for (const x of [430, 460, 500]) send('pointermove', 902, x);
  send('pointerup', 902, 500);
  send('pointerup', 901, 300);
}
