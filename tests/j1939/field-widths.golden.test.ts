import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { qualityOfRaw } from '../../src/j1939/spn-codec.ts';
import { SPN_TABLE, type SpnEntry } from '../../src/j1939/spn-table.ts';
import { framesOf } from './fixtures/read-recording.ts';

const VALID = 0;
const ERROR = 1;
const MISSING = 2;

/** Both ends of each range of j1939.md, "Value ranges: valid, error, not available". */
const RANGES: readonly [bits: SpnEntry['bits'], first: number, last: number, quality: number][] = [
  [2, 0, 1, VALID],
  [2, 2, 2, ERROR],
  [2, 3, 3, MISSING],
  [4, 0, 13, VALID],
  [4, 14, 14, ERROR],
  [4, 15, 15, MISSING],
  [8, 0x00, 0xfa, VALID],
  [8, 0xfb, 0xfd, MISSING],
  [8, 0xfe, 0xfe, ERROR],
  [8, 0xff, 0xff, MISSING],
  [16, 0x0000, 0xfaff, VALID],
  [16, 0xfb00, 0xfdff, MISSING],
  [16, 0xfe00, 0xfeff, ERROR],
  [16, 0xff00, 0xffff, MISSING],
  [32, 0x00000000, 0xfaffffff, VALID],
  [32, 0xfb000000, 0xfdffffff, MISSING],
  [32, 0xfe000000, 0xfeffffff, ERROR],
  [32, 0xff000000, 0xffffffff, MISSING],
];

test.each(RANGES)('%i bits: %i to %i have quality %i', (bits, first, last, quality) => {
  for (const raw of [first, last, Math.floor((first + last) / 2)])
    expect(qualityOfRaw(raw, bits)).toBe(quality);
});

/** Places, scales and units as the tables of j1939.md print them. */
const TABLE: readonly [
  spn: number,
  pgn: number,
  byte: number,
  bits: number,
  scale: number,
  offset: number,
  unit: string,
][] = [
  [190, 0xf004, 4, 16, 0.125, 0, 'rpm'],
  [513, 0xf004, 3, 8, 1, -125, 'percent'],
  [1675, 0xf004, 7, 4, 1, 0, 'state'],
  [164, 0xfedb, 1, 16, 0.00390625, 0, 'MPa'],
  [157, 0xfedb, 3, 16, 0.00390625, 0, 'MPa'],
  [1349, 0xfedb, 7, 16, 0.00390625, 0, 'MPa'],
  [5313, 0xfcfd, 5, 16, 0.00390625, 0, 'MPa'],
  [94, 0xfeef, 1, 8, 4, 0, 'kPa'],
  [100, 0xfeef, 4, 8, 4, 0, 'kPa'],
  [168, 0xfef7, 5, 16, 0.05, 0, 'V'],
  [158, 0xfef7, 7, 16, 0.05, 0, 'V'],
  [110, 65262, 1, 8, 1, -40, 'degC'],
  [174, 65262, 2, 8, 1, -40, 'degC'],
  [175, 65262, 3, 16, 0.03125, -273, 'degC'],
  [102, 65270, 2, 8, 2, 0, 'kPa'],
  [247, 65253, 1, 32, 0.05, 0, 'h'],
  [96, 65276, 2, 8, 0.4, 0, 'percent'],
  [95, 65276, 3, 8, 2, 0, 'kPa'],
  [97, 65279, 1, 2, 1, 0, 'state'],
  [1382, 65130, 3, 8, 2, 0, 'kPa'],
];

describe('each parameter of the table', () => {
  test('is one of those printed, and none is left out', () => {
    expect(SPN_TABLE.map(({ spn }) => spn).sort()).toEqual(TABLE.map(([spn]) => spn).sort());
  });

  test.each(TABLE)('SPN %i lies in PGN %i at byte %i', (...row) => {
    const [spn, pgn, startByte, bits, scale, offset, unit] = row;
    const entry = { spn, pgn, startByte, startBit: 1, bits, scale, offset, unit };
    expect(SPN_TABLE.find((each) => each.spn === spn)).toMatchObject(entry);
  });

  test.each(TABLE)(
    'SPN %i of PGN %i begins at byte %i: whole in a message of just its length, absent from a shorter one',
    (...row) => {
      const [spn, pgn, startByte, bits] = row;
      const length = startByte - 1 + Math.ceil(bits / 8);
      const id = (0x18000000 + pgn * 256).toString(16).toUpperCase();
      const spnsIn = (bytes: number) =>
        [...decodeFrames(framesOf(`(1) can0 ${id}#${'00'.repeat(bytes)}`)).parameter].map(
          (each) => SPN_TABLE[each]!.spn,
        );
      expect(spnsIn(length)).toContain(spn);
      expect(spnsIn(length - 1)).not.toContain(spn);
      expect(spnsIn(8)).toEqual(SPN_TABLE.filter((each) => each.pgn === pgn).map((each) => each.spn));
    },
  );
});
