import { describe, expect, test } from 'vitest';
import { busHealth } from '../../src/j1939/bus-health.ts';
import { START_TALLY, tallyFrames, type BusTally } from '../../src/j1939/bus-tally.ts';
import { leastBits, mostBits } from '../../src/j1939/frame-bits.ts';
import { batchOf, rows, type Sent } from './fixtures/transport-frames.ts';

const EIGHT = [1, 2, 3, 4, 5, 6, 7, 8];
const frame = (atMs: number, address = 0, more: Partial<Sent> = {}): Sent => ({
  atMs,
  id: 0x0cf00400 + address,
  data: EIGHT,
  ...more,
});
const tallied = (frames: readonly Sent[], from: BusTally = START_TALLY) => tallyFrames(from, batchOf(frames));
const every = (stepMs: number, count: number, fromMs = 0, address = 0) =>
  Array.from({ length: count }, (_, i) => frame(fromMs + i * stepMs, address));

describe('the length of a frame on the bus', () => {
  // Published worst cases with three bits of intermission: 55 + 10 n bits for 11-bit and 80 + 10 n for 29-bit identifiers
  // (response-time analysis of CAN, Davis, Burns, Bril and Lukkien 2007; from memory).
  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8])('with %i bytes is at most 55 + 10 n or 80 + 10 n bits', (n) => {
    expect(mostBits(false, n)).toBe(55 + 10 * n);
    expect(mostBits(true, n)).toBe(80 + 10 * n);
  });

  // Counted by hand along the frame format of ISO 11898-1: start 1, identifier 11, substitute remote request 1, identifier extension 1,
  // identifier 18, remote request 1, reserved 2, length 4, data 64, CRC 15, delimiter 1, acknowledge 2, end 7, intermission 3.
  test('with 29 bits and 8 bytes is at least the sum of its fields', () => {
    expect(leastBits(true, 8)).toBe(1 + 11 + 1 + 1 + 18 + 1 + 2 + 4 + 64 + 15 + 1 + 2 + 7 + 3);
  });

  test('with 11 bits and no data is at least the sum of its fields', () => {
    expect(leastBits(false, 0)).toBe(1 + 11 + 1 + 1 + 1 + 4 + 15 + 1 + 2 + 7 + 3);
  });
});

describe('the tally', () => {
  test('counts each address of each channel with its last time', () => {
    const tally = tallied([frame(10), frame(20, 3), frame(30), frame(40, 0, { channel: 1 })]);
    expect(busHealth(tally, null, null).addresses).toMatchObject([
      { origin: 0, frames: 2, lastAtMs: 30 },
      { origin: 3, frames: 1, lastAtMs: 20 },
      { origin: 256, frames: 1, lastAtMs: 40 },
    ]);
    expect([tally.frames, tally.firstAtMs, tally.lastAtMs]).toEqual([4, 10, 40]);
  });

  test('counts 11-bit frames as traffic of no address, and error frames apart', () => {
    const tally = tallied([
      frame(0, 5, { flags: 0 }),
      frame(1, 5, { flags: 1 | 4 }),
      frame(2, 5, { flags: 4 }),
    ]);
    expect([tally.frames, tally.errorFrames]).toEqual([1, 2]);
    expect(busHealth(tally, 1000, 250_000)).toMatchObject({ framesPerSecond: 1, addresses: [] });
  });

  test('counts sent and remote frames too: they are on the bus; a remote frame carries no data', () => {
    const both = tallied([frame(0, 1, { flags: 1 | 8 }), frame(0, 1, { flags: 1 | 2 })]);
    expect(busHealth(both, 1000, 1000)).toMatchObject({
      framesPerSecond: 2,
      loadPercent: { least: (131 + 67) / 10, most: (160 + 80) / 10 },
    });
  });

  test('is a value: what was counted before stays as it was', () => {
    const first = tallied(every(100, 5));
    const before = structuredClone(first);
    const next = tallied([...every(100, 20, 500), frame(2600, 0, { channel: 2 })], first);
    expect(first).toEqual(before);
    expect(next.frames).toBe(26);
  });

  test('is the same however the frames are cut into batches', () => {
    const frames = Array.from({ length: 400 }, (_, i) =>
      frame(i * 37, i % 5, { channel: i % 3, data: EIGHT.slice(0, i % 9), flags: i % 7 === 0 ? 0 : 1 }),
    );
    const batch = batchOf(frames);
    const whole = tallyFrames(START_TALLY, batch);
    for (const size of [1, 7, 150]) {
      let tally = START_TALLY;
      for (let from = 0; from < 400; from += size)
        tally = tallyFrames(tally, rows(batch, from, Math.min(400, from + size)));
      expect(tally).toEqual(whole);
    }
  });

  test('keeps ten seconds, however long it runs, and drops old ones after a pause', () => {
    const long = tallied(every(10, 6000));
    expect(long.seconds.map(({ second }) => second)).toEqual([50, 51, 52, 53, 54, 55, 56, 57, 58, 59]);
    expect(tallied([frame(65_000)], long).seconds.map(({ second }) => second)).toEqual([56, 57, 58, 59, 65]);
  });

  test('begins its seconds anew at a break of time, and keeps its totals', () => {
    const first = tallied(every(10, 100, 50_000));
    const next = tallyFrames(first, batchOf([frame(3000)], true));
    expect(next).toMatchObject({ frames: 101, firstAtMs: 3000, lastAtMs: 3000 });
    expect(next.seconds).toHaveLength(1);
    expect(tallyFrames(first, batchOf([], true)).firstAtMs).toBeNull();
  });

  test('counts what is stamped a little behind in the newest second', () => {
    const tally = tallied([frame(1001), frame(999), frame(1002)]);
    expect(tally.seconds.map(({ second, frames }) => [second, frames])).toEqual([[1, 3]]);
  });
});

describe('the health of the bus', () => {
  test('is 100 frames a second where one comes every 10 ms', () => {
    const health = busHealth(tallied(every(10, 3000)), 30_000 - 10, 250_000);
    expect(health.framesPerSecond).toBeCloseTo(100, 0);
    // 100 frames of 131 to 160 bits a second on 250 kbit/s, by hand: 5.24 % to 6.4 %.
    expect(health.loadPercent!.least).toBeCloseTo(5.24, 1);
    expect(health.loadPercent!.most).toBeCloseTo(6.4, 1);
    expect(health.addresses[0]!.framesPerSecond).toBeCloseTo(100, 0);
  });

  test('falls when frames stop, to nothing after ten seconds, and still says when the last one came', () => {
    const tally = tallied(every(10, 1000)); // until 9990
    expect(busHealth(tally, 14_999, null).framesPerSecond).toBeCloseTo(50, 0); // 500 frames of seconds 5 to 9, over 10 s
    expect(busHealth(tally, 60_000, null)).toMatchObject({
      framesPerSecond: 0,
      addresses: [{ origin: 0, framesPerSecond: 0, lastAtMs: 9990, frames: 1000 }],
      lastAtMs: 9990,
    });
  });

  test('is over one second at least, so that one frame is no storm', () => {
    expect(busHealth(tallied([frame(500)]), 500, null).framesPerSecond).toBe(1);
  });

  test('of a clock that lies behind the last frame is that of the last frame', () => {
    const tally = tallied(every(10, 1000));
    expect(busHealth(tally, 0, null)).toEqual(busHealth(tally, null, null));
  });

  test('has no load without a bit rate, and no rates without time', () => {
    expect(busHealth(tallied(every(10, 10)), null, null).loadPercent).toBeNull();
    expect(busHealth(tallied(every(10, 10)), null, 0).loadPercent).toBeNull();
    expect(busHealth(tallied([frame(NaN), frame(NaN, 3)]), null, 250_000)).toEqual({
      framesPerSecond: null,
      loadPercent: null,
      addresses: [
        { origin: 0, frames: 1, framesPerSecond: null, lastAtMs: null },
        { origin: 3, frames: 1, framesPerSecond: null, lastAtMs: null },
      ],
      lastAtMs: null,
    });
    expect(busHealth(START_TALLY, 5, 250_000).addresses).toEqual([]);
  });

  test('above 100 per cent says that the bit rate is wrong', () => {
    expect(busHealth(tallied(every(1, 3000)), null, 125_000).loadPercent!.least).toBeGreaterThan(100);
  });
});
