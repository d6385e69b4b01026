import { page } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { CHART, drawChart, placeOf, type DrawnChart } from '../tracing/draw-chart.ts';
import type { ChartTrace } from '../../src/ui/trace-chart.ts';
import { axeFindings, clearPage, every, one, settled, sideways, smallTargets, textOf } from './mount.ts';
import { handOn, press, traceOf } from './trace-drive.ts';

const chart: DrawnChart = { ...CHART, width: 800, height: 600 };
const flat = drawChart(chart);
const trace = traceOf;

beforeEach(() => page.viewport(1280, 900));
afterEach(clearPage);

describe('the hands on m-chart-trace', () => {
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

  test('buttons move what is held by one pixel, for fingers, and are gone when nothing is held', async () => {
    await page.viewport(390, 844);
    const element = await traced();
    const hand = handOn(element);
    const board = one<HTMLElementTagNameMap['m-picture-board']>(element, 'm-picture-board');
    expect(every(board, '.nudges')).toHaveLength(0);
    await press(element, '.tick input');
    await hand.click(placeOf(chart, 150, 600), 'touch');
    const { x, y } = board.spots[0]!.at;
    const move = async (word: string) => {
      one(board, `[aria-label="Move it ${word} by one pixel"]`).click();
      await settled(element);
    };
    for (const word of ['right', 'right', 'down', 'left', 'down']) await move(word);
    expect(board.spots[0]!.at.x).toBeCloseTo(x + 1, 2);
    expect(board.spots[0]!.at.y).toBeCloseTo(y + 2, 2);
    await move('up');
    expect(board.spots[0]!.at.y).toBeCloseTo(y + 1, 2);
    expect(smallTargets(board, 'button')).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    board.focusPane();
    await hand.type('{Escape}');
    expect(every(board, '.nudges')).toHaveLength(0);
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
