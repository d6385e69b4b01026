import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { Chunk, packChunk, unpackChunk } from '../../src/recordings/chunk.ts';
import { anyEvent, bytes, open } from './fixtures.ts';

describe('a chunk', () => {
  test('gives back any events exactly, through the copy that a database makes', () => {
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 30 }), (events) => {
        const stored: unknown = structuredClone(packChunk('r', 3, events));
        expect(unpackChunk(Chunk.parse(stored))).toEqual(events);
      }),
    );
  });

  test('does not keep the means to write', () => {
    const write = () => Promise.resolve({ ok: true as const, value: undefined });
    const chunk = packChunk('r', 0, [{ kind: 'open', atMs: millis(1), device: 'bridge', write }]);
    expect(unpackChunk(Chunk.parse(structuredClone(chunk)))).toEqual([open(1)]);
  });

  test('keeps an empty piece of bytes apart from its neighbours', () => {
    const events = [bytes(1, 7), bytes(2), bytes(3, 8, 9)];
    expect(unpackChunk(packChunk('r', 0, events))).toEqual(events);
  });

  const whole = packChunk('r', 0, [
    open(0),
    bytes(1, 1, 2),
    { kind: 'gap', atMs: millis(2), problem: problem('link.break') },
  ]);
  test.each([
    ['a row without its time', { ...whole, atMs: whole.atMs.slice(1) }],
    ['a row without its length', { ...whole, lengths: whole.lengths.slice(1) }],
    ['bytes cut short', { ...whole, bytes: whole.bytes.slice(1) }],
    ['a kind that does not exist', { ...whole, kinds: Uint8Array.of(0, 1, 9) }],
    ['a length at a row without bytes', { ...whole, lengths: Uint32Array.of(2, 0, 0) }],
    ['a gap that is missing', { ...whole, gaps: [] }],
    ['a device that is missing', { ...whole, opens: [] }],
    ['columns of plain numbers', { ...whole, bytes: [1, 2] }],
  ])('with %s is refused', (_what, damaged) => {
    expect(Chunk.safeParse(damaged).success).toBe(false);
  });

  test('never throws on any document', () => {
    fc.assert(
      fc.property(fc.anything(), (document) => {
        expect(Chunk.safeParse(document).success).toBe(false);
      }),
    );
  });
});
