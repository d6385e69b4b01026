/** A place in a picture, in its own pixels: x to the right, y downwards, the middle of the first pixel at (0.5, 0.5). */
export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** A picture as a canvas gives it: red, green, blue, alpha of each pixel, row after row. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray | Uint8Array;
}

/** The distance of two places, pixels. */
export const distancePx = (a: Pixel, b: Pixel): number => Math.hypot(a.x - b.x, a.y - b.y);
