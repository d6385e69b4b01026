import { PHOTO_FORMAT, type StoredPhoto } from '../jobs/photo.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { PhotoAnswer, PhotoRequest } from './photo-worker.ts';

export interface PhotoDesk {
  /**
   * Makes a dropped, pasted, chosen or taken picture ready to be kept, beside the page. It is not kept yet, and nothing that is kept changes.
   * Problems: those of `makePhoto`, and `photo.work-failed` where the worker breaks off.
   */
  readonly takePhoto: (file: File) => Promise<Result<StoredPhoto>>;
  /** Ends the worker; work that is under way gives `photo.work-failed`. */
  readonly close: () => void;
}

/** What the desk needs of the world. `start` is given by tests only. */
export interface PhotoDeskMeans {
  readonly newId: () => string;
  readonly nowIso: () => string;
  readonly start?: () => Worker;
}

const startWorker = (): Worker =>
  new Worker(new URL('./photo-worker.ts', import.meta.url), { type: 'module' });

/** Starts a worker for photographs with the first of them. */
export function openPhotoDesk({ newId, nowIso, start = startWorker }: PhotoDeskMeans): PhotoDesk {
  const waiting = new Map<number, (result: PhotoAnswer['result']) => void>();
  let worker: Worker | null = null;
  let last = 0;
  const breakOff = () => {
    worker?.terminate();
    worker = null;
    for (const tell of waiting.values()) tell(failed(problem('photo.work-failed')));
    waiting.clear();
  };
  const open = (): Worker => {
    const opened = start();
    opened.onmessage = ({ data: { id, result } }: MessageEvent<PhotoAnswer>) => {
      waiting.get(id)?.(result);
      waiting.delete(id);
    };
    opened.onerror = breakOff;
    opened.onmessageerror = breakOff;
    return opened;
  };
  const make = (file: File) =>
    new Promise<PhotoAnswer['result']>((resolve) => {
      const request: PhotoRequest = { id: ++last, file, name: file.name || 'pasted picture' };
      waiting.set(request.id, resolve);
      worker ??= open();
      worker.postMessage(request);
    });
  return {
    takePhoto: async (file) => {
      const made = await make(file);
      if (!made.ok) return made;
      return ok({ formatVersion: PHOTO_FORMAT, id: newId(), takenAt: nowIso(), ...made.value });
    },
    close: breakOff,
  };
}
