import { bench, describe } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import { framesOf } from './fixtures/read-recording.ts';

const EEC1 = '(1) can0 0CF00400#FFFF7D6813FFFFFF';
const OTHER = '(1) can0 18F0010B#0CFFF3FFFF500B3F';

/** One chunk of 10 000 frames: `every`th is EEC1 (three parameters), the others belong to a group that is not read. */
function chunkOf(every: number): FrameBatch {
  const lines = Array.from({ length: 10_000 }, (_, i) => (i % every === 0 ? EEC1 : OTHER));
  return framesOf(lines.join('\n'));
}

/** A million frames in chunks as a reader of files gives them: million frames a second = hz. */
function decodeMillion(chunk: FrameBatch): number {
  let rows = 0;
  for (let i = 0; i < 100; i++) rows += decodeFrames(chunk).count;
  return rows;
}

describe('decodeFrames, 1 000 000 frames in chunks of 10 000', () => {
  const sixth = chunkOf(6);
  const half = chunkOf(2);
  bench('one in six is EEC1, as in a recording of a whole bus', () => {
    if (decodeMillion(sixth) !== 500_100) throw new Error('rows were lost');
  });
  bench('one in two is EEC1', () => {
    if (decodeMillion(half) !== 1_500_000) throw new Error('rows were lost');
  });
});
