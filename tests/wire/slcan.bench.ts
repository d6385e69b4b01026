import { bench, describe } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii } from './decode-all.ts';

const FRAMES = 200_000;
const id = (i: number) => (0x18fe0000 + (i % 0xffff)).toString(16).toUpperCase();
const data = (i: number) => (i % 0x10000).toString(16).toUpperCase().padStart(4, '0').repeat(4);
const slcan = ascii(Array.from({ length: FRAMES }, (_, i) => `T${id(i)}8${data(i)}\r`).join(''));
const stamped = ascii(
  Array.from(
    { length: FRAMES },
    (_, i) =>
      `T${id(i)}8${data(i)}${(i >> 1) % 60_000 < 0x1000 ? '0' : ''}${((i >> 1) % 60_000).toString(16).padStart((i >> 1) % 60_000 < 0x1000 ? 3 : 4, '0')}\r`,
  ).join(''),
);
const log = ascii(
  Array.from(
    { length: FRAMES },
    (_, i) =>
      `(${1385746874 + Math.floor(i / 1800)}.${String((i % 1800) * 500).padStart(6, '0')}) can0 ${id(i)}#${data(i)}\n`,
  ).join(''),
);

interface Naive {
  readonly id: number;
  readonly data: readonly number[];
}
const pairs = (text: string): number[] => (text.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
const naiveSlcan = (bytes: Uint8Array): Naive[] =>
  Buffer.from(bytes)
    .toString('latin1')
    .split('\r')
    .filter((line) => line.startsWith('T'))
    .map((line) => ({ id: Number.parseInt(line.slice(1, 9), 16), data: pairs(line.slice(10)) }));
const naiveLog = (bytes: Uint8Array): Naive[] =>
  Buffer.from(bytes)
    .toString('latin1')
    .split('\n')
    .filter((line) => line.startsWith('('))
    .map((line) => {
      const [frameId, frameData] = line.split(' ')[2]!.split('#');
      return { id: Number.parseInt(frameId!, 16), data: pairs(frameData!) };
    });
function must(frames: number): void {
  if (frames !== FRAMES) throw new Error(`${frames} frames instead of ${FRAMES}`);
}

describe(`${FRAMES} SLCAN frames`, () => {
  bench('ours', () => must(slcanDecoder.step(slcanDecoder.initial(), slcan, millis(0)).state.counts.frames));
  bench('ours, stamped', () =>
    must(slcanDecoder.step(slcanDecoder.initial(), stamped, millis(0)).state.counts.frames),
  );
  bench('splitting strings', () => must(naiveSlcan(slcan).length));
});

describe(`${FRAMES} candump lines`, () => {
  bench('ours', () => must(canLogDecoder.step(canLogDecoder.initial(), log, millis(0)).state.counts.frames));
  bench('splitting strings', () => must(naiveLog(log).length));
});
