import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { UNREADABLE } from '../../src/j1939/bus-text.ts';
import {
  identify,
  readComponent,
  readEcu,
  readSoftware,
  readVin,
  UNIDENTIFIED,
} from '../../src/j1939/read-identification.ts';
import { latin1 } from './fixtures/hex.ts';

const VIN = 'ZZZTRKAA2RT000001';

describe('the vehicle identification number', () => {
  // j1939.md, "Identification texts": ended by *, strip *, NUL, FF, spaces.
  test.each([
    ['ended by its star', `${VIN}*`],
    ['without a star', VIN],
    ['padded with FF behind the star', `${VIN}*\xff\xff\xff`],
    ['padded with NUL before the star', `${VIN}\0\0*`],
    ['padded with spaces around', `  ${VIN} *`],
    ['behind NUL', `\0${VIN}*`],
    ['behind an empty text', `*${VIN}*`],
    ['before another text', `${VIN}*SOMETHING*`],
  ])('%s is read', (_, text) => expect(readVin(latin1(text))).toBe(VIN));

  test.each(['', '*', '**', '\xff\xff\xff\xff\xff\xff\xff\xff', '\0\0*', '   *'])('"%s" is none', (text) => {
    expect(readVin(latin1(text))).toBeNull();
  });

  test('keeps what is no VIN by our rules: it is what the controller says', () => {
    expect(readVin(latin1('1234*'))).toBe('1234');
  });

  test('of 200 characters is read', () => expect(readVin(latin1(`${'A'.repeat(200)}*`))).toHaveLength(200));
});

describe('bytes that are no printable ASCII', () => {
  test.each(['\x01', '\x1b', '\x7f', '\x80', '\xe9', '\0', '\xff'])(
    '%j within a text are replaced, visibly',
    (byte) => {
      expect(readVin(latin1(`AB${byte}CD*`))).toBe(`AB${UNREADABLE}CD`);
    },
  );

  test('angle brackets and the like are characters, not markup: they are kept as they are', () => {
    expect(readVin(latin1('<img src=x onerror=1>*'))).toBe('<img src=x onerror=1>');
    expect(readComponent(latin1('A&B*"C"*<b>*\'*'))).toMatchObject({
      make: 'A&B',
      model: '"C"',
      serialNumber: '<b>',
    });
  });

  test('any bytes give text of printable ASCII and marks only, or none', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), (data) => {
        const parts = [
          readVin(data),
          ...Object.values(readComponent(data) ?? {}).flat(),
          ...(readSoftware(data) ?? []),
          ...Object.values(readEcu(data) ?? {}).flat(),
        ];
        for (const part of parts) {
          if (part === null) continue;
          expect(part).toMatch(/^[\x20-\x7e\ufffd]+$/);
          expect(part).toBe(part.trim());
          expect(part).not.toContain('*');
        }
      }),
    );
  });
});

describe('component identification', () => {
  const none = { make: null, model: null, serialNumber: null, unitNumber: null, further: [] };

  // The shapes found in the recordings (README of ../shared/data/j1939, j1939.md), with invented texts.
  test.each([
    [
      'four fields',
      'MAKE*MD*SER0001*UNIT0*',
      { make: 'MAKE', model: 'MD', serialNumber: 'SER0001', unitNumber: 'UNIT0', further: [] },
    ],
    [
      'five fields',
      'MAKE*MD*SER0001*UNIT0*X0*',
      { make: 'MAKE', model: 'MD', serialNumber: 'SER0001', unitNumber: 'UNIT0', further: ['X0'] },
    ],
    [
      'two stars at the end, a padded field',
      'MAKE0*MDL0B00 *SER0B00001**',
      { ...none, make: 'MAKE0', model: 'MDL0B00', serialNumber: 'SER0B00001' },
    ],
    [
      'padding instead of the unit',
      'MAK*MDL*SER8F*\0\xff\xff\xff\xff',
      { ...none, make: 'MAK', model: 'MDL', serialNumber: 'SER8F' },
    ],
    [
      'a unit with NUL before its star',
      'MAKE*MD*SER*UNIT0\0*',
      { make: 'MAKE', model: 'MD', serialNumber: 'SER', unitNumber: 'UNIT0', further: [] },
    ],
    [
      'no final star',
      'MAKE*MD*SER0001*UNIT0',
      { make: 'MAKE', model: 'MD', serialNumber: 'SER0001', unitNumber: 'UNIT0', further: [] },
    ],
    ['empty fields before one', '**SER0001**', { ...none, serialNumber: 'SER0001' }],
    ['make alone', 'MAKE*', { ...none, make: 'MAKE' }],
    ['only a fifth', '****X*', { ...none, further: ['X'] }],
  ])('of %s', (_, text, expected) => expect(readComponent(latin1(text))).toEqual(expected));

  test.each(['', '****', '\0\0\0\0*\0*', '\xff'.repeat(10), '*****   *'])('%j is none', (text) => {
    expect(readComponent(latin1(text))).toBeNull();
  });
});

describe('software identification', () => {
  test('has a number of fields before its texts', () => {
    expect(readSoftware(latin1('\x02SW1*SW2\0\0*'))).toEqual(['SW1', 'SW2']);
  });

  test('is believed in its texts, not in its number', () => {
    expect(readSoftware(latin1('\x07SW1*SW2*'))).toEqual(['SW1', 'SW2']);
    expect(readSoftware(latin1('\xffSW1*'))).toEqual(['SW1']);
    expect(readSoftware(latin1('\0SW1*'))).toEqual(['SW1']);
  });

  test('without a number is read too, and with a missing last star', () => {
    expect(readSoftware(latin1('SW1*SW2'))).toEqual(['SW1', 'SW2']);
  });

  test('leaves out what is empty', () => {
    expect(readSoftware(latin1('\x03SW1**SW3*'))).toEqual(['SW1', 'SW3']);
    for (const text of ['', '\x01', '\x01*', '\x02\0*\xff*', '\xff\xff'])
      expect(readSoftware(latin1(text))).toBeNull();
  });
});

describe('ECU identification', () => {
  test('has five fields, and what later editions add', () => {
    expect(readEcu(latin1('P*S*L*T*M*H*D*'))).toEqual({
      partNumber: 'P',
      serialNumber: 'S',
      location: 'L',
      type: 'T',
      manufacturer: 'M',
      further: ['H', 'D'],
    });
  });

  test('may be short, or say nothing', () => {
    expect(readEcu(latin1('P**'))).toMatchObject({ partNumber: 'P', serialNumber: null, further: [] });
    expect(readEcu(latin1('*****'))).toBeNull();
  });
});

describe('what is known of a controller', () => {
  const vin = { pgn: 65260, data: latin1(`${VIN}*`) };

  test('grows by each of its messages', () => {
    const known = [
      vin,
      { pgn: 65259, data: latin1('MAKE*MD*SER*U*') },
      { pgn: 65242, data: latin1('\x01SW*') },
      { pgn: 64965, data: latin1('P*S*L*T*M*') },
    ].reduce(identify, UNIDENTIFIED);
    expect(known).toMatchObject({
      vin: VIN,
      component: { serialNumber: 'SER' },
      software: ['SW'],
      ecu: { manufacturer: 'M' },
    });
  });

  test('is not taken away by a message that says nothing', () => {
    const known = identify(UNIDENTIFIED, vin);
    for (const pgn of [65260, 65259, 65242, 64965])
      expect(identify(known, { pgn, data: latin1('\xff\xff\xff\xff\xff\xff\xff\xff') })).toEqual(known);
  });

  test('is replaced by what the controller says later', () => {
    expect(identify(identify(UNIDENTIFIED, vin), { ...vin, data: latin1('OTHER*') }).vin).toBe('OTHER');
  });

  test('is the same value where another group comes', () => {
    expect(identify(UNIDENTIFIED, { pgn: 65226, data: latin1('abc*') })).toBe(UNIDENTIFIED);
  });
});
