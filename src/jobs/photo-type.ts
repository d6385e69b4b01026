import type { StoredPhoto } from './photo.ts';

/** How JPEG (ITU-T T.81, B.1.1.3), PNG (ISO/IEC 15948, 5.2) and WebP (RFC 9649, 2.4) files begin; null stands for any byte. */
const BEGINNINGS: readonly (readonly [StoredPhoto['type'], readonly (number | null)[]])[] = [
  ['image/jpeg', [0xff, 0xd8, 0xff]],
  ['image/png', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
  ['image/webp', [0x52, 0x49, 0x46, 0x46, null, null, null, null, 0x57, 0x45, 0x42, 0x50]],
];

/** `ftyp` at byte 4, and the brands of HEIF files (ISO/IEC 23008-12, 10; AVIF is a kind of its own and not meant). */
const HEIF_BRANDS: readonly string[] = ['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1'];

/** As many bytes as `photoTypeOf` looks at. */
export const PHOTO_TYPE_BYTES = 12;

/** What a picture is by its first bytes, whatever it is called; `heif` for the form that few browsers open, null for anything else. */
export function photoTypeOf(first: Uint8Array): StoredPhoto['type'] | 'heif' | null {
  const found = BEGINNINGS.find(([, bytes]) =>
    bytes.every((byte, at) => byte === null || byte === first[at]),
  );
  if (found) return found[0];
  const text = (from: number, to: number) => String.fromCharCode(...first.subarray(from, to));
  return text(4, 8) === 'ftyp' && HEIF_BRANDS.includes(text(8, 12)) ? 'heif' : null;
}
