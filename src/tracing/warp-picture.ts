import { applyMap, invertMap, type Homography } from './homography.ts';
import type { Picture, Pixel } from './pixel.ts';

/**
 * The picture as seen straight from the front: each pixel of the upright frame is looked up in the original, blended from
 * its four neighbours. What lies outside the original is white.
 */
export function warpPicture(picture: Picture, map: Homography, width: number, height: number): Picture {
  const back = invertMap(map);
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = applyMap(back, { x: x + 0.5, y: y + 0.5 });
      blend(picture, { x: from.x - 0.5, y: from.y - 0.5 }, data, 4 * (y * width + x));
    }
  }
  return { width, height, data };
}

/** Writes the colour between four pixels; outside the picture nothing is written. */
function blend({ width, height, data }: Picture, { x, y }: Pixel, into: Uint8ClampedArray, at: number): void {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (!(left >= 0 && top >= 0 && left < width - 1 && top < height - 1)) return;
  const [right, down] = [x - left, y - top];
  const first = 4 * (top * width + left);
  for (let channel = 0; channel < 3; channel++) {
    const above = data[first + channel]! * (1 - right) + data[first + 4 + channel]! * right;
    const row = first + 4 * width + channel;
    const below = data[row]! * (1 - right) + data[row + 4]! * right;
    into[at + channel] = above * (1 - down) + below * down;
  }
}
