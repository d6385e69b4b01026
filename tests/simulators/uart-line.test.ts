import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { throughUart } from '../../simulators/bridge/uart-line.ts';
import { SERIAL_SPEEDS } from '../../src/wire/search-speeds.ts';

/** 8 data bits, least significant first, a low start bit, a high stop bit: the usual frame of a UART (from memory). */
describe('a serial line read at another speed', () => {
  const speeds = fc.constantFrom(...SERIAL_SPEEDS);

  test('at the same speed gives the bytes, with no error', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), speeds, (bytes, speed) => {
        expect(throughUart(bytes, speed, speed)).toEqual({ bytes, framingErrors: 0 });
      }),
    );
  });

  test('less than 3 % off still gives the bytes: the last sample stays within its bit', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 60 }),
        fc.double({ min: 0.97, max: 1.03, noNaN: true }),
        (bytes, off) => {
          expect(throughUart(bytes, 115_200, 115_200 * off)).toEqual({ bytes, framingErrors: 0 });
        },
      ),
    );
  });

  // Worked by hand. CR is 0D: line 0 1011 0000 1. At twice the speed each bit is sampled twice, in its middle thirds:
  // start 00, then 11 00 11 1(1): E6 hex with a high stop bit; the rest of the byte has no further fall before its end
  // but the four zeros: from the fall at bit 5 on 0000 0000 with the stop at bit 9.75: high. That is inside the first byte.
  test('CR at twice the speed begins with 11001111 read from the low end', () => {
    const { bytes } = throughUart(Uint8Array.of(0x0d), 57_600, 115_200);
    expect(bytes[0]).toBe(0b1110_0110);
  });

  // 00 at a twelfth of the speed: 9 low bits last 108 receiver bits: bytes of zeros, each with a low stop bit.
  test('zeros from a slow sender are zeros with low stop bits', () => {
    const { bytes, framingErrors } = throughUart(Uint8Array.of(0), 9_600, 115_200);
    expect([...new Set(bytes)]).toEqual([0]);
    expect(framingErrors).toBe(bytes.length);
  });

  test('the same bytes at the same speeds give the same junk', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), speeds, speeds, (bytes, from, to) => {
        const once = throughUart(bytes, from, to);
        expect(throughUart(bytes, from, to)).toEqual(once);
        expect(once.bytes.length).toBeLessThanOrEqual(Math.ceil(10 * bytes.length * Math.max(1, to / from)));
      }),
    );
  });

  test('nothing gives nothing', () =>
    expect(throughUart(new Uint8Array(0), 9_600, 115_200)).toEqual({
      bytes: new Uint8Array(0),
      framingErrors: 0,
    }));
});
