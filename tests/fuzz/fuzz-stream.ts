import { ascii, CORPUS, logLine, screenLine, slcanLine, type Dialect, type HandFrame } from './corpus.ts';
import type { Draws } from './draws.ts';

/** Bytes of one session: about `length` of them, mostly of one dialect, whole, spoilt and made up. Pure given the draws. */
export function fuzzStream(draws: Draws, length: number): Uint8Array {
  const dialect = draws.pick<Dialect>(['slcan', 'slcan', 'candump', 'screen', 'json', 'csv']);
  const seeds = CORPUS.filter((seed) => seed.dialect === dialect);
  const spoiling = draws.pick([0, 0.2, 0.9]);
  const parts: Uint8Array[] = [];
  let made = 0;
  while (made < length) {
    const part = onePart(draws, { dialect, seeds, spoiling, atMs: made });
    parts.push(part);
    made += part.length;
  }
  return joined(parts).subarray(0, length);
}

interface Place {
  readonly dialect: Dialect;
  readonly seeds: readonly { readonly bytes: Uint8Array }[];
  readonly spoiling: number;
  readonly atMs: number;
}

function onePart(draws: Draws, place: Place): Uint8Array {
  if (draws.chance(0.01)) return junk(draws);
  if (draws.chance(0.05)) return mutated(draws, draws.pick(CORPUS).bytes);
  const whole = draws.chance(0.5) ? draws.pick(place.seeds).bytes : madeUp(draws, place);
  return draws.chance(place.spoiling) ? mutated(draws, whole) : whole;
}

export const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};

const TERMINATORS = [0x0d, 0x0a, 0x07];

/** Bytes without meaning: random ones, long runs without an end, NULs, broken UTF-8. */
function junk(draws: Draws): Uint8Array {
  const length = draws.pick([1, 7, 161, 2000, 20_000]);
  const kind = draws.below(5);
  if (kind === 0) return new Uint8Array(length); // NULs
  if (kind === 1) return new Uint8Array(length).fill(draws.pick([0x54, 0x20, 0x22, 0x5b, 0x7b, 0x28, 0x30]));
  if (kind === 2) return bytesOf(length, () => draws.pick([0xc3, 0x28, 0xf0, 0x9f, 0xed, 0xa0, 0xff, 0xfe]));
  if (kind === 3) return bytesOf(length, () => draws.pick(TERMINATORS));
  return bytesOf(length, () => draws.below(256));
}

function bytesOf(length: number, byte: () => number): Uint8Array {
  const bytes = new Uint8Array(length);
  for (let at = 0; at < length; at++) bytes[at] = byte();
  return bytes;
}

/** One to four of the mishaps that befall bytes on their way. */
export function mutated(draws: Draws, bytes: Uint8Array): Uint8Array {
  let now: Uint8Array = bytes.slice();
  for (let times = draws.between(1, 4); times > 0 && now.length > 0; times--) now = mishap(draws, now);
  return now;
}

function mishap(draws: Draws, bytes: Uint8Array): Uint8Array {
  const at = draws.below(bytes.length);
  const to = Math.min(bytes.length, at + draws.between(1, 12));
  const head = bytes.subarray(0, at);
  switch (draws.below(8)) {
    case 0: // a bit turned
      bytes[at]! ^= 1 << draws.below(8);
      return bytes;
    case 1: // lost
      return joined([head, bytes.subarray(to)]);
    case 2: // twice
      return joined([bytes.subarray(0, to), bytes.subarray(at)]);
    case 3: // another's bytes in between
      return joined([head, draws.pick(CORPUS).bytes.subarray(0, draws.between(1, 60)), bytes.subarray(at)]);
    case 4: // broken off
      return bytes.subarray(0, at);
    case 5: // other terminators
      return bytes.map((byte) => (TERMINATORS.includes(byte) ? draws.pick(TERMINATORS) : byte));
    case 6: // two pieces changed places
      return joined([bytes.subarray(at), head]);
    default: // overwritten
      return bytes.fill(draws.pick([0, 0xff, 0x0d, 0x20, 0x2c, draws.below(256)]), at, to);
  }
}

/** A right line of the dialect with a content that nobody chose: transport, codes, identification, parameters, numbers. */
function madeUp(draws: Draws, { dialect, atMs }: Place): Uint8Array {
  if (dialect === 'json') return ascii(jsonLine(draws));
  if (dialect === 'csv') return ascii(csvLine(draws));
  const line = dialect === 'slcan' ? slcanLine : dialect === 'candump' ? logLine : screenLine;
  // Now and then a clock that was set back, and a frame that is read but not kept.
  const fromMs = draws.chance(0.03) ? Math.max(0, atMs - draws.below(90_000)) : atMs;
  const long = draws.chance(0.05) ? longLine(dialect, fromMs) : '';
  const lines = transfer(draws).map((frame, place) => line(frame, fromMs + 5 * place));
  return ascii(long + lines.join(''));
}

/** A CAN FD frame of 12 bytes. */
const longLine = (dialect: Dialect, atMs: number): string =>
  dialect === 'slcan'
    ? `D18FECA009${'A5'.repeat(12)}\r`
    : `(${(1_700_000_000 + atMs / 1000).toFixed(6)}) can0 18FECA00##1${'A5'.repeat(12)}\n`;

const hex = (value: number, digits: number): string =>
  value.toString(16).toUpperCase().padStart(digits, '0').slice(-digits);
const someHex = (draws: Draws, bytes: number): string =>
  Array.from({ length: bytes }, () => hex(draws.chance(0.3) ? 0xff : draws.below(256), 2)).join('');

const MULTI_PGNS = ['CAFE00', 'CBFE00', 'ECFE00', 'EBFE00', 'DAFE00', 'C5FD00', '00EC00', '04F000', 'FFFFFF'];
const GROUPS = [
  'F004',
  'FEDB',
  'FEEE',
  'FEF7',
  'FECA',
  'FECB',
  'FEEC',
  'FEEB',
  'FEDA',
  'FDC5',
  'EAFF',
  'E8FF',
  'EEFF',
];

/** Frames of a transfer with a size that may lie, packets that may be missing, and control frames in between; or a single frame. */
function transfer(draws: Draws): readonly HandFrame[] {
  const from = hex(draws.pick([0, 0, 3, 0x0f, 0x17, 0xf9, 0xfe, 0xff, draws.below(256)]), 2);
  if (draws.chance(0.5))
    return [[`18${draws.pick(GROUPS)}${from}`, someHex(draws, draws.pick([8, 8, 8, 3, 0]))]];
  const to = hex(draws.pick([0xff, 0xff, 0xf9, 0, draws.below(256)]), 2);
  const packets = draws.pick([1, 2, 3, 9, 40]);
  const size = draws.chance(0.8) ? packets * 7 - draws.below(7) : draws.below(0x10000);
  const control = draws.pick(['20', '20', '10', '10', '11', '13', 'FF', hex(draws.below(256), 2)]);
  const told = draws.chance(0.9) ? packets : draws.below(256);
  const pgn = draws.pick(MULTI_PGNS);
  const low = hex(size & 0xff, 2) + hex(size >> 8, 2);
  const frames: HandFrame[] = [[`1CEC${to}${from}`, `${control}${low}${hex(told, 2)}FF${pgn}`]];
  for (let packet = 1; packet <= packets; packet++) {
    if (draws.chance(0.02)) continue;
    if (draws.chance(0.02))
      frames.push([`1CEC${from}${to}`, `${hex(draws.below(256), 2)}${someHex(draws, 4)}${pgn}`]);
    frames.push([`1CEB${to}${from}`, hex(packet, 2) + someHex(draws, 7)]);
  }
  return frames;
}

const NUMBERS = [
  '0',
  '151.2',
  '-0',
  '1e999',
  '-1e-320',
  '8031.875',
  'null',
  '"7"',
  'NaN',
  '1,5',
  '٣',
  '9'.repeat(40),
  '{}',
  '[1]',
];
const NAMES = [
  't',
  'engineSpeed',
  'railPressure',
  'batteryVoltage',
  'rpm',
  'time',
  '__proto__',
  'constructor',
  '',
];

const jsonLine = (draws: Draws): string =>
  `{${Array.from({ length: draws.between(0, 4) }, () => `"${draws.pick(NAMES)}":${draws.pick(NUMBERS)}`).join(',')}}\n`;

function csvLine(draws: Draws): string {
  const cells = draws.chance(0.05) ? NAMES : NUMBERS;
  const by = draws.pick([',', ',', ';', '\t']);
  return `${Array.from({ length: draws.between(1, 5) }, () => draws.pick(cells)).join(by)}\n`;
}
