import { expect, test } from 'vitest';
import { CANDUMP, ascii, eec1Line, readPieces } from './fixtures/eec1-log.ts';

const VIN_LINES = [
  ['0', '1CECFF00#20120003FFECFE00'],
  ['50', '1CEBFF00#015A5A5A54524B41'],
  ['100', '1CEBFF00#0241325254303030'],
  ['150', '1CEBFF00#033030312AFFFFFF'],
] as const;
const timed = VIN_LINES.map(
  ([atMs, frame]) => `(${(1_700_000_000 + Number(atMs) / 1000).toFixed(6)}) can0 ${frame}\n`,
);
const untimed = VIN_LINES.map(
  ([, frame]) => `  can0  ${frame.slice(0, 8)}   [8]  ${frame.slice(9).replace(/../g, '$& ')}\n`,
);

test('the pipeline steps the bus beside the readings, however the bytes are cut', () => {
  const text = ascii([...timed, eec1Line(200, 150)].join(''));
  const whole = readPieces([text], CANDUMP).bus;
  const cut = readPieces(
    [...text].map((byte) => Uint8Array.of(byte)),
    CANDUMP,
  ).bus;
  expect(whole.facts.identifications.get(0)!.vin).toBe('ZZZTRKAA2RT000001');
  expect(whole.tally.frames).toBe(5);
  expect({ ...cut, recent: [] }).toEqual({ ...whole, recent: [] });
});

test('the bus is stepped by frames without time too, whose readings are left out', () => {
  const state = readPieces([ascii(untimed.join(''))], CANDUMP);
  expect(state.bus.facts.identifications.get(0)!.vin).toBe('ZZZTRKAA2RT000001');
  expect(state.untimedFrames).toBe(4);
  expect(state.bus.recent.reduce((sum, { count }) => sum + count, 0)).toBe(4);
});

test('who looks at cranks only is spared the bus, and reads the same', () => {
  const text = ascii([...timed, eec1Line(200, 150), eec1Line(300, 151)].join(''));
  const whole = readPieces([text], CANDUMP);
  const spared = readPieces([text], { ...CANDUMP, readingsOnly: true });
  expect(spared.bus.tally.frames).toBe(0);
  expect(spared.bus.recent).toEqual([]);
  expect(spared.traces).toEqual(whole.traces);
  expect(spared.finders).toEqual(whole.finders);
});
