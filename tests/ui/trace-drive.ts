import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import type { Picture, Pixel } from '../../src/tracing/pixel.ts';
import type { PictureBoard } from '../../src/ui/picture-board.ts';
import '../../src/ui/trace-chart.ts';
import type { ChartTrace } from '../../src/ui/trace-chart.ts';
import { drawn, mount, one, settled } from './mount.ts';

/** Moves the hand of a person on a picture board: places are in the pixels of the picture that is shown. */
export interface Hand {
  readonly click: (at: Pixel, type?: 'mouse' | 'touch') => Promise<void>;
  readonly drag: (from: Pixel, to: Pixel, type?: 'mouse' | 'touch') => Promise<void>;
  readonly type: (text: string) => Promise<void>;
  /** Moves the cross hair there with arrow keys: coarse, usual and fine steps. */
  readonly steer: (from: Pixel, to: Pixel) => Promise<void>;
}

let nextPointer = 1;

function point(board: PictureBoard, at: Pixel, type: string, init: PointerEventInit): void {
  const { x, y } = board.clientPlace(at);
  const pane = one(board, '.pane');
  const event = { bubbles: true, composed: true, cancelable: true, clientX: x, clientY: y, ...init };
  pane.dispatchEvent(new PointerEvent(type, event));
}

export function handOn(host: Element): Hand {
  const board = () => one<PictureBoard>(host, 'm-picture-board');
  const rest = async () => {
    await settled(host);
    await drawn();
  };
  const press = (keys: string) => userEvent.keyboard(keys);
  const times = (key: string, count: number) => (count > 0 ? `{${key}}`.repeat(count) : '');
  const along = (way: number, [back, forth]: readonly [string, string]) => {
    const key = way < 0 ? back : forth;
    const whole = Math.round(Math.abs(way));
    const [coarse, usual, fine] = [Math.floor(whole / 50), Math.floor((whole % 50) / 5), whole % 5];
    return (
      (coarse > 0 ? `{Shift>}${times(key, coarse)}{/Shift}` : '') +
      times(key, usual) +
      (fine > 0 ? `{Alt>}${times(key, fine)}{/Alt}` : '')
    );
  };
  return {
    click: async (at, type = 'mouse') => {
      const init = { pointerId: ++nextPointer, pointerType: type, isPrimary: true, button: 0 };
      point(board(), at, 'pointerdown', init);
      point(board(), at, 'pointerup', init);
      await rest();
    },
    drag: async (from, to, type = 'mouse') => {
      const init = { pointerId: ++nextPointer, pointerType: type, isPrimary: true, button: 0 };
      const start = board().clientPlace(from);
      const end = board().clientPlace(to);
      const pane = one(board(), '.pane');
      const send = (kind: string, { x, y }: Pixel) =>
        pane.dispatchEvent(
          new PointerEvent(kind, { bubbles: true, composed: true, clientX: x, clientY: y, ...init }),
        );
      send('pointerdown', start);
      for (const part of [0.3, 0.6, 1])
        send('pointermove', {
          x: start.x + part * (end.x - start.x),
          y: start.y + part * (end.y - start.y),
        });
      send('pointerup', end);
      await rest();
    },
    type: async (text) => {
      await press(text);
      await rest();
    },
    steer: async (from, to) => {
      await press(
        along(to.x - from.x, ['ArrowLeft', 'ArrowRight']) + along(to.y - from.y, ['ArrowUp', 'ArrowDown']),
      );
      await rest();
    },
  };
}

/** A chart tracer on the page with this picture. */
export async function traceOf(picture: Picture): Promise<ChartTrace> {
  const element = await mount<ChartTrace>(html`<m-chart-trace .picture=${picture}></m-chart-trace>`);
  await drawn();
  return element;
}

/** Presses a button of an element, and waits until all is drawn. */
export async function press(element: Element, selector: string): Promise<void> {
  one(element, selector).click();
  await settled(element);
  await drawn();
}

/** A picture as a file of this kind, drawn by the browser itself. */
export async function asFile({ width, height, data }: Picture, type: string, name: string): Promise<File> {
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')!.putImageData(new ImageData(new Uint8ClampedArray(data), width, height), 0, 0);
  return new File([await canvas.convertToBlob({ type, quality: 0.9 })], name, { type });
}
