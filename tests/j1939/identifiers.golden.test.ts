import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formCanId, GLOBAL_ADDRESS, isJ1939, parseCanId, pgnOf } from '../../src/j1939/can-id.ts';

/** Identifier, priority, PGN, destination, source; groups and priorities from j1939.md, taken apart by hand by its bit table. */
const VECTORS: readonly [
  id: number,
  priority: number,
  pgn: number,
  destination: number,
  source: number,
  what: string,
][] = [
  [0x0cf00400, 3, 61444, 255, 0x00, 'EEC1, PF F0: broadcast'],
  [0x18fedb00, 6, 65243, 255, 0x00, 'fluid level/pressure 2'],
  [0x18fcfd00, 6, 64765, 255, 0x00, 'EEC9'],
  [0x18feef00, 6, 65263, 255, 0x00, 'fluid level/pressure 1'],
  [0x18fef731, 6, 65271, 255, 0x31, 'power 1 from the cab, 31'],
  [0x18feee00, 6, 65262, 255, 0x00, 'temperatures 1'],
  [0x18fef600, 6, 65270, 255, 0x00, 'intake 1'],
  [0x18fee500, 6, 65253, 255, 0x00, 'hours'],
  [0x18fefc17, 6, 65276, 255, 0x17, 'dash display from the cluster, 17'],
  [0x18feff00, 6, 65279, 255, 0x00, 'operator indicators'],
  [0x18ea00f9, 6, 59904, 0x00, 0xf9, 'request to the engine from tool 1'],
  [0x18eafff9, 6, 59904, 0xff, 0xf9, 'request to all'],
  [0x18e8fff9, 6, 59392, 0xff, 0xf9, 'acknowledgement'],
  [0x1cecff00, 7, 60416, 0xff, 0x00, 'transport, connection management'],
  [0x1cebff00, 7, 60160, 0xff, 0x00, 'transport, data'],
  [0x18feca00, 6, 65226, 255, 0x00, 'active codes'],
  [0x10feca0b, 4, 65226, 255, 0x0b, 'active codes at priority 4, from the brakes'],
  [0x00000000, 0, 0, 0x00, 0x00, 'all bits clear'],
  [0x1fffffff, 7, 0x3ffff, 255, 0xff, 'all bits set: highest PGN'],
];

describe('identifiers of j1939.md', () => {
  test.each(VECTORS)('%i is taken apart: priority %i, PGN %i, to %i, from %i', (...row) => {
    const [id, priority, pgn, destination, sourceAddress] = row;
    expect(parseCanId(id)).toMatchObject({ priority, pgn, destination, sourceAddress });
    expect(pgnOf(id)).toBe(pgn);
  });

  test.each(VECTORS)('%i is formed from priority %i, PGN %i, to %i, from %i', (...row) => {
    const [id, priority, pgn, destination, sourceAddress] = row;
    expect(formCanId({ priority, pgn, destination, sourceAddress })).toBe(id);
  });
});

describe('fields', () => {
  test('each field reads its own bits and no others', () => {
    const fields = ['priority', 'extendedDataPage', 'dataPage', 'pduFormat', 'pduSpecific', 'sourceAddress'];
    const widths = [3, 1, 1, 8, 8, 8]; // j1939.md, top to bottom
    let bit = 28;
    fields.forEach((field, i) => {
      for (let left = widths[i]!; left > 0; left--, bit--) {
        const id = parseCanId(2 ** bit) as unknown as Record<string, number>;
        expect(fields.filter((each) => id[each] !== 0)).toEqual([field]);
        expect(id[field]).toBe(2 ** (left - 1));
      }
    });
    expect(bit).toBe(-1);
  });

  test('what is too large is cut to its bits', () => {
    expect(formCanId({ priority: 8 + 3, pgn: 0x40000 + 61444, sourceAddress: 0x100 })).toBe(0x0cf00400);
    expect(formCanId({ priority: 6, pgn: 59904, sourceAddress: 0xf9, destination: 0x100 })).toBe(0x18ea00f9);
  });

  test('a destination does not spoil a broadcast group', () => {
    expect(formCanId({ priority: 3, pgn: 61444, sourceAddress: 0, destination: 0x55 })).toBe(0x0cf00400);
  });

  test('the low byte of a PDU1 group gives way to the destination', () => {
    expect(formCanId({ priority: 6, pgn: 59904 + 0x33, sourceAddress: 0xf9, destination: 0 })).toBe(
      0x18ea00f9,
    );
  });

  test('bits above the 29th are ignored, and an identifier is never negative', () => {
    expect(pgnOf(0xecf00400)).toBe(61444);
    expect(parseCanId(0xecf00400)).toEqual(parseCanId(0x0cf00400));
    expect(formCanId({ priority: 7, pgn: 0x3ffff, sourceAddress: 255 })).toBeGreaterThan(0);
  });

  test('the priority never changes the group, and the extended data page alone says what is not J1939', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0x3ffffff }), fc.nat(7), (rest, priority) => {
        const id = priority * 2 ** 26 + rest;
        expect(pgnOf(id)).toBe(pgnOf(rest));
        expect(isJ1939(id)).toBe(rest < 2 ** 25);
      }),
    );
  });

  test('all is address 255', () => expect(GLOBAL_ADDRESS).toBe(255));
});
