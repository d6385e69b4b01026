import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Picture } from '../tracing/pixel.ts';

/** A picture ready for tracing, and what was done to it, in words. */
export interface OpenedPicture {
  readonly picture: Picture;
  readonly notes: readonly string[];
}

/** Larger files are refused, bytes: no photograph of a page needs more. */
const MOST_BYTES = 20_000_000;
/** Larger pictures are made smaller, pixels: more does not help a click, and every step gets slow. */
export const MOST_PIXELS = 4_000_000;
/** Fewer pixels on a side show no printed number. */
const LEAST_SIDE = 64;

/** How PNG (ISO/IEC 15948, 5.2), JPEG (ITU-T T.81, B.1.1.3) and WebP (RFC 9649, 2.4) files begin. */
const BEGINNINGS: readonly (readonly (number | null)[])[] = [
  [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  [0xff, 0xd8, 0xff],
  [0x52, 0x49, 0x46, 0x46, null, null, null, null, 0x57, 0x45, 0x42, 0x50],
];

/**
 * Opens a dropped, pasted or photographed picture as red, green, blue, alpha: turned as its EXIF orientation says, on white where
 * it is see-through, made smaller to `MOST_PIXELS`. What the file is called or claims to be does not count, its first bytes do.
 * Problems: `tracing.picture-too-large`, `tracing.not-a-picture`, `tracing.picture-broken`, `tracing.picture-too-small`.
 */
export async function openPicture(file: Blob): Promise<Result<OpenedPicture>> {
  const name = file instanceof File ? file.name : 'pasted picture';
  if (file.size > MOST_BYTES) {
    const megabytes = Math.ceil(file.size / 100_000) / 10;
    return failed(problem('tracing.picture-too-large', { megabytes, limit: MOST_BYTES / 1_000_000 }));
  }
  const first = new Uint8Array(await file.slice(0, 12).arrayBuffer());
  const known = BEGINNINGS.some((bytes) => bytes.every((byte, at) => byte === null || byte === first[at]));
  if (!known) return failed(problem('tracing.not-a-picture', { name }));
  const bitmap = await decoded(file);
  if (!bitmap) return failed(problem('tracing.picture-broken', { name }));
  try {
    const { width, height } = bitmap;
    if (Math.min(width, height) < LEAST_SIDE)
      return failed(problem('tracing.picture-too-small', { width, height }));
    return ok(pictureOf(bitmap));
  } finally {
    bitmap.close();
  }
}

/** The first picture among what was dropped or pasted; null where there is none. */
export function pictureFileIn(data: DataTransfer | null): File | null {
  const files = [...(data?.files ?? [])];
  return files.find(({ type }) => type.startsWith('image/')) ?? files[0] ?? null;
}

async function decoded(file: Blob): Promise<ImageBitmap | null> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
}

function pictureOf(bitmap: ImageBitmap): OpenedPicture {
  const shrink = Math.min(1, Math.sqrt(MOST_PIXELS / (bitmap.width * bitmap.height)));
  const width = Math.max(1, Math.floor(bitmap.width * shrink));
  const height = Math.max(1, Math.floor(bitmap.height * shrink));
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })!;
  context.fillStyle = 'white';
  context.fillRect(0, 0, width, height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  const { data } = context.getImageData(0, 0, width, height);
  const notes =
    shrink < 1
      ? [
          `The picture was made smaller, from ${bitmap.width} × ${bitmap.height} to ${width} × ${height} pixels.`,
        ]
      : [];
  return { picture: { width, height, data }, notes };
}
