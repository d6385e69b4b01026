import { photoSum } from '../jobs/photo-store.ts';
import { PHOTO_TYPE_BYTES, photoTypeOf } from '../jobs/photo-type.ts';
import { MOST_PHOTO_BYTES, type StoredPhoto } from '../jobs/photo.ts';
import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { MOST_PIXELS } from './open-picture.ts';

/** A photograph as it will be kept, but for its id and time. */
export type MadePhoto = Pick<StoredPhoto, 'name' | 'type' | 'widthPx' | 'heightPx' | 'sha256' | 'bytes'>;

/** Larger files are refused, bytes: more than a telephone writes, and the browser holds it several times over. */
const MOST_FILE_BYTES = 60_000_000;
/** Fewer pixels on a side show no graduation. */
const LEAST_SIDE = 64;
/** JPEG qualities tried one after the other until the picture is small enough to be kept. */
const QUALITIES = [0.92, 0.85, 0.75, 0.6, 0.4] as const;

/**
 * Makes a photograph ready to be kept: known by its bytes, turned as its EXIF orientation says, on white where it is see-through, at most
 * `MOST_PIXELS` and `MOST_PHOTO_BYTES`. It is always written anew as JPEG, also where it was small enough: a job file is handed over, and the
 * place and the telephone that stand in EXIF (and in PNG text) are nobody's business. Runs in a worker. Nothing is kept here.
 * Problems: `photo.file-too-large`, `photo.not-a-photo`, `photo.heic`, `photo.broken`, `photo.too-small`, `photo.work-failed`.
 */
export async function makePhoto(file: Blob, name: string): Promise<Result<MadePhoto>> {
  const refusal = await refusalOf(file, name);
  if (refusal) return failed(refusal);
  const bitmap = await decoded(file);
  if (!bitmap) return failed(problem('photo.broken', { name }));
  const { width, height } = bitmap;
  try {
    if (Math.min(width, height) < LEAST_SIDE) return failed(problem('photo.too-small', { width, height }));
    return await written(bitmap, name);
  } catch {
    return failed(problem('photo.work-failed'));
  } finally {
    bitmap.close();
  }
}

async function refusalOf(file: Blob, name: string): Promise<Problem | null> {
  if (file.size > MOST_FILE_BYTES) {
    const megabytes = Math.ceil(file.size / 100_000) / 10;
    return problem('photo.file-too-large', { name, megabytes, limit: MOST_FILE_BYTES / 1_000_000 });
  }
  const first = await firstBytes(file);
  if (!first) return problem('photo.broken', { name });
  const type = photoTypeOf(first);
  if (type === 'heif') return problem('photo.heic', { name });
  return type === null ? problem('photo.not-a-photo', { name }) : null;
}

/** Null where the file cannot be read (any more): taken off the card, or locked. */
async function firstBytes(file: Blob): Promise<Uint8Array | null> {
  try {
    return new Uint8Array(await file.slice(0, PHOTO_TYPE_BYTES).arrayBuffer());
  } catch {
    return null;
  }
}

async function decoded(file: Blob): Promise<ImageBitmap | null> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
}

async function written(bitmap: ImageBitmap, name: string): Promise<Result<MadePhoto>> {
  const shrink = Math.min(1, Math.sqrt(MOST_PIXELS / (bitmap.width * bitmap.height)));
  const widthPx = Math.max(1, Math.floor(bitmap.width * shrink));
  const heightPx = Math.max(1, Math.floor(bitmap.height * shrink));
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d');
  if (!context) return failed(problem('photo.work-failed'));
  context.fillStyle = 'white';
  context.fillRect(0, 0, widthPx, heightPx);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, widthPx, heightPx);
  for (const quality of QUALITIES) {
    const jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality });
    if (jpeg.size > MOST_PHOTO_BYTES) continue;
    const bytes = new Uint8Array(await jpeg.arrayBuffer());
    return ok({ name, type: 'image/jpeg', widthPx, heightPx, sha256: photoSum(bytes), bytes });
  }
  return failed(problem('photo.work-failed'));
}
