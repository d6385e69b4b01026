import type { Pixel } from '../tracing/pixel.ts';

/** How a picture lies in its window: screen = left/top + scale × picture, in CSS pixels. */
export interface PictureView {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
}

export interface Extent {
  readonly width: number;
  readonly height: number;
}

/** CSS pixels a picture pixel at most: enough to see single pixels. */
const LARGEST = 24;
/** Room about a picture that fits its window, CSS pixels. */
const EDGE = 8;

/** The whole picture, as large as it goes, in the middle. */
export function fitView(picture: Extent, pane: Extent): PictureView {
  const room = (side: number) => Math.max(1, side - 2 * EDGE);
  const scale = Math.min(room(pane.width) / picture.width, room(pane.height) / picture.height, LARGEST);
  return {
    scale,
    left: (pane.width - scale * picture.width) / 2,
    top: (pane.height - scale * picture.height) / 2,
  };
}

export const toScreen = (view: PictureView, { x, y }: Pixel): Pixel => ({
  x: view.left + view.scale * x,
  y: view.top + view.scale * y,
});

export const toPicture = (view: PictureView, { x, y }: Pixel): Pixel => ({
  x: (x - view.left) / view.scale,
  y: (y - view.top) / view.scale,
});

/** Larger or smaller by a factor; what lies under `about` (screen) stays there. Never smaller than the fit. */
export function zoomView(view: PictureView, factor: number, about: Pixel, fit: PictureView): PictureView {
  const scale = Math.min(LARGEST, Math.max(fit.scale, view.scale * factor));
  if (scale === fit.scale) return fit;
  const under = toPicture(view, about);
  return { scale, left: about.x - scale * under.x, top: about.y - scale * under.y };
}

/** Moved by a stretch of screen; the middle of the window never leaves the picture. */
export function panView(view: PictureView, by: Pixel, picture: Extent, pane: Extent): PictureView {
  const within = (start: number, middle: number, side: number) =>
    Math.min(middle, Math.max(middle - view.scale * side, start));
  return {
    scale: view.scale,
    left: within(view.left + by.x, pane.width / 2, picture.width),
    top: within(view.top + by.y, pane.height / 2, picture.height),
  };
}

/** Moved just so far that a place of the picture lies in the window, a tenth of it from the edge. */
export function showPlace(view: PictureView, at: Pixel, pane: Extent): PictureView {
  const { x, y } = toScreen(view, at);
  const missing = (place: number, side: number) =>
    place < side / 10 ? side / 10 - place : place > 0.9 * side ? 0.9 * side - place : 0;
  const [right, down] = [missing(x, pane.width), missing(y, pane.height)];
  return right === 0 && down === 0 ? view : { ...view, left: view.left + right, top: view.top + down };
}

/** A place kept inside the picture. */
export const insidePicture = ({ x, y }: Pixel, { width, height }: Extent): Pixel => ({
  x: Math.min(width, Math.max(0, x)),
  y: Math.min(height, Math.max(0, y)),
});
