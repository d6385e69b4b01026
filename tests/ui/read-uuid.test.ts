import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readUuid } from '../../src/ui/read-uuid.ts';

describe('readUuid', () => {
  // 16- and 32-bit numbers stand in the base UUID: Bluetooth Core Specification, Vol 3, Part B, 2.5.1.
  test.each([
    ['FFE0', '0000ffe0-0000-1000-8000-00805f9b34fb'],
    ['0xFFE0', '0000ffe0-0000-1000-8000-00805f9b34fb'],
    [' 0000180a ', '0000180a-0000-1000-8000-00805f9b34fb'],
    ['6E400001-B5A3-F393-E0A9-E50E24DCCA9E', '6e400001-b5a3-f393-e0a9-e50e24dcca9e'],
    ['{6e400001-b5a3-f393-e0a9-e50e24dcca9e}', '6e400001-b5a3-f393-e0a9-e50e24dcca9e'],
    ['6e400001b5a3f393e0a9e50e24dcca9e', '6e400001-b5a3-f393-e0a9-e50e24dcca9e'],
  ])('reads %j', (text, uuid) => {
    expect(readUuid(text)).toEqual({ uuid });
  });

  test.each([
    ['', 'Type the service’s UUID first.'],
    ['serial', 'A UUID has digits and the letters a to f only.'],
    ['ffe', 'A UUID has 4, 8 or 32 digits; this has 3.'],
    ['ffe0-', 'A UUID has 4, 8 or 32 digits; this has 4.'],
    ['6e40-0001b5a3f393e0a9e50e24dcca9e', 'The dashes of a UUID stand after 8, 12, 16 and 20 digits.'],
  ])('refuses %j with the reason', (text, refusal) => {
    expect(readUuid(text)).toEqual({ refusal });
  });

  test('never throws, and what it reads it reads again as the same', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.uuid(), fc.stringMatching(/^[0-9a-fA-F]{4}$/)), (text) => {
        const read = readUuid(text);
        if ('uuid' in read) expect(readUuid(read.uuid)).toEqual(read);
      }),
    );
  });
});
