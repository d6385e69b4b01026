import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formCanId, isJ1939, parseCanId, pgnOf } from '../../src/j1939/can-id.ts';

test('0CF00400 is EEC1 from the engine at priority 3 (j1939.md, the 29-bit identifier)', () => {
  expect(parseCanId(0x0cf00400)).toEqual({
    priority: 3,
    extendedDataPage: 0,
    dataPage: 0,
    pduFormat: 0xf0,
    pduSpecific: 0x04,
    sourceAddress: 0,
    pgn: 61444,
    destination: 255,
  });
});

test('18EA00F9 is a request to the engine from tool 1: its PGN has low byte 0 (j1939.md)', () => {
  const id = parseCanId(0x18ea00f9);
  expect([id.priority, id.pgn, id.destination, id.sourceAddress]).toEqual([6, 59904, 0, 0xf9]);
});

test('PF 239 still has a destination, PF 240 has a group extension (J1939-21)', () => {
  expect(pgnOf(0x18ef5500)).toBe(0xef00);
  expect(pgnOf(0x18f05500)).toBe(0xf055);
});

test('the data page is part of the PGN and the extended one is not J1939', () => {
  expect(pgnOf(0x19f00400)).toBe(0x1f004);
  expect(isJ1939(0x19f00400)).toBe(true);
  expect(isJ1939(0x1af00400)).toBe(false);
  expect(isJ1939(0x1bf00400)).toBe(false);
});

test('the highest PGN is 3FFFF hex (j1939.md)', () => expect(pgnOf(0x1fffffff)).toBe(0x3ffff));

test('a formed identifier is the one on the wire', () => {
  expect(formCanId({ priority: 3, pgn: 61444, sourceAddress: 0 })).toBe(0x0cf00400);
  expect(formCanId({ priority: 6, pgn: 59904, sourceAddress: 0xf9, destination: 0 })).toBe(0x18ea00f9);
  expect(formCanId({ priority: 6, pgn: 59904, sourceAddress: 0xf9 })).toBe(0x18eafff9);
});

test('every 29-bit identifier survives being taken apart and formed again', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 0x1fffffff }), (id) => {
      expect(formCanId(parseCanId(id))).toBe(id);
    }),
  );
});
