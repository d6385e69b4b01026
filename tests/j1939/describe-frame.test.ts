import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeFrame } from '../../src/j1939/describe-frame.ts';
import { groupName } from '../../src/j1939/group-names.ts';
import { SPN_TABLE } from '../../src/j1939/spn-table.ts';
import { bytes } from './fixtures/hex.ts';
import { batchOf, type Sent } from './fixtures/transport-frames.ts';

const shown = (id: number, hex: string, more: Partial<Sent> = {}) =>
  describeFrame(batchOf([{ atMs: 12, id, data: [...bytes(hex)], ...more }]), 0);
const lines = (id: number, hex: string) =>
  shown(id, hex).decoded.map(({ label, text }) => `${label}: ${text}`);

describe('a frame as the raw monitor shows it', () => {
  test('of engine speed has all its fields', () => {
    expect(shown(0x0cf00400, 'FFFF7D6813FFFFFF', { channel: 1 })).toEqual({
      atMs: 12,
      channel: 1,
      kind: 'data',
      idHex: '0CF00400',
      pgn: 61444,
      pgnName: 'engine controller 1',
      priority: 3,
      sourceAddress: 0,
      sourceName: 'engine 1',
      destination: 255,
      dataHex: 'FF FF 7D 68 13 FF FF FF',
      decoded: [
        { spn: 190, label: 'engine speed', text: '621.000 rpm' }, // 1368 hex = 4968; times 0.125
        { spn: 513, label: 'actual engine torque', text: '0 %' }, // 7D hex = 125; minus 125
        { spn: 1675, label: 'engine starter mode', text: 'not available' },
      ],
    });
  });

  test('shows each value to the worth of a bit, and says error where the sensor does', () => {
    // Rail pressure 2A66 hex / 256 = 42.3984 MPa; the rest not available.
    expect(lines(0x18fedb00, 'FFFF662AFFFF00FE')).toEqual([
      'injector metering rail 1 pressure: 42.3984 MPa',
      'injector metering rail 2 pressure: error',
      'injection control pressure: not available',
    ]);
    expect(lines(0x18fef700, 'FFFFFFFFF200FFFF')[0]).toBe('battery potential / power input 1: 12.10 V');
  });

  test('that is too short shows the parameters that are whole', () => {
    expect(lines(0x0cf00400, 'FFFF7D68')).toEqual(['actual engine torque: 0 %']);
  });

  test('with 11 bits is no J1939: three digits, the bytes, nothing else', () => {
    expect(shown(0x7df, '0201', { flags: 0 })).toMatchObject({
      idHex: '7DF',
      dataHex: '02 01',
      pgn: null,
      pgnName: null,
      priority: null,
      sourceAddress: null,
      sourceName: null,
      destination: null,
      decoded: [],
    });
  });

  test('with the extended data page is no J1939 either', () => {
    expect(shown(0x1bf00400, '00')).toMatchObject({ idHex: '1BF00400', pgn: null, decoded: [] });
  });

  test('that is remote has no bytes; an error frame has no meaning', () => {
    expect(shown(0x0cf00400, 'FFFF7D6813FFFFFF', { flags: 3 })).toMatchObject({
      kind: 'remote',
      dataHex: '',
      pgn: 61444,
      decoded: [],
    });
    expect(shown(0x0cf00400, 'FFFF7D6813FFFFFF', { flags: 5 })).toMatchObject({
      kind: 'error',
      pgn: null,
      decoded: [],
    });
  });

  test('of a group or address without a name has none', () => {
    expect(shown(0x18f12380, '00')).toMatchObject({ pgn: 0xf123, pgnName: null, sourceName: null });
    expect([groupName(0xfeff), groupName(0xff00), groupName(0xffff), groupName(0x10000)]).toEqual([
      'operator indicators',
      'proprietary',
      'proprietary',
      null,
    ]);
  });
});

describe('a frame of the protocol itself', () => {
  test.each([
    [0x18eafff9, 'ECFE00', ['asks for: 65260, vehicle identification']],
    [0x18eafff9, '534400', ['asks for: 17491']],
    [0x18eafff9, 'EC', []],
    [
      0x1cecff00,
      '20BE001CFFCAFE00',
      ['announces to all (BAM): 65226, trouble codes, active (DM1): 190 bytes in 28 packets'],
    ],
    [
      0x1cecf900,
      '10120003FFECFE00',
      ['asks to send (RTS): 65260, vehicle identification: 18 bytes in 3 packets'],
    ],
    [0x1cec00f9, '110301FFFFECFE00', ['asks for packets (CTS): 65260, vehicle identification: 3 from 1 on']],
    [0x1cec00f9, '1100FFFFFFECFE00', ['asks to wait (CTS): 65260, vehicle identification']],
    [0x1cec00f9, '13120003FFECFE00', ['has all (end acknowledgement): 65260, vehicle identification']],
    [0x1cecf900, 'FF03FFFFFFECFE00', ['aborts: 65260, vehicle identification: waited too long']],
    [0x1cecf900, '2012', ['announces to all (BAM): too short']],
    [0x1cecf900, '15FFFFFFFFECFE00', []],
    [0x1cebff00, '0141424344454647', ['packet: 1']],
    [0x1cebff00, '', []],
    [0x18e8ff00, '01FFFFFFF9ECFE00', ['refused to off-board tool 1: 65260, vehicle identification']],
    [0x18e8ff00, '01FFFFFFFFECFE00', ['refused: 65260, vehicle identification']],
    [0x18e8ff00, '00FFFFFF80ECFE00', ['acknowledged to 128: 65260, vehicle identification']],
    [0x18e8ff00, '09FFFFFF80ECFE00', []],
    [
      0x18eeff00,
      '0100000000000010',
      ['claims its address: industry group on-highway, function 0, identity number 1'],
    ],
    [0x18eeff00, '0100000000000070', ['claims its address: industry group 7, function 0, identity number 1']],
    [0x18eeff00, '01', []],
  ])('%i with %s is said in words', (id, hex, expected) => expect(lines(id, hex)).toEqual(expected));

  test('with trouble codes shows lamps and codes, each with its number', () => {
    expect(shown(0x18feca00, '04FF9D001205FFFF').decoded).toEqual([
      { spn: null, label: 'lamps', text: 'amber warning lamp on' },
      { spn: 157, label: 'fuel rail pressure', text: 'FMI 18: below normal (moderately severe)' },
    ]);
    expect(lines(0x18fecb00, '00FF00000000FFFF')).toEqual(['lamps: none lit', 'trouble codes: none']);
    expect(lines(0x18feca00, '04')).toEqual([]);
  });
});

test('every parameter that is read belongs to a group with a name', () => {
  for (const { pgn } of SPN_TABLE) expect(groupName(pgn)).not.toBeNull();
});

test('any frame is described without a throw, in plain text', () => {
  const frame: fc.Arbitrary<Sent> = fc.record({
    atMs: fc.constant(0),
    id: fc.oneof(
      fc.nat(0xffffffff),
      fc
        .constantFrom(59904, 60416, 60160, 59392, 60928, 65226, 65227, 61444, 65243, 65279)
        .map((pgn) => 0x18000000 + pgn * 256),
    ),
    data: fc.array(fc.nat(255), { maxLength: 8 }),
    flags: fc.nat(15),
    channel: fc.nat(255),
  });
  fc.assert(
    fc.property(fc.array(frame, { minLength: 1, maxLength: 20 }), (frames) => {
      const batch = batchOf(frames);
      frames.forEach(({ data }, row) => {
        const { dataHex, decoded, kind } = describeFrame(batch, row);
        expect(dataHex).toHaveLength(kind === 'remote' ? 0 : Math.max(0, 3 * data.length - 1));
        for (const { label, text } of decoded)
          expect(label + text).toMatch(/^[\x20-\x7e\u2212\u202f\u2013]+$/);
      });
    }),
  );
});
