import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { RECENT_FRAMES, START_BUS, stepBus, type BusState } from '../../src/pipeline/bus-state.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import { batchOf, message, rows, wholeBam, type Sent } from '../j1939/fixtures/transport-frames.ts';

const speed = (atMs: number): Sent => ({
  atMs,
  id: 0x0cf00400,
  data: [255, 255, 125, 104, 19, 255, 255, 255],
});
const speeds = (count: number, fromMs = 0) => Array.from({ length: count }, (_, i) => speed(fromMs + i));
const through = (batches: readonly FrameBatch[]): BusState => batches.reduce(stepBus, START_BUS);
const countRecent = (bus: BusState) => bus.recent.reduce((sum, { count }) => sum + count, 0);

describe('what the bus tells', () => {
  test('is learned from frames in any batches: identity, codes and traffic', () => {
    const vin = Uint8Array.from('ZZZTRKAA2RT000001*', (letter) => letter.charCodeAt(0));
    const frames = [
      ...wholeBam({ atMs: 0, from: 0, to: 0xff }, 65260, vin),
      { atMs: 300, id: 0x18feca00, data: [4, 255, 157, 0, 1, 2, 255, 255] },
    ];
    const whole = through([batchOf(frames)]);
    const single = through(frames.map((frame) => batchOf([frame])));
    expect(whole.facts.identifications.get(0)!.vin).toBe('ZZZTRKAA2RT000001');
    expect(whole.facts.active.get(0)!.codes).toMatchObject([{ spn: 157, fmi: 1, occurrences: 2 }]);
    expect(whole.tally.frames).toBe(5);
    expect({ ...single, recent: [] }).toEqual({ ...whole, recent: [] });
  });

  test('counts broken transfers', () => {
    const torn = wholeBam({ atMs: 0, from: 0, to: 0xff }, 65242, message(108)).filter((_, i) => i !== 9);
    expect(through([batchOf(torn)]).facts).toMatchObject({
      brokenCount: 1,
      broken: [{ reason: 'out of sequence', firstMissing: 9 }],
    });
  });

  test('also without time', () => {
    const untimed = batchOf(wholeBam({ atMs: NaN, from: 0, to: 0xff }, 65260, message(18)));
    expect(through([untimed]).facts.identifications.size).toBe(1);
  });
});

describe('the last frames', () => {
  test('are kept as they came, breaks and all, and an empty batch is none', () => {
    const first = batchOf(speeds(10), true);
    const bus = through([first, batchOf([]), batchOf(speeds(5, 10))]);
    expect(bus.recent.map(({ count, breakBefore }) => [count, breakBefore])).toEqual([
      [10, true],
      [5, false],
    ]);
    expect(bus.recent[0]).toBe(first);
  });

  test.each([1, 7, 999, 1999, 2000, 2001, 5000])('in batches of %i are 2000 at least and bounded', (size) => {
    const batches = Array.from({ length: Math.ceil(9000 / size) }, (_, i) => batchOf(speeds(size, i * size)));
    const bus = through(batches);
    expect(countRecent(bus)).toBeGreaterThanOrEqual(RECENT_FRAMES);
    expect(countRecent(bus)).toBeLessThan(RECENT_FRAMES + Math.min(size, RECENT_FRAMES));
    expect(bus.recent.at(-1)!.atMs.at(-1)).toBe(batches.length * size - 1);
  });

  test('of a long chunk do not keep the chunk alive', () => {
    const chunk = batchOf(speeds(50_000));
    const tail = through([rows(chunk, 0, 50_000)]).recent[0]!;
    expect([tail.count, tail.atMs[0], tail.data.buffer.byteLength]).toEqual([2000, 48_000, 16_000]);
    const small = through([rows(chunk, 100, 110)]).recent[0]!;
    expect([small.count, small.atMs[0], small.data.buffer.byteLength]).toEqual([10, 100, 80]);
  });

  test('hold the rows whole: what is copied is what came', () => {
    const chunk = batchOf(
      speeds(3000).map((each, i) => ({ ...each, id: each.id + (i % 250), channel: i % 3 })),
    );
    const tail = through([chunk]).recent[0]!;
    expect([...tail.id]).toEqual([...chunk.id.subarray(1000)]);
    expect([...tail.data]).toEqual([...chunk.data.subarray(8000)]);
    expect([...tail.channel]).toEqual([...chunk.channel.subarray(1000)]);
    expect([tail.flags.length, tail.length.length, tail.breakBefore]).toEqual([2000, 2000, false]);
  });
});

test('any frames: never throws, and what is held stays bounded', () => {
  const frame: fc.Arbitrary<Sent> = fc.record({
    atMs: fc.constant(0),
    id: fc.oneof(
      fc.nat(0xffffffff),
      fc.constantFrom(0x1cecff00, 0x1cebff00, 0x18feca01, 0x18e8ff02, 0x18eeff03),
    ),
    data: fc.array(fc.nat(255), { maxLength: 8 }),
    channel: fc.nat(255),
    flags: fc.nat(15),
  });
  fc.assert(
    fc.property(
      fc.array(fc.array(frame, { maxLength: 200 }), { maxLength: 8 }),
      fc.boolean(),
      (chunks, broken) => {
        const bus = through(chunks.map((frames) => batchOf(frames, broken)));
        expect(bus.transport.transfers.size).toBeLessThanOrEqual(64);
        expect(bus.facts.broken.length).toBeLessThanOrEqual(20);
        for (const map of [bus.facts.active, bus.facts.acknowledgements, bus.facts.claims])
          expect(map.size).toBeLessThanOrEqual(256);
      },
    ),
    { numRuns: 100 },
  );
});
