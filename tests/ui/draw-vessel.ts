import type { Picture, Pixel } from '../../src/tracing/pixel.ts';

/** A vessel drawn by the test on a canvas: 0 mL at the bottom, 500 mL at the top, graduated every 5 mL. */
export const VESSEL = { width: 600, height: 900, graduationMl: 5 } as const;

/** Where a volume lies on the scale of the drawn vessel. */
export const vesselPlace = (volumeMl: number): Pixel => ({ x: 300, y: 850 - (800 * volumeMl) / 500 });

/** The vessel filled to a volume, read at the lowest point of the curve. */
export function drawVessel(volumeMl: number): Picture {
  const { width, height, graduationMl } = VESSEL;
  const context = new OffscreenCanvas(width, height).getContext('2d')!;
  context.fillStyle = 'white';
  context.fillRect(0, 0, width, height);
  context.fillStyle = 'goldenrod';
  context.beginPath();
  const { y } = vesselPlace(volumeMl);
  context.moveTo(200, y - 8);
  context.quadraticCurveTo(300, y + 8, 400, y - 8); // lowest in the middle, at y
  context.lineTo(400, 850);
  context.lineTo(200, 850);
  context.fill();
  context.strokeStyle = 'black';
  context.strokeRect(200, 30, 200, 820);
  context.fillStyle = 'black';
  context.font = '16px sans-serif';
  for (let ml = 0; ml <= 500; ml += graduationMl) {
    context.fillRect(200, vesselPlace(ml).y - 0.5, ml % 50 === 0 ? 100 : 40, 1);
    if (ml % 100 === 0) context.fillText(`${ml}`, 160, vesselPlace(ml).y + 5);
  }
  return { width, height, data: context.getImageData(0, 0, width, height).data };
}
