import { expect, test } from 'vitest';
import { millis } from '../../src/quantities/time.ts';
import { runAuto } from '../../src/wire/auto-wire.ts';

const CR = new Uint8Array(1024).fill(0x0d);

/** Found by the fuzz: each bare CR is an answer, and all of them were held until something would be certain. */
test('a stream of bare CR alone holds no more after a megabyte than after a few pieces', () => {
  let wire = runAuto();
  let notes = 0;
  for (let piece = 0; piece < 1024; piece++) {
    const step = wire.step(CR, millis(piece));
    notes += step.notes.length;
    wire = step.next;
  }
  const done = wire.step(new TextEncoder().encode('T0CF004008FFFFFF6813FFFFFF\r'.repeat(4)), millis(2000));
  expect(notes).toBe(0);
  expect(done.notes.length).toBeLessThan(100);
  const frames = done.batches.reduce((sum, { count }) => sum + count, 0);
  const lost = done.notes.reduce((sum, note) => sum + (note.kind === 'lost' ? (note.frames ?? 0) : 0), 0);
  expect(frames + lost).toBe(4); // what was held too long is told as lost, not swallowed
});
