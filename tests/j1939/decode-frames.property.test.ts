import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import {
  decodeRaw,
  emptyMessage,
  encodeRaw,
  highestRaw,
  readRaw,
  writeSample,
} from '../../src/j1939/spn-codec.ts';
import { SPN_TABLE } from '../../src/j1939/spn-table.ts';
import { FRAME_ERROR, FRAME_EXTENDED, FRAME_REMOTE, FRAME_SENT } from '../../src/wire/frame-batch.ts';
import { framesOf } from './fixtures/read-recording.ts';

const EEC1 = '(1.5) can0 0CF00400#FFFFFF6813FFFFFF';

describe('decodeFrames', () => {
  test('gives each parameter of a frame with its time and origin', () => {
    const batch = decodeFrames(framesOf(`${EEC1}\n(2) can1 18FEF731#FFFFFFFFF200FFFF`));
    expect(batch.count).toBe(5); // 190, 513, 1675 and 168, 158
    const rows = Array.from({ length: 5 }, (_, i) => [
      SPN_TABLE[batch.parameter[i]!]!.spn,
      batch.value[i],
      batch.quality[i],
      batch.atMs[i],
      batch.origin[i],
    ]);
    expect(rows).toEqual([
      [190, 621, 0, 1500, 0],
      [513, NaN, 2, 1500, 0],
      [1675, NaN, 2, 1500, 0],
      [168, expect.closeTo(12.1, 9), 0, 2000, 256 + 0x31],
      [158, NaN, 2, 2000, 256 + 0x31],
    ]);
  });

  test.each([
    ['remote', FRAME_EXTENDED | FRAME_REMOTE],
    ['error', FRAME_EXTENDED | FRAME_ERROR],
    ['sent', FRAME_EXTENDED | FRAME_SENT],
    ['11-bit', 0],
  ])('a %s frame gives nothing', (_, flags) => {
    expect(decodeFrames({ ...framesOf(EEC1), flags: Uint8Array.of(flags) }).count).toBe(0);
  });

  test('a frame with the extended data page set is not J1939 and gives nothing', () => {
    expect(decodeFrames(framesOf('(1) can0 0EF00400#FFFFFF6813FFFFFF')).count).toBe(0);
  });

  test('the group of data page 1 is another group and gives nothing', () => {
    expect(decodeFrames(framesOf('(1) can0 0DF00400#FFFFFF6813FFFFFF')).count).toBe(0);
  });

  test('a short frame gives only the parameters that are whole in it', () => {
    const batch = decodeFrames(framesOf('(1) can0 0CF00400#FFFF7D68'));
    expect([...batch.parameter].map((each) => SPN_TABLE[each]!.spn)).toEqual([513]);
  });

  test('priority is no part of the group', () => {
    expect(decodeFrames(framesOf('(1) can0 18F00400#FFFFFF6813FFFFFF')).value[0]).toBe(621);
  });

  test('never throws, and a value is a number exactly where its quality is valid', () => {
    const frame = fc.record({
      id: fc.oneof(
        fc.constantFrom(...SPN_TABLE.map(({ pgn }) => 0x18000000 + pgn * 256)),
        fc.integer({ min: 0, max: 0xffffffff }),
      ),
      flags: fc.integer({ min: 0, max: 15 }),
      length: fc.integer({ min: 0, max: 8 }),
      data: fc.uint8Array({ minLength: 8, maxLength: 8 }),
    });
    fc.assert(
      fc.property(fc.array(frame), (frames) => {
        const batch = decodeFrames({
          count: frames.length,
          breakBefore: false,
          atMs: new Float64Array(frames.length),
          id: Uint32Array.from(frames, ({ id }) => id),
          flags: Uint8Array.from(frames, ({ flags }) => flags),
          length: Uint8Array.from(frames, ({ length }) => length),
          channel: new Uint8Array(frames.length),
          data: Uint8Array.from(frames.flatMap(({ data }) => [...data])),
        });
        for (let i = 0; i < batch.count; i++)
          expect(Number.isNaN(batch.value[i])).toBe(batch.quality[i] !== 0);
      }),
    );
  });
});

test('what is written is read back within half a bit, for every parameter over its whole range', () => {
  const cases = fc
    .constantFrom(...SPN_TABLE)
    .chain((entry) =>
      fc
        .double({ min: 0, max: highestRaw(entry.bits), noNaN: true })
        .map((raw) => ({ entry, value: raw * entry.scale + entry.offset })),
    );
  fc.assert(
    fc.property(cases, ({ entry, value }) => {
      const message = emptyMessage();
      writeSample(entry, value, message);
      const back = decodeRaw(entry, readRaw(entry, message));
      expect(typeof back).toBe('number');
      expect(Math.abs(Number(back) - value)).toBeLessThanOrEqual(entry.scale * 0.5000001 + 1e-6);
    }),
  );
});

test('error and not available survive being written, for every parameter', () => {
  for (const entry of SPN_TABLE)
    for (const sample of ['error', 'notAvailable'] as const)
      expect(decodeRaw(entry, encodeRaw(entry, sample))).toBe(sample);
});
