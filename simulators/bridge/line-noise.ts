import { nextChance, uniform, type Chance } from '../chance.ts';

/** How bad the serial line is: chances per byte, 0 to 1. */
export interface LineNoise {
  readonly corruptPerByte: number;
  readonly dropPerByte: number;
}

export const CLEAN_LINE: LineNoise = { corruptPerByte: 0, dropPerByte: 0 };

/** Bytes after the line, and the chance after it. A corrupted byte has one bit turned over. */
export function throughLine(
  bytes: Uint8Array,
  noise: LineNoise,
  chance: Chance,
): { readonly bytes: Uint8Array; readonly chance: Chance } {
  if (noise.corruptPerByte === 0 && noise.dropPerByte === 0) return { bytes, chance };
  const kept: number[] = [];
  let next = chance;
  for (const byte of bytes) {
    next = nextChance(next);
    const draw = uniform(next);
    if (draw < noise.dropPerByte) continue;
    if (draw >= noise.dropPerByte + noise.corruptPerByte) {
      kept.push(byte);
      continue;
    }
    next = nextChance(next);
    kept.push(byte ^ (1 << Math.floor(8 * uniform(next))));
  }
  return { bytes: Uint8Array.from(kept), chance: next };
}
