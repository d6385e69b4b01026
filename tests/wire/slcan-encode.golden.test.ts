import { expect, test } from 'vitest';
import { encodeSlcanCommand, encodeSlcanFrame } from '../../src/wire/slcan-encode.ts';
import { ascii } from './decode-all.ts';

// Written by hand from can-text-formats.md, Part 1, "Received frames" and "Commands"; not from our encoder.
test.each([
  [
    'T18FEF7008FFFFFFFFF200FFFF\r',
    { id: 0x18fef700, extended: true, remote: false, data: [255, 255, 255, 255, 242, 0, 255, 255] },
    null,
  ],
  [
    't1232AABB1F40\r',
    { id: 0x123, extended: false, remote: false, data: [0xaa, 0xbb] },
    { kind: 'ms', value: 8000 },
  ],
  ['t1230EA5F\r', { id: 0x123, extended: false, remote: false, data: [] }, { kind: 'ms', value: 59_999 }],
  ['t12300000\r', { id: 0x123, extended: false, remote: false, data: [] }, { kind: 'ms', value: 60_000 }],
  [
    't1230D693A3FF\r',
    { id: 0x123, extended: false, remote: false, data: [] },
    { kind: 'us', value: 3_599_999_999 },
  ],
  ['r7FF8\r', { id: 0x7ff, extended: false, remote: true, data: [0, 0, 0, 0, 0, 0, 0, 0] }, null],
  ['R000001233\r', { id: 0x123, extended: true, remote: true, data: [0, 0, 0] }, null],
] as const)('%j', (text, { data, ...frame }, stamp) => {
  const bytes = encodeSlcanFrame({ ...frame, length: data.length, data: Uint8Array.from(data) }, stamp);
  expect(bytes).toEqual(ascii(text));
});

test('a command gets its CR', () => {
  expect(encodeSlcanCommand('S5')).toEqual(Uint8Array.of(0x53, 0x35, 0x0d));
});
