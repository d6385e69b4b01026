import jpeg from 'jpeg-js';
import type { Picture } from '../../src/tracing/pixel.ts';

/** Through a JPEG file of this quality and back. */
export function throughJpeg({ width, height, data }: Picture, quality: number): Picture {
  const encoded = jpeg.encode({ width, height, data: Buffer.from(data) }, quality);
  const decoded = jpeg.decode(encoded.data, { useTArray: true });
  return { width, height, data: decoded.data };
}
