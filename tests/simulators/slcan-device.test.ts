import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CLOSED_DEVICE,
  hearHost,
  noticeFrame,
  passesOn,
  type SlcanDevice,
} from '../../simulators/bridge/slcan-device.ts';

const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** Sends whole commands one after the other; gives the replies and the device after them. */
function talk(commands: string, from: SlcanDevice = CLOSED_DEVICE): { device: SlcanDevice; reply: string } {
  return hearHost(from, bytesOf(commands));
}
const opened = talk('S5\rO\r').device;
const listening = talk('S5\rL\r').device;

describe('the device side of SLCAN (can-text-formats.md, Part 1)', () => {
  test('a usual session: flush, close, version, bit rate, stamps, listen, close', () => {
    expect(talk('\r\r\rC\rV\rS5\rZ1\rL\rC\r').reply).toBe('\r\r\r\x07V1013\r\r\r\r\r');
  });

  test('version is V and four digits, serial number N and four letters or digits, open or closed', () => {
    for (const device of [CLOSED_DEVICE, opened, listening]) {
      expect(talk('V\r', device).reply).toMatch(/^V\d{4}\r$/);
      expect(talk('N\r', device).reply).toMatch(/^N[0-9A-Za-z]{4}\r$/);
    }
  });

  test.each(['S5', 's011C', 'Z1', 'Z0', 'M00000000', 'mFFFFFFFF'])(
    '%s is done while closed and refused while open',
    (command) => {
      expect(talk(`${command}\r`).reply).toBe('\r');
      expect(talk(`${command}\r`, opened)).toEqual({ device: opened, reply: '\x07' });
      expect(talk(`${command}\r`, listening).reply).toBe('\x07');
    },
  );

  test.each(['C', 'F', 't1230', 'T18EAFFF93ECFE00'])('%s is refused while closed', (command) => {
    expect(talk(`${command}\r`)).toEqual({ device: CLOSED_DEVICE, reply: '\x07' });
  });

  test.each(['O', 'L'])('%s is refused before a bit rate is set, and while open', (command) => {
    expect(talk(`${command}\r`).reply).toBe('\x07');
    expect(talk(`${command}\r`, opened)).toEqual({ device: opened, reply: '\x07' });
  });

  test.each([
    'S9',
    'S',
    'S55',
    's01',
    'sGGGG',
    'Z2',
    'Z',
    'M1',
    'm123456789',
    'v',
    'o',
    'c',
    'X1',
    '?',
    'VV',
    'O1',
  ])('%s is refused: commands are exact and case matters', (command) => {
    expect(talk(`${command}\r`)).toEqual({ device: CLOSED_DEVICE, reply: '\x07' });
  });

  test.each([
    ['t12321122', 'z\r'],
    ['T18EAFFF93ECFE00', 'Z\r'],
    ['r1238', 'z\r'],
    ['R18EAFFF93', 'Z\r'],
    ['t1239', '\x07'], // no length 9
    ['t123211', '\x07'], // a byte short
    ['t8001AA', '\x07'], // more than 11 bits
    ['T20000000' + '0', '\x07'], // more than 29 bits
    ['r123211', '\x07'], // remote frames carry no data
  ])('open: %s is answered %j', (command, reply) => {
    expect(talk(`${command}\r`, opened).reply).toBe(reply);
  });

  test('listen only sends nothing', () => {
    expect(talk('T18EAFFF93ECFE00\r', listening).reply).toBe('\x07');
  });

  test('settings outlive closing', () => {
    const again = talk('S5\rZ1\rL\rC\r').device;
    expect(again).toMatchObject({ channel: 'closed', stamps: true });
    expect(talk('L\r', again).reply).toBe('\r');
  });

  test('a command cut across writes is obeyed when its CR comes', () => {
    const half = talk('S');
    expect(half.reply).toBe('');
    expect(talk('5\r', half.device).reply).toBe('\r');
  });

  test('a line feed is not part of a command', () => {
    expect(talk('S5\r\nL\r\n').reply).toBe('\r\r');
  });

  test('an endless command is refused once, at its CR, and the next one is heard', () => {
    expect(talk('A'.repeat(5000) + '\rV\r').reply).toBe('\x07V1013\r');
  });

  test('any bytes, however cut, get the same replies, one for each CR at least', () => {
    const anything = fc.uint8Array({ maxLength: 60 });
    const commands = fc
      .constantFrom('S5\r', 'L\r', 'O\r', 'C\r', 'V\r', 'F\r', 't1230\r', 'Z1\r')
      .map(bytesOf);
    fc.assert(
      fc.property(fc.array(fc.oneof(anything, commands), { maxLength: 20 }), (chunks) => {
        let device = CLOSED_DEVICE;
        let reply = '';
        for (const chunk of chunks) {
          const answer = hearHost(device, chunk);
          device = answer.device;
          reply += answer.reply;
        }
        const whole = Uint8Array.from(chunks.flatMap((chunk) => [...chunk]));
        expect(hearHost(CLOSED_DEVICE, whole)).toEqual({ device, reply });
        const ends = whole.filter((byte) => byte === 13).length;
        expect([...reply].filter((letter) => letter === '\r' || letter === '\x07')).toHaveLength(ends);
      }),
    );
  });
});

describe('what passes from the bus to the host', () => {
  test('nothing while closed, everything while open at 250 kbit/s', () => {
    expect(passesOn(talk('S5\r').device, 0x0cf00400)).toBe(false);
    for (const device of [opened, listening, talk('s011c\rL\r').device]) {
      expect(passesOn(device, 0x0cf00400)).toBe(true);
    }
  });

  test('nothing at another bit rate, and the status then tells of bus errors, once', () => {
    const wrong = talk('S6\rL\r').device;
    expect(passesOn(wrong, 0x0cf00400)).toBe(false);
    const noticed = noticeFrame(wrong);
    const first = talk('F\r', noticed);
    expect(first.reply).toBe('F80\r'); // bit 7 bus error
    expect(talk('F\r', first.device).reply).toBe('F00\r');
    expect(noticeFrame(opened)).toBe(opened);
    expect(noticeFrame(CLOSED_DEVICE)).toBe(CLOSED_DEVICE);
  });

  test('acceptance: mask bits of 0 must agree with the code in identifier bits 28 to 13', () => {
    // 0CF00400 >> 13 = 6780 hex; both filters ask for exactly that
    const eec1 = talk('M67806780\rm00000000\rS5\rL\r').device;
    expect(passesOn(eec1, 0x0cf00400)).toBe(true);
    expect(passesOn(eec1, 0x18fef700)).toBe(false);
    const either = talk('M6780C7F7\rm00000000\rS5\rL\r').device; // 18FEF700 >> 13 = C7F7 hex
    expect(passesOn(either, 0x18fef700)).toBe(true);
    expect(passesOn(either, 0x0cf00400)).toBe(true);
    expect(passesOn(either, 0x18feee00 + 0x4000000)).toBe(false);
  });
});
