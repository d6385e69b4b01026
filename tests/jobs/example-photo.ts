import { createHash } from 'node:crypto';
import { PHOTO_FORMAT, type StoredPhoto } from '../../src/jobs/photo.ts';

/** SHA-256 by Node's own implementation, to hold ours against. */
export const nodeSum = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Bytes that begin as a JPEG (ITU-T T.81, B.1.1.3), with a seed to tell them apart. */
export const jpegBytes = (length = 40, seed = 1): Uint8Array<ArrayBuffer> =>
  Uint8Array.from({ length }, (_, at) => [0xff, 0xd8, 0xff][at] ?? (at * seed) & 0xff);

/** A photograph fit to be kept. */
export function examplePhoto(change: Partial<StoredPhoto> = {}): StoredPhoto {
  const bytes = change.bytes ?? jpegBytes();
  return {
    formatVersion: PHOTO_FORMAT,
    id: 'photo-1',
    takenAt: '2026-11-25T08:00:00.000Z',
    name: 'vessel.jpg',
    type: 'image/jpeg',
    widthPx: 600,
    heightPx: 900,
    sha256: nodeSum(bytes),
    bytes,
    ...change,
  };
}
