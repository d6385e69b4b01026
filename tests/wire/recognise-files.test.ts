import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { ascii } from './decode-all.ts';

const folder = new URL('../../../shared/data/j1939/', import.meta.url);
const present = existsSync(folder);
if (!present) console.log('skipped: the recordings in ../shared/data/j1939 are not here');
const files = present ? readdirSync(folder).filter((name) => /\.(log|txt)(\.gz)?$/.test(name)) : [];

describe.skipIf(!present)('every recording', () => {
  test.each(files)('%s is candump text, packed it is neither', (name) => {
    const raw = readFileSync(new URL(name, folder));
    const packed = name.endsWith('.gz');
    expect(recogniseWire(packed ? gunzipSync(raw) : raw)).toBe('candump');
    if (packed) expect(recogniseWire(raw)).toBeNull();
  });
});

// Forms: can-text-formats.md; the others are files that a person may choose by mistake.
describe('a file or stream', () => {
  const FRAME = 'T18FEF7008FFFFFFFFF200FFFF\r';
  test.each([
    ['SLCAN with stamps', 'T18FEF7008FFFFFFFFF200FFFF1F40\r'.repeat(3), 'slcan'],
    ['SLCAN that begins in a line', FRAME.slice(9) + FRAME.repeat(2), 'slcan'],
    ['SLCAN with CR LF', 't1230\r\nt1240\r\n', 'slcan'],
    ['SLCAN with answers', `\r\rV1013\r\r${FRAME}`, 'slcan'],
    ['SLCAN among as many junk lines is not certain', `\rjunk\r${FRAME}`, null],
    ['SLCAN among fewer junk lines', `\rjunk\r${FRAME.repeat(2)}`, 'slcan'],
    ['candump of CAN FD alone', `(1.0) can0 123##1${'11'.repeat(12)}\n`, 'candump'],
    ['candump, one frame not terminated', '(1589326646.631333) can1 123#', 'candump'],
    ['candump screen without stamps', '  can0  123   [1]  11\n', 'candump'],
    ['candump behind remarks', `${'# remark\n'.repeat(50)}(1.0) can0 123#\n`, 'candump'],
    ['frames only behind the first 8 KiB', `${'#'.repeat(8_191)}\n(1.0) can0 123#\n`, null],
    ['CSV with commas', 'time,speed\n0.1,150\n0.2,151\n', null],
    ['CSV with semicolons', 'time;speed\n0,1;150\n0,2;151\n', null],
    ['CSV with tabs', 'time\tspeed\n0.1\t150\n0.2\t151\n', null],
    ['a column of numbers', '150\n151\n149\n', null],
    ['JSON', '{"frames":[{"id":"18FEF700","data":"FFFF"}]}\n', null],
    ['JSON on many lines', '{\n  "a": 1,\n  "t": 2\n}\n', null],
    ['XML', '<?xml version="1.0"?>\n<log/>\n', null],
    ['a picture', '\x89PNG\r\n\x1a\n\0\0\0\rIHDR', null],
    ['a zip', 'PK\x03\x04\x14\0\0\0', null],
    ['zeros', '\0'.repeat(10_000), null],
    ['line ends alone', '\r\n'.repeat(100), null],
    ['acknowledgements alone', '\r\rz\rZ\r', null],
    ['nothing', '', null],
  ])('%s', (_what, text, protocol) => {
    expect(recogniseWire(ascii(text))).toBe(protocol);
  });

  test('every byte value in turn', () => {
    expect(recogniseWire(Uint8Array.from({ length: 20_000 }, (_, i) => i % 256))).toBeNull();
  });
});
