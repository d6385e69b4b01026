import { WINDOWS_1252_HIGH } from './windows-1252.ts';

/** How the bytes of a log stand for characters. */
export const ENCODINGS = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof ENCODINGS)[number];

const CHUNK = 2048; // code units turned into a string at once; fromCharCode takes them as arguments, many are slow
const REPLACEMENT = 0xfffd;

/**
 * Which encoding a log is in. A byte order mark decides; else zero bytes in every second place mean UTF-16; else bytes
 * that are strictly UTF-8 (RFC 3629: no overlong forms, no surrogates) are UTF-8; anything else is Windows-1252.
 */
export function detectEncoding(bytes: Uint8Array): Encoding {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return 'utf-8';
  return utf16ByZeros(bytes) ?? (isUtf8(bytes) ? 'utf-8' : 'windows-1252');
}

/**
 * Text of `bytes`, without its byte order mark. Broken sequences become U+FFFD; nothing throws.
 * No TextDecoder: the core compiles without it, and this keeps the same result in every runtime.
 */
export function decodeText(bytes: Uint8Array, encoding: Encoding): string {
  const pieces: string[] = [];
  const units = new Uint16Array(CHUNK + 4);
  const decodeSome = DECODERS[encoding];
  for (let at = 0; at < bytes.length;) {
    const step = decodeSome(bytes, at, units);
    pieces.push(String.fromCharCode.apply(null, units.subarray(0, step.count) as unknown as number[]));
    at = step.next;
  }
  const text = pieces.join('');
  return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
}

interface DecodeStep {
  readonly count: number;
  readonly next: number;
}
type DecodeSome = (bytes: Uint8Array, at: number, units: Uint16Array) => DecodeStep;

const DECODERS: Readonly<Record<Encoding, DecodeSome>> = {
  'utf-8': decodeUtf8,
  'utf-16le': (bytes, at, units) => decodeUtf16(bytes, at, units, 0),
  'utf-16be': (bytes, at, units) => decodeUtf16(bytes, at, units, 1),
  'windows-1252': decode1252,
};

function decode1252(bytes: Uint8Array, at: number, units: Uint16Array): DecodeStep {
  const count = Math.min(CHUNK, bytes.length - at);
  for (let i = 0; i < count; i++) {
    const byte = bytes[at + i] ?? 0;
    units[i] = byte >= 0x80 && byte < 0xa0 ? (WINDOWS_1252_HIGH[byte - 0x80] ?? byte) : byte;
  }
  return { count, next: at + count };
}

function decodeUtf16(bytes: Uint8Array, at: number, units: Uint16Array, highFirst: 0 | 1): DecodeStep {
  const count = Math.min(CHUNK, (bytes.length - at) >> 1);
  for (let i = 0; i < count; i++) {
    const first = bytes[at + 2 * i] ?? 0;
    const second = bytes[at + 2 * i + 1] ?? 0;
    units[i] = highFirst ? (first << 8) | second : (second << 8) | first;
  }
  if (count > 0) return { count, next: at + 2 * count };
  units[0] = REPLACEMENT; // half a code unit at the end
  return { count: 1, next: bytes.length };
}

function decodeUtf8(bytes: Uint8Array, start: number, units: Uint16Array): DecodeStep {
  let at = start;
  let count = 0;
  while (at < bytes.length && count < CHUNK) {
    const byte = bytes[at] ?? 0;
    if (byte < 0x80) {
      units[count++] = byte;
      at++;
      continue;
    }
    const length = sequenceLength(bytes, at);
    if (length === 0) {
      units[count++] = REPLACEMENT;
      at++;
      continue;
    }
    const point = codePoint(bytes, at, length);
    at += length;
    if (point > 0xffff) {
      units[count++] = 0xd800 + ((point - 0x10000) >> 10);
      units[count++] = 0xdc00 + ((point - 0x10000) & 0x3ff);
    } else units[count++] = point;
  }
  return { count, next: at };
}

function codePoint(bytes: Uint8Array, at: number, length: number): number {
  let point = (bytes[at] ?? 0) & (0xff >> (length + 1));
  for (let i = 1; i < length; i++) point = (point << 6) | ((bytes[at + i] ?? 0) & 0x3f);
  return point;
}

/** Length of the well-formed multi-byte sequence at `at`, 0 when there is none. Source: RFC 3629, section 4. */
function sequenceLength(bytes: Uint8Array, at: number): number {
  const length = lengthByLead(bytes[at] ?? 0);
  if (length === 0) return 0;
  for (let i = 1; i < length; i++) if (((bytes[at + i] ?? 0) & 0xc0) !== 0x80) return 0;
  return inShortestForm(bytes[at] ?? 0, bytes[at + 1] ?? 0) ? length : 0;
}

function lengthByLead(lead: number): number {
  if (lead < 0xc2 || lead > 0xf4) return 0;
  if (lead < 0xe0) return 2;
  return lead < 0xf0 ? 3 : 4;
}

function inShortestForm(lead: number, second: number): boolean {
  if (lead === 0xe0) return second >= 0xa0;
  if (lead === 0xed) return second < 0xa0; // surrogates
  if (lead === 0xf0) return second >= 0x90;
  return lead !== 0xf4 || second < 0x90;
}

/** A sequence cut by the end of the file is forgiven only where the file holds whole ones: else it is Windows-1252. */
function isUtf8(bytes: Uint8Array): boolean {
  let whole = 0;
  for (let at = 0; at < bytes.length;) {
    if ((bytes[at] ?? 0) < 0x80) {
      at++;
      continue;
    }
    const length = sequenceLength(bytes, at);
    if (length === 0) return whole > 0 && at + lengthByLead(bytes[at] ?? 0) > bytes.length;
    whole++;
    at += length;
  }
  return true;
}

/** Latin text in UTF-16 has a zero in nearly every second byte and next to none in the others. */
function utf16ByZeros(bytes: Uint8Array): Encoding | null {
  const pairs = Math.min(2048, bytes.length >> 1);
  if (pairs < 2) return null;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < pairs; i++) {
    if (bytes[2 * i] === 0) even++;
    if (bytes[2 * i + 1] === 0) odd++;
  }
  if (odd > 0.7 * pairs && even < 0.05 * pairs) return 'utf-16le';
  return even > 0.7 * pairs && odd < 0.05 * pairs ? 'utf-16be' : null;
}
