import type { Result } from '../problems/result.ts';
import { ok } from '../problems/result.ts';
import { followLine } from '../tracing/follow-line.ts';
import type { Corners } from '../tracing/homography.ts';
import type { Picture, Pixel } from '../tracing/pixel.ts';
import { squaredFrame } from '../tracing/squared-frame.ts';
import { warpPicture } from '../tracing/warp-picture.ts';

/** What the worker is asked to do with a picture. */
export type PictureJob =
  | { readonly kind: 'warp'; readonly picture: Picture; readonly corners: Corners }
  | { readonly kind: 'follow'; readonly picture: Picture; readonly click: Pixel };

export interface PictureRequest {
  readonly id: number;
  readonly job: PictureJob;
}

export interface PictureAnswer {
  readonly id: number;
  readonly result: Result<Picture | readonly Pixel[]>;
}

function done(job: PictureJob): PictureAnswer['result'] {
  if (job.kind === 'follow') return followLine(job.picture, job.click);
  const squared = squaredFrame(job.corners, job.picture);
  if (!squared.ok) return squared;
  const { map, width, height } = squared.value;
  return ok(warpPicture(job.picture, map, width, height));
}

addEventListener('message', ({ data: { id, job } }: MessageEvent<PictureRequest>) => {
  const answer: PictureAnswer = { id, result: done(job) };
  postMessage(answer);
});
