import { problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import type { Corners } from '../tracing/homography.ts';
import type { Picture, Pixel } from '../tracing/pixel.ts';
import type { PictureAnswer, PictureJob, PictureRequest } from './picture-worker.ts';

/** The heavy work on pictures, done beside the page: the functions that `m-chart-trace` takes as `warp` and `follow`. */
export interface PictureDesk {
  readonly warp: (picture: Picture, corners: Corners) => Promise<Result<Picture>>;
  readonly follow: (picture: Picture, click: Pixel) => Promise<Result<readonly Pixel[]>>;
  /** Ends the worker; work that is under way gives `tracing.picture-work-failed`. */
  readonly close: () => void;
}

const startWorker = (): Worker =>
  new Worker(new URL('./picture-worker.ts', import.meta.url), { type: 'module' });

/** Starts a worker for pictures. A worker that breaks off answers all that is under way with `tracing.picture-work-failed`. */
export function openPictureDesk(start: () => Worker = startWorker): PictureDesk {
  const waiting = new Map<number, (result: PictureAnswer['result']) => void>();
  let worker: Worker | null = null;
  let last = 0;
  const breakOff = () => {
    worker?.terminate();
    worker = null;
    for (const tell of waiting.values()) tell(failed(problem('tracing.picture-work-failed')));
    waiting.clear();
  };
  const open = (): Worker => {
    const opened = start();
    opened.onmessage = ({ data: { id, result } }: MessageEvent<PictureAnswer>) => {
      waiting.get(id)?.(result);
      waiting.delete(id);
    };
    opened.onerror = breakOff;
    opened.onmessageerror = breakOff;
    return opened;
  };
  const ask = (job: PictureJob) =>
    new Promise<PictureAnswer['result']>((resolve) => {
      const request: PictureRequest = { id: ++last, job };
      waiting.set(request.id, resolve);
      worker ??= open();
      worker.postMessage(request);
    });
  return {
    warp: (picture, corners) => ask({ kind: 'warp', picture, corners }) as Promise<Result<Picture>>,
    follow: (picture, click) => ask({ kind: 'follow', picture, click }) as Promise<Result<readonly Pixel[]>>,
    close: breakOff,
  };
}
