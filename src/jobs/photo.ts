import { z } from 'zod';

/** Form in which photographs are written. */
export const PHOTO_FORMAT = 1;

/** Kinds of picture that are kept. */
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;

/** Largest photograph that is kept, bytes. Larger ones are made smaller before (src/app), or refused. */
export const MOST_PHOTO_BYTES = 4_000_000;

/** A photograph kept as evidence: never changed once kept. */
export const StoredPhoto = z.strictObject({
  formatVersion: z.literal(PHOTO_FORMAT),
  id: z.string().min(1),
  takenAt: z.iso.datetime({ offset: true }),
  name: z.string(),
  type: z.enum(PHOTO_TYPES),
  widthPx: z.number().int().positive(),
  heightPx: z.number().int().positive(),
  /** SHA-256 of `bytes`, small hexadecimal digits. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  bytes: z.instanceof(Uint8Array),
});
export type StoredPhoto = z.infer<typeof StoredPhoto>;
