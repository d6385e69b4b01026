import { bench } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { framesOf } from './fixtures/read-recording.ts';

/** One million frames, EEC1 and a group that is not read by turns. Frames a second = 1e6 * hz. */
const COUNT = 1_000_000;
const two = framesOf('(1) can0 0CF00400#FFFFFF6813FFFFFF\n(1) can0 18F0010B#0CFFF3FFFF500B3F');
const fill = <A extends Float64Array | Uint32Array | Uint8Array>(to: A, from: A): A => {
  for (let i = 0; i < to.length; i++) to[i] = from[i % from.length]!;
  return to;
};
const frames = {
  count: COUNT,
  breakBefore: false,
  atMs: fill(new Float64Array(COUNT), two.atMs),
  id: fill(new Uint32Array(COUNT), two.id),
  flags: fill(new Uint8Array(COUNT), two.flags),
  length: fill(new Uint8Array(COUNT), two.length),
  channel: new Uint8Array(COUNT),
  data: fill(new Uint8Array(8 * COUNT), two.data),
};

bench('decodeFrames: 1 000 000 frames, half of them EEC1', () => {
  if (decodeFrames(frames).count !== 1_500_000) throw new Error('rows were lost');
});
