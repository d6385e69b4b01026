import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import '../../src/ui/strip-chart.ts';
import { DARK, LIGHT } from '../../src/ui/tokens.ts';
import { axeFindings, clearPage, drawn, every, mount, one, textOf } from './mount.ts';
import { SERIES, STRIP_CRANKS, stripColumns } from './samples.ts';

type Chart = HTMLElementTagNameMap['m-strip-chart'];

const failures: string[] = [];
const keepFailure = (event: ErrorEvent) => failures.push(event.message);
beforeEach(() => addEventListener('error', keepFailure));
afterEach(() => {
  removeEventListener('error', keepFailure);
  clearPage();
  expect(failures.splice(0)).toEqual([]);
});

const chart = (columns = stripColumns()) =>
  mount<Chart>(
    html`<m-strip-chart
      label="Speed"
      .series=${SERIES}
      .columns=${columns}
      .cranks=${STRIP_CRANKS}
    ></m-strip-chart>`,
  );
const canvas = (element: Chart) => one<HTMLCanvasElement>(element, 'canvas');

/** How many pixels of the canvas have very nearly this colour. */
function pixelsOf(element: Chart, hex: string): number {
  const { width, height } = canvas(element);
  const data = canvas(element).getContext('2d')?.getImageData(0, 0, width, height).data ?? [];
  const wanted = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));
  let count = 0;
  for (let at = 0; at < data.length; at += 4) {
    if (wanted.every((channel, index) => Math.abs(channel - (data[at + index] ?? 0)) <= 3)) count += 1;
  }
  return count;
}

/** Listeners on what outlives an element: the window, the document and media queries. */
function countLasting(): { live: () => number; restore: () => void } {
  const { addEventListener: add, removeEventListener: remove } = EventTarget.prototype;
  const live = new Set<string>();
  const ids = new WeakMap<object, number>();
  let next = 0;
  const idOf = (thing: object) => ids.get(thing) ?? (ids.set(thing, (next += 1)), next);
  const lasting = (target: unknown) =>
    target === window || target === document || target instanceof MediaQueryList;
  const key = (target: object, type: string, listener: unknown) =>
    `${idOf(target)} ${type} ${idOf(listener as object)}`;
  EventTarget.prototype.addEventListener = function (this: EventTarget, ...all: Parameters<typeof add>) {
    const self = this ?? window;
    if (lasting(self) && all[1]) live.add(key(self, all[0], all[1]));
    return add.apply(self, all);
  };
  EventTarget.prototype.removeEventListener = function (
    this: EventTarget,
    ...all: Parameters<typeof remove>
  ) {
    const self = this ?? window;
    if (lasting(self) && all[1]) live.delete(key(self, all[0], all[1]));
    return remove.apply(self, all);
  };
  const restore = () => {
    EventTarget.prototype.addEventListener = add;
    EventTarget.prototype.removeEventListener = remove;
  };
  return { live: () => live.size, restore };
}

describe('m-strip-chart', () => {
  test('tells in words what the canvas cannot: last, least and most of each series', async () => {
    const name = one(await chart(), '[role=img]').getAttribute('aria-label') ?? '';
    expect(name).toContain('Engine speed: last 0.0, least 0.0, most 161.0 rpm.');
    expect(name).toContain('Rail pressure: last 1.0');
  });

  test('paints its traces, the crank that counts and its mean', async () => {
    const element = await chart();
    document.documentElement.dataset['theme'] = 'light';
    await drawn();
    expect(pixelsOf(element, LIGHT.seriesSpeed)).toBeGreaterThan(200);
    expect(pixelsOf(element, LIGHT.crankingSoft)).toBeGreaterThan(2000);
    expect(pixelsOf(element, LIGHT.ink)).toBeGreaterThan(50);
  });

  test('repaints in the new colours when the theme changes', async () => {
    const element = await chart();
    document.documentElement.dataset['theme'] = 'dark';
    await drawn();
    expect(pixelsOf(element, DARK.seriesSpeed)).toBeGreaterThan(200);
    expect(pixelsOf(element, LIGHT.seriesSpeed)).toBe(0);
  });

  test('teaches while it is empty, and draws once samples come', async () => {
    const element = await chart([[], [], [], []]);
    expect(textOf(element)).toContain('No samples yet');
    element.columns = stripColumns();
    element.revision += 1;
    await element.updateComplete;
    expect(textOf(element)).not.toContain('No samples yet');
  });

  test('takes 10 000 points growing in place, at any width', async () => {
    const columns = stripColumns(200, 50);
    const growing = columns.map((column) => column.slice(0, 100));
    const element = await chart(growing);
    for (let length = 100; length < 10_000; length += 900) {
      growing.forEach((column, index) => column.push(...(columns[index] ?? []).slice(length, length + 900)));
      element.revision += 1;
      await element.updateComplete;
    }
    expect(growing[0]).toHaveLength(10_000);
    for (const width of ['390px', '1200px', '320px']) {
      element.style.setProperty('width', width);
      await drawn();
      expect(canvas(element).getBoundingClientRect().width).toBeLessThanOrEqual(parseInt(width, 10));
    }
    expect(one(element, '[role=img]').getAttribute('aria-label')).toContain('50.0 s of samples.');
  });

  test('treats a column of another length as missing instead of failing', async () => {
    const [times = [], speed = []] = stripColumns();
    const element = await chart([times, speed, [1, 2], []]);
    expect(canvas(element).width).toBeGreaterThan(0);
  });

  test('takes typed columns, NaN where there is no number', async () => {
    const columns = stripColumns().map((column) => Float64Array.from(column, (value) => value ?? NaN));
    const element = await mount<Chart>(
      html`<m-strip-chart label="Speed" .series=${SERIES} .columns=${columns}></m-strip-chart>`,
    );
    document.documentElement.dataset['theme'] = 'light';
    await drawn();
    expect(pixelsOf(element, LIGHT.seriesSpeed)).toBeGreaterThan(200);
    expect(one(element, '[role=img]').getAttribute('aria-label')).toContain('most 161.0 rpm');
  });

  test('destroys its plot on leaving, makes a new one on return, and leaves no listener behind', async () => {
    const counting = countLasting();
    try {
      const element = await chart();
      await drawn();
      expect(counting.live()).toBeGreaterThan(0);
      element.remove();
      expect(counting.live()).toBe(0);
      expect(element.shadowRoot?.querySelector('canvas')).toBeNull();
      document.body.append(element);
      await element.updateComplete;
      expect(every(element, 'canvas')).toHaveLength(1);
      element.remove();
      expect(counting.live()).toBe(0);
    } finally {
      counting.restore();
    }
  });

  test('zooms by keys about the cursor, and Home shows all again', async () => {
    const element = await chart();
    one(element, '.plot').focus();
    await userEvent.keyboard('+');
    await element.updateComplete;
    const buttons = () => every(element, '.tools button').map((button) => textOf(button));
    expect(buttons()).toContain('Show all');
    await userEvent.keyboard('{Home}');
    await element.updateComplete;
    expect(buttons()).not.toContain('Show all');
  });

  test('reads out the sample at the cursor, moved by arrow keys', async () => {
    const element = await chart();
    expect(textOf(one(element, '.readouts'))).toContain('latest');
    one(element, '.plot').focus();
    await userEvent.keyboard('{ArrowLeft}');
    await element.updateComplete;
    expect(textOf(one(element, '.readouts'))).toContain('at 49.95 s');
    await userEvent.keyboard('{ArrowLeft}');
    await element.updateComplete;
    expect(textOf(one(element, '.readouts'))).toContain('at 49.90 s');
  });

  test('zooms to what is dragged over with the mouse', async () => {
    const element = await chart();
    await drawn();
    const over = one(element, '.u-over');
    const box = over.getBoundingClientRect();
    const mouse = (type: string, part: number, buttons: number) =>
      new MouseEvent(type, {
        bubbles: true,
        composed: true,
        button: 0,
        buttons,
        movementX: type === 'mousemove' ? 1 : 0,
        clientX: box.left + part * box.width,
        clientY: box.top + 20,
      });
    over.dispatchEvent(mouse('mouseenter', 0.2, 0));
    over.dispatchEvent(mouse('mousemove', 0.2, 0));
    over.dispatchEvent(mouse('mousedown', 0.2, 1));
    over.dispatchEvent(mouse('mousemove', 0.6, 1));
    await drawn();
    document.dispatchEvent(mouse('mouseup', 0.6, 0));
    await element.updateComplete;
    expect(every(element, '.tools button').map((button) => textOf(button))).toContain('Show all');
  });

  test('shows the stretch as a table on demand, and axe finds nothing', async () => {
    const element = await chart();
    expect(await axeFindings(element)).toEqual([]);
    every(element, '.tools button').at(-1)?.click();
    await element.updateComplete;
    expect(every(element, 'tbody tr')).toHaveLength(30);
    expect(await axeFindings(element)).toEqual([]);
  });
});
