import { QUALITY_ERROR, QUALITY_NOT_AVAILABLE, QUALITY_VALID } from './spn-batch.ts';
import type { SpnEntry } from './spn-table.ts';

/** A value in the unit of its entry, or why there is none. */
export type SpnSample = number | 'error' | 'notAvailable';

const HIGHEST_VALID_TOP_BYTE = 0xfa;
const ERROR_TOP_BYTE = 0xfe;

/**
 * Quality code of a raw field. In fields of a byte or more only the top byte decides (J1939-71, value ranges): to FA valid, FE error,
 * FF not available. FB to FD (indicators and reserved) are no number either and count as not available.
 * In states the two highest codes are error and not available.
 */
export function qualityOfRaw(raw: number, bits: SpnEntry['bits']): number {
  if (bits < 8) {
    const missing = (1 << bits) - 1;
    return raw === missing ? QUALITY_NOT_AVAILABLE : raw === missing - 1 ? QUALITY_ERROR : QUALITY_VALID;
  }
  const top = raw >>> (bits - 8);
  if (top <= HIGHEST_VALID_TOP_BYTE) return QUALITY_VALID;
  return top === ERROR_TOP_BYTE ? QUALITY_ERROR : QUALITY_NOT_AVAILABLE;
}

/** Bytes of the message up to the end of the parameter. */
export const bytesNeeded = ({ startByte, bits }: SpnEntry): number => startByte - 1 + Math.ceil(bits / 8);

/** The raw field out of a message that begins at `data[at]` and is long enough; unsigned. */
export function readRaw({ startByte, startBit, bits }: SpnEntry, data: Uint8Array, at = 0): number {
  const first = at + startByte - 1;
  const low = data[first]!;
  if (bits < 8) return (low >>> (startBit - 1)) & ((1 << bits) - 1);
  if (bits === 8) return low;
  const word = low | (data[first + 1]! << 8);
  return bits === 16 ? word : (word | (data[first + 2]! << 16) | (data[first + 3]! << 24)) >>> 0;
}

/** A raw field as a value in the entry's unit, or the reason that there is none. */
export function decodeRaw(entry: SpnEntry, raw: number): SpnSample {
  const quality = qualityOfRaw(raw, entry.bits);
  if (quality === QUALITY_VALID) return raw * entry.scale + entry.offset;
  return quality === QUALITY_ERROR ? 'error' : 'notAvailable';
}

/** The highest raw that is a value. */
export const highestRaw = (bits: SpnEntry['bits']): number =>
  bits < 8 ? 2 ** bits - 3 : (HIGHEST_VALID_TOP_BYTE + 1) * 2 ** (bits - 8) - 1;

/** A sample as raw field. Values beyond the range stop at its end, as a controller's do; NaN is not available. */
export function encodeRaw({ bits, scale, offset }: SpnEntry, sample: SpnSample): number {
  const ones = 2 ** bits - 1;
  if (sample === 'error') return bits < 8 ? ones - 1 : ones - 2 ** (bits - 8);
  if (sample === 'notAvailable' || Number.isNaN(sample)) return ones;
  return Math.min(Math.max(Math.round((sample - offset) / scale), 0), highestRaw(bits));
}

/** A message of 8 bytes in which nothing is available. */
export const emptyMessage = (): Uint8Array => new Uint8Array(8).fill(0xff);

/** Writes one parameter into a message and leaves all other bits as they are. */
export function writeSample(entry: SpnEntry, sample: SpnSample, message: Uint8Array): void {
  const raw = encodeRaw(entry, sample);
  const first = entry.startByte - 1;
  if (entry.bits < 8) {
    const mask = ((1 << entry.bits) - 1) << (entry.startBit - 1);
    message[first] = (message[first]! & ~mask) | (raw << (entry.startBit - 1));
    return;
  }
  for (let byte = 0; byte < entry.bits / 8; byte++) message[first + byte] = (raw >>> (8 * byte)) & 0xff;
}
