import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import {
  bytesNeeded,
  decodeRaw,
  emptyMessage,
  encodeRaw,
  highestRaw,
  readRaw,
  writeSample,
} from '../../src/j1939/spn-codec.ts';
import { parameterOf, SPN_TABLE, type SpnEntry } from '../../src/j1939/spn-table.ts';
import { framesOf } from './fixtures/read-recording.ts';

const spnsOf = (text: string) => [...decodeFrames(framesOf(text)).parameter].map((i) => SPN_TABLE[i]!.spn);
const entry = (bits: SpnEntry['bits'], startByte = 1, startBit = 1): SpnEntry => ({
  ...SPN_TABLE[0]!,
  bits,
  startByte,
  startBit,
  scale: 1,
  offset: 0,
});

describe('a batch of frames', () => {
  test('keeps the order received over groups, addresses and channels', () => {
    const text = [
      '(3) can1 18FEEE00#3738FFFFFFFFFFFF',
      '(1) can0 18FEF731#FFFFFFFFF200F001',
      '(2) can3 18FEEEFF#39FFFFFFFFFFFFFF',
    ].join('\n');
    const { count, atMs, origin, value } = decodeFrames(framesOf(text));
    expect(spnsOf(text)).toEqual([110, 174, 175, 168, 158, 110, 174, 175]);
    expect([...atMs]).toEqual([3000, 3000, 3000, 1000, 1000, 2000, 2000, 2000]);
    expect([...origin]).toEqual([256, 256, 256, 0x31, 0x31, 3 * 256 + 255, 3 * 256 + 255, 3 * 256 + 255]);
    expect([...value.subarray(0, 2), value[5]]).toEqual([15, 16, 17]);
    expect(count).toBe(8);
  });

  test('has columns just as long as its rows', () => {
    const { count, ...columns } = decodeFrames(framesOf('(1) can0 18FEEE00#3738'));
    expect(count).toBe(2);
    for (const column of Object.values(columns)) expect(column.length).toBe(2);
  });

  test('without frames, or with none that is read, has no rows', () => {
    expect(decodeFrames(framesOf('')).count).toBe(0);
    expect(decodeFrames(framesOf('(1) can0 18FECA00#04FFF700095DFFFF')).count).toBe(0);
  });

  test('frames that are not read do not shift the data of those that are', () => {
    const text = '(1) can0 18FECA00#04FFF700095DFFFF\n(2) can0 123#0102\n(3) can0 18FEEE00#37';
    expect([...decodeFrames(framesOf(text)).value]).toEqual([15]);
  });

  test('a frame of a highest channel has an origin that fits', () => {
    const frames = { ...framesOf('(1) can0 18FEEEFE#37'), channel: Uint8Array.of(255) };
    expect([...decodeFrames(frames).origin]).toEqual([255 * 256 + 254]);
  });

  test('a frame without a time keeps no time', () => {
    expect(decodeFrames(framesOf('can0 18FEEE00#37')).atMs[0]).toBeNaN();
  });

  test('a length beyond eight is read as eight', () => {
    const frames = { ...framesOf('(1) can0 18FEF700#FFFFFFFFF200F001'), length: Uint8Array.of(64) };
    expect([...decodeFrames(frames).parameter].map((i) => SPN_TABLE[i]!.spn)).toEqual([168, 158]);
  });

  test.each([
    ['a PDU1 group whose destination looks like a group extension', '18EA0400'],
    ['a request to address EE', '18EAEEF9'],
    ['PF EF with the extension of fluids', '18EFEF00'],
    ['the extension just below temperatures', '18FEED00'],
    ['extended data page 1', '1AFEEE00'],
    ['data page 1', '19FEEE00'],
    ['both pages (ISO 15765-3)', '1BFEEE00'],
  ])('%s gives nothing', (_, id) => {
    expect(spnsOf(`(1) can0 ${id}#3738FFFFFFFFFFFF`)).toEqual([]);
  });

  test('every priority and every address gives the same parameters', () => {
    fc.assert(
      fc.property(fc.nat(7), fc.nat(255), (priority, address) => {
        const id = (priority * 2 ** 26 + 0xfeee00 + address).toString(16).toUpperCase().padStart(8, '0');
        expect(spnsOf(`(1) can0 ${id}#3738`)).toEqual([110, 174]);
      }),
    );
  });
});

describe('a field', () => {
  const message = Uint8Array.of(0xe4, 0x12, 0x34, 0x56, 0x78, 0x9a, 0xbc, 0xfd);
  test.each<[bits: SpnEntry['bits'], byte: number, bit: number, raw: number]>([
    [2, 1, 1, 0], // E4h = 11 10 01 00
    [2, 1, 3, 1],
    [2, 1, 5, 2],
    [2, 1, 7, 3],
    [4, 1, 1, 4],
    [4, 1, 5, 14],
    [8, 8, 1, 0xfd],
    [16, 7, 1, 0xfdbc],
    [32, 5, 1, 0xfdbc9a78], // unsigned though its top bit is set
  ])('of %i bits at byte %i, bit %i reads %i', (bits, byte, bit, raw) => {
    expect(readRaw(entry(bits, byte, bit), message)).toBe(raw);
    const two = Uint8Array.of(...emptyMessage(), ...message);
    expect(readRaw(entry(bits, byte, bit), two, 8)).toBe(raw);
  });

  test.each([2, 4, 8, 16, 32] as const)('of %i bits keeps its highest value and its marks', (bits) => {
    const highest = { 2: 1, 4: 13, 8: 0xfa, 16: 0xfaff, 32: 0xfaffffff }[bits]; // j1939.md, value ranges
    const [error, lastError] = (
      {
        2: [2, 2],
        4: [14, 14],
        8: [0xfe, 0xfe],
        16: [0xfe00, 0xfeff],
        32: [0xfe000000, 0xfeffffff],
      } as const
    )[bits];
    const missing = { 2: 3, 4: 15, 8: 0xff, 16: 0xffff, 32: 0xffffffff }[bits];
    expect(highestRaw(bits)).toBe(highest);
    expect(encodeRaw(entry(bits), 'error')).toBeGreaterThanOrEqual(error);
    expect(encodeRaw(entry(bits), 'error')).toBeLessThanOrEqual(lastError);
    expect(encodeRaw(entry(bits), 'notAvailable')).toBe(missing);
    expect(encodeRaw(entry(bits), Infinity)).toBe(highest);
    expect(encodeRaw(entry(bits), -Infinity)).toBe(0);
    expect(decodeRaw(entry(bits), highest)).toBe(highest);
    expect(typeof decodeRaw(entry(bits), highest + 1)).toBe('string');
  });

  test('rounds to the nearest raw', () => {
    const speed = SPN_TABLE[parameterOf(190)]!;
    expect([620.93, 620.94, 621.06, 621.07].map((rpm) => encodeRaw(speed, rpm))).toEqual([
      4967, 4968, 4968, 4969,
    ]);
  });

  test('is written into its own bits, whatever stood there', () => {
    const places = [2, 4, 8, 16, 32].flatMap((bits) =>
      bits < 8
        ? Array.from({ length: 8 / bits }, (_, i) => entry(bits as 2 | 4, 3, 1 + i * bits))
        : [entry(bits as 8 | 16 | 32, 1), entry(bits as 8 | 16 | 32, 9 - bits / 8)],
    );
    const before = fc.uint8Array({ minLength: 8, maxLength: 8 });
    fc.assert(
      fc.property(fc.constantFrom(...places), before, fc.nat(), (place, data, any) => {
        const raw = any % (highestRaw(place.bits) + 1);
        const after = Uint8Array.from(data);
        writeSample(place, raw, after);
        expect(readRaw(place, after)).toBe(raw);
        writeSample(place, readRaw(place, data) <= highestRaw(place.bits) ? readRaw(place, data) : 0, after);
        if (readRaw(place, data) <= highestRaw(place.bits)) expect(after).toEqual(data);
      }),
    );
  });

  test('ends where its bytes end', () => {
    expect([entry(2, 1), entry(4, 7), entry(8, 3), entry(16, 4), entry(32, 5)].map(bytesNeeded)).toEqual([
      1, 7, 3, 5, 8,
    ]);
  });
});

test('a parameter that is not read has no place in the table', () => expect(parameterOf(156)).toBe(-1));
