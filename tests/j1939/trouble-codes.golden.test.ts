import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTroubleCodes } from '../../src/j1939/read-trouble-codes.ts';
import type { LampState } from '../../src/j1939/trouble-codes.ts';
import { bytes } from './fixtures/hex.ts';

const read = (hex: string) => readTroubleCodes(bytes(hex), 7)!;
const OFF = { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' };

describe('the frames of j1939.md, "DM1 and DM2"', () => {
  test('04FFF700095DFFFF is amber on, SPN 247, FMI 9, 93 times', () => {
    expect(read('04FFF700095DFFFF')).toEqual({
      atMs: 7,
      lamps: { ...OFF, amberWarning: 'on' },
      codes: [{ spn: 247, fmi: 9, occurrences: 93, otherSpns: [] }],
    });
  });

  test('43FF BF000908 54000908 ED141F01 is SPN 191/9, 84/9, 5357/31', () => {
    const { codes } = read('43FF BF000908 54000908 ED141F01');
    expect(codes.map(({ spn, fmi, occurrences }) => [spn, fmi, occurrences])).toEqual([
      [191, 9, 8],
      [84, 9, 8],
      [5357, 31, 1],
    ]);
  });

  test.each(['00FF00000000FFFF', '00FFFFFFFFFFFFFF', '00FF', '00FF0000007FFFFF', '00FF00000080FFFF'])(
    '%s holds no code',
    (hex) => expect(read(hex)).toEqual({ atMs: 7, lamps: OFF, codes: [] }),
  );
});

describe('the packings of SPN 1208, FMI 3, count 10 (j1939.md, table of versions 1 to 4)', () => {
  test.each([
    ['version 1', '0097038A', 1208],
    ['version 2', '9700038A', 1208],
    ['version 3', 'B804038A', 1208],
    ['version 4', 'B804030A', 1208],
  ])('%s: 1208 is among the readings', (_, code, spn) => {
    const [found] = read(`04FF${code}FFFF`).codes;
    expect([found!.spn, ...found!.otherSpns]).toContain(spn);
    expect([found!.fmi, found!.occurrences]).toEqual([3, 10]);
  });

  test('conversion bit 0 leaves no doubt', () => {
    expect(read('04FFB804030AFFFF').codes[0]).toEqual({ spn: 1208, fmi: 3, occurrences: 10, otherSpns: [] });
  });

  test('conversion bit 1 shows the other readings, worked out by hand', () => {
    // B8 04 03: version 1 = B8 * 2048 + 04 * 8 + 0 = 376832 + 32; version 2 = 04 * 2048 + B8 * 8 + 0 = 8192 + 1472.
    expect(read('04FFB804038AFFFF').codes[0]).toEqual({
      spn: 1208,
      fmi: 3,
      occurrences: 10,
      otherSpns: [376_864, 9664],
      olderPacking: true,
    });
  });

  test('readings that are one and the same are named once, and the packing is still said to be old', () => {
    // A = B: versions 1 and 2 agree, 01 * 2048 + 01 * 8 = 2056; version 3 is 01 + 01 * 256 = 257.
    expect(read('04FF01010181FFFF').codes[0]).toMatchObject({
      spn: 257,
      otherSpns: [2056],
      olderPacking: true,
    });
  });

  test('the three high bits of the number stand in byte C in all of them', () => {
    // FFFFF F: version 4 of A FF, B FF, C E0 + 1: 7FFFF hex = 524287, the highest SPN.
    expect(read('04FFFFFFE101FFFF').codes[0]).toMatchObject({ spn: 524_287, fmi: 1, occurrences: 1 });
    expect(read('04FF0000E081FFFF').codes[0]).toMatchObject({ spn: 7 * 65_536, otherSpns: [7] });
  });
});

describe('a code', () => {
  test('with count 127 has no count; with 126 it has, and with 0 it has', () => {
    const counts = ['7F', '7E', '00'].map((count) => read(`04FF9D0001${count}FFFF`).codes[0]!.occurrences);
    expect(counts).toEqual([null, 126, 0]);
  });

  test('of SPN 0 is one where it has a failure mode', () => {
    expect(read('04FF00000501FFFF').codes).toMatchObject([{ spn: 0, fmi: 5 }]);
  });

  test('stands behind empty places too', () => {
    expect(read('04FF FFFFFFFF 00000000 9D000101').codes).toMatchObject([{ spn: 157, fmi: 1 }]);
  });
});

describe('a message of odd length', () => {
  test.each([
    ['04FF9D000101', 1, undefined],
    ['04FF9D000101FF', 1, undefined],
    ['04FF9D000101FFFF', 1, undefined],
    ['04FF9D000101FFFFFF', 1, undefined],
    ['04FF9D000101000000', 1, undefined],
    ['04FF9D0001015E00', 1, 1],
    ['04FF9D0001015E0001', 1, 2],
    ['04FF9D0001', 0, 2],
  ])('%s has %i codes, and says how many bytes are neither code nor padding', (hex, count, leftOver) => {
    const report = read(hex);
    expect([report.codes.length, report.leftOver]).toEqual([count, leftOver]);
  });

  test.each(['', '04'])('"%s" is none: there are no lamp bytes', (hex) => {
    expect(readTroubleCodes(bytes(hex), 0)).toBeNull();
  });
});

describe('lamps (byte 1: malfunction, red stop, amber warning, protect from the top; byte 2: how they flash)', () => {
  test.each([
    ['40FF', 'malfunction'],
    ['10FF', 'redStop'],
    ['04FF', 'amberWarning'],
    ['01FF', 'protect'],
  ] as const)('%s lights %s alone', (hex, lamp) => {
    expect(read(hex).lamps).toEqual({ ...OFF, [lamp]: 'on' });
  });

  const STATES: readonly [state: number, flash: number, shown: LampState][] = [
    [0, 0, 'off'],
    [0, 1, 'off'],
    [0, 3, 'off'],
    [1, 0, 'slow flash'],
    [1, 1, 'fast flash'],
    [1, 2, 'on'],
    [1, 3, 'on'],
    [2, 3, 'notAvailable'],
    [3, 3, 'notAvailable'],
    [3, 0, 'notAvailable'],
  ];
  test.each(STATES)('state %i with flash %i is %s, in each of the four places', (state, flash, shown) => {
    for (const [place, lamp] of (['protect', 'amberWarning', 'redStop', 'malfunction'] as const).entries()) {
      const report = readTroubleCodes(Uint8Array.of(state << (2 * place), flash << (2 * place)), 0)!;
      expect(report.lamps[lamp]).toBe(shown);
    }
  });
});

test('any bytes give a report or null, with numbers in their ranges', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 60 }), (data) => {
      const report = readTroubleCodes(data, 0);
      expect(report === null).toBe(data.length < 2);
      if (report === null) return;
      expect(report.codes.length).toBeLessThanOrEqual((data.length - 2) / 4);
      for (const { spn, fmi, occurrences, otherSpns } of report.codes) {
        for (const each of [spn, ...otherSpns]) expect(each).toBeLessThan(2 ** 19);
        expect(fmi).toBeLessThan(32);
        expect(occurrences ?? 0).toBeLessThan(127);
        expect(otherSpns).not.toContain(spn);
      }
    }),
  );
});

test('a number written in any of the four packings is among the readings', () => {
  // The packings as in the table of j1939.md, written the other way round.
  const pack = (spn: number, version: number): number[] => {
    const low = spn & 7;
    if (version === 1) return [spn >> 11, (spn >> 3) & 0xff, low << 5];
    if (version === 2) return [(spn >> 3) & 0xff, spn >> 11, low << 5];
    return [spn & 0xff, (spn >> 8) & 0xff, (spn >> 16) << 5];
  };
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 524_287 }),
      fc.integer({ min: 1, max: 30 }),
      fc.constantFrom(1, 2, 3, 4),
      (...code) => {
        const [spn, fmi, version] = code;
        const [a, b, c] = pack(spn, version);
        const data = Uint8Array.of(4, 255, a!, b!, c! | fmi, version === 4 ? 5 : 0x85);
        const [found] = readTroubleCodes(data, 0)!.codes;
        expect([found!.spn, ...found!.otherSpns]).toContain(spn);
        if (version >= 3) expect(found!.spn).toBe(spn);
        expect([found!.fmi, found!.occurrences]).toEqual([fmi, 5]);
      },
    ),
  );
});
