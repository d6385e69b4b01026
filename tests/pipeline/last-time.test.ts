import { expect, test } from 'vitest';
import { CANDUMP, ascii, readPieces } from './fixtures/eec1-log.ts';

const timed = '(1700000000.000000) can0 0CF00400#FFFFFF6813FFFFFF\n';
const untimed = '  can0  0CF00400   [8]  FF FF FF 68 13 FF FF FF\n';

/** Found by the fuzz: a row without a time at the end of a chunk hid the time of the one before it. */
test('the time of the last value is that of the last row that has one, however the bytes are cut', () => {
  const text = ascii(timed + untimed);
  const whole = readPieces([text], CANDUMP);
  const cut = readPieces(
    [...text].map((byte) => Uint8Array.of(byte)),
    CANDUMP,
  );
  expect(whole.lastMs).toBe(1_700_000_000_000);
  expect(cut.lastMs).toBe(whole.lastMs);
});

test('nothing timed has come: there is no last time', () => {
  expect(readPieces([ascii(untimed)], CANDUMP).lastMs).toBeNull();
});
