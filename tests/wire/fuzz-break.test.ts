import { describe, expect, it } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { ascii } from '../fuzz/corpus.ts';

/** A clock that is set back at a line that is read but not kept (CAN FD, 12 bytes). */
const LINES = [
  '(1700000010.000000) can0 0CF00400#FFFFFF6804FFFFFF\n',
  `(1700000000.000000) can0 18FECA00##1${'A5'.repeat(12)}\n`,
  '(1700000000.010000) can0 0CF00400#FFFFFF6804FFFFFF\n',
];

/** Whether time broke before each frame. */
function breaksOf(pieces: readonly string[]): readonly boolean[] {
  let state = canLogDecoder.initial();
  const breaks: boolean[] = [];
  for (const piece of pieces) {
    const step = canLogDecoder.step(state, ascii(piece), millis(0));
    state = step.state;
    for (const { count, breakBefore } of step.batches)
      for (let row = 0; row < count; row++) breaks.push(row === 0 && breakBefore);
  }
  return breaks;
}

describe('a break of time at a frame that is not kept', () => {
  it('stands before the next frame that is', () => {
    expect(breaksOf([LINES.join('')])).toEqual([false, true]);
  });

  it('stands there too when the chunk ended in between', () => {
    expect(breaksOf(LINES)).toEqual([false, true]);
  });

  it('is told once, however many such lines come together', () => {
    expect(breaksOf([LINES[0]!, LINES[1]!, LINES[1]!, LINES[2]!, LINES[2]!])).toEqual([false, true, false]);
  });
});
