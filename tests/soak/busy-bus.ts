import { ascii, slcanLine, type HandFrame } from '../fuzz/corpus.ts';

/** A full 250 kbit/s bus: 18 frames each 10 ms (style.md 15: at most about 1,900 extended frames a second). */
export const FRAMES_PER_10_MS = 18;
export const FRAMES_PER_SECOND = 100 * FRAMES_PER_10_MS;

/** Cranks of 10 s in each minute, from second 20 on. */
export const CRANK_FROM_S = 20;
export const CRANK_TO_S = 30;

/** SPN 190: 0.125 rpm a bit. Standing, then 160 rpm with a ripple of 4 rpm. */
export function speedRpmAt(atMs: number): number {
  const second = (atMs / 1000) % 60;
  if (second < CRANK_FROM_S || second >= CRANK_TO_S) return 0;
  return 160 + (Math.floor(atMs / 10) % 4 < 2 ? 4 : -4);
}

const byte = (value: number): string => (value & 0xff).toString(16).toUpperCase().padStart(2, '0');

function eec1(atMs: number): HandFrame {
  const raw = speedRpmAt(atMs) * 8;
  return ['0CF00400', `F07D7D${byte(raw)}${byte(raw >> 8)}00F0FF`];
}

/** Once a second a DM1 of three codes, and a VIN, in packets 10 ms apart (SAE J1939-21 says 50 to 200 ms; closer is harder). */
const PACKETS: readonly HandFrame[] = [
  ['18ECFF00', '200E0003FFCAFE00'],
  ['18EBFF00', '0104FF9D001201BE'],
  ['18EBFF00', '0200020100640004'],
  ['18EBFF00', '030A01FFFFFFFFFF'],
  ['18ECFF00', '20120003FFECFE00'],
  ['18EBFF00', '0131313131313131'],
  ['18EBFF00', '0231313131313131'],
  ['18EBFF00', '033131312AFFFFFF'],
];

/** What else is sent in each 10 ms: groups that are read, groups that are not, several senders. */
const OTHERS: readonly HandFrame[] = [
  ['0CF00300', 'D10000FFFFFF0FFF'],
  ['18FEDB00', 'FFFF80400000FFFF'],
  ['18FEEF00', 'FFFFFF40FFFFFFFF'],
  ['18FEF700', 'FFFFFFFFF200FFFF'],
  ['0CF0020B', 'FFFFFFFFFFFFFFFF'],
  ['18F0010B', 'CFFFF3FFFF500B3F'],
];

/** The frames of the 10 ms from `atMs` on. */
export function framesAt(atMs: number): readonly HandFrame[] {
  const tick = Math.floor(atMs / 10);
  const packet = PACKETS[tick % 100];
  const frames: HandFrame[] = [eec1(atMs), ...(packet ? [packet] : [])];
  for (let place = frames.length; place < FRAMES_PER_10_MS; place++)
    frames.push(
      OTHERS[place] ?? [`18FF${byte(place + 7 * (tick % 20))}${byte(place)}`, `${byte(tick)}A5A5A5A5A5A5A5`],
    );
  return frames;
}

/** The same as a bridge sends it: SLCAN with millisecond stamps. */
export const bytesAt = (atMs: number): Uint8Array =>
  ascii(
    framesAt(atMs)
      .map((frame) => slcanLine(frame, atMs))
      .join(''),
  );

/** All bytes of [fromMs, toMs), both whole tens. */
export function bytesBetween(fromMs: number, toMs: number): Uint8Array {
  let text = '';
  for (let atMs = fromMs; atMs < toMs; atMs += 10)
    for (const frame of framesAt(atMs)) text += slcanLine(frame, atMs);
  return ascii(text);
}
