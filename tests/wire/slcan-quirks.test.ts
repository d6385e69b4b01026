import { describe, expect, test } from 'vitest';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii, decodePieces, decodeText, malformedOf, short } from './decode-all.ts';

// One test a row of "Quirks seen in the field", can-text-formats.md, Part 1, by its name there. What only the handshake
// meets (no ACK, `L`, one command a write) is in slcan-setup.test.ts; what only times meet is in slcan-clock.test.ts.
const decode = (text: string) => decodeText(slcanDecoder, text);
const FRAME = 'T18FEF7008FFFFFFFFF200FFFF\r';
const READ = '18fef700#fffffffff200ffff';

interface Seen {
  readonly frames: readonly string[];
  readonly notes?: readonly string[];
  readonly malformed?: Readonly<Record<string, number>>;
}
const seenIn = (text: string): Required<Seen> => {
  const decoded = decode(text);
  const notes = decoded.notes.map((note) => (note.kind === 'reply' ? note.text : note.kind));
  return { frames: decoded.frames.map(short), notes, malformed: malformedOf(decoded) };
};

describe('quirks seen in the field', () => {
  test.each<readonly [string, string, Seen]>([
    ['several lines in one read', FRAME + FRAME + 't1230\r', { frames: [READ, READ, '123#'] }],
    ['ACK after transmit is z', `\rz\r${FRAME}`, { frames: [READ], notes: ['ack', 'ack'] }],
    ['ACK after transmit is Z', `\rZ\r${FRAME}`, { frames: [READ], notes: ['ack', 'ack'] }],
    ['ACK after transmit is a bare CR', `\r\r${FRAME}`, { frames: [READ], notes: ['ack', 'ack'] }],
    ['zt is an own frame echoed', 'zt1231AA\r', { frames: ['123#aa'] }],
    ['ZT is an own frame echoed', `Z${FRAME}`, { frames: [READ] }],
    ['zr is an own remote frame echoed', 'zr1234\r', { frames: ['123#R4'] }],
    [
      'junk before the first CR: boot text',
      `Booting...\r${FRAME}`,
      { frames: [READ], malformed: { badHex: 1 } },
    ],
    [
      'junk before the first CR: the end of a frame',
      `200FFFF\r${FRAME}`,
      { frames: [READ], malformed: { unknownLine: 1 } },
    ],
    [
      'junk before the first CR: an end that looks like a status line',
      `e1a\r${FRAME}`,
      { frames: [READ], malformed: { unknownLine: 1 } },
    ],
    [
      'junk before the first CR: an end that looks like flags',
      `F08\r${FRAME}`,
      { frames: [READ], malformed: { unknownLine: 1 } },
    ],
    ['junk before the first CR: a whole frame is none', FRAME, { frames: [READ] }],
    [
      'a line lost in the middle: the issue thread',
      '\rt0814F26F002t20082710271027100000\r',
      { frames: ['200#2710271027100000'], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    [
      'a line lost in the middle: 29-bit after 11-bit',
      `\rt1232AA${FRAME}`,
      { frames: [READ], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    [
      'a line lost in the middle: a remote frame at the end',
      '\rT18FEF7008FFFFr1234\r',
      { frames: ['123#R4'], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    [
      'a line lost in the middle: no whole frame at the end',
      '\rt1232AAt1232BB1\r',
      { frames: [], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    [
      'a line lost in the middle: three glued, the last is kept',
      '\rt1232AAt1242BBt1251CC\r',
      { frames: ['125#cc'], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    ['a BEL ends a line too', 't1230\x07t1240\r', { frames: ['123#', '124#'], notes: ['refused'] }],
    [
      'a refusal and an acknowledgement at once',
      '\r\x07\r',
      { frames: [], notes: ['ack', 'refused', 'ack'] },
    ],
    ['line end CR LF', 't1230\r\nt1240\r\n', { frames: ['123#', '124#'] }],
    ['line end CR LF: a bare one is one acknowledgement', '\r\n', { frames: [], notes: ['ack'] }],
    ['line end LF only', 't1230\nt1240\n', { frames: ['123#', '124#'] }],
    ['line end LF only: an empty line is no acknowledgement', '\n\nt1230\n', { frames: ['123#'] }],
    ['white space at line start', '\r t1230\r\tt1240\r', { frames: ['123#', '124#'], notes: ['ack'] }],
    ['a line of white space only', '\r  \rt1230\r', { frames: ['123#'], notes: ['ack'] }],
    ['lower-case hex, 11-bit', 't7ff2abcd\r', { frames: ['7ff#abcd'] }],
    ['lower-case hex, 29-bit', 'T18fef7002abcd\r', { frames: ['18fef700#abcd'] }],
    ['mixed case hex', 'T18fEF7002aBCd\r', { frames: ['18fef700#abcd'] }],
    ['t and T differ', 't1230\rT000001230\r', { frames: ['123#', '00000123#'] }],
    ['r and R differ', 'r1232\rR000001232\r', { frames: ['123#R2', '00000123#R2'] }],
    ['b and B differ', 'b1231AA\rB000001231AA\r', { frames: ['123#aa', '00000123#aa'] }],
    ['d and D differ', 'd1231AA\rD000001231AA\r', { frames: ['123#aa', '00000123#aa'] }],
    ['b and d are hex digits inside a line', 't0bd1db\r', { frames: ['0bd#db'] }],
    ['V with letters', '\rVA0F9\r', { frames: [], notes: ['ack', 'VA0F9'] }],
    ['V with free text', '\rV2.0 open firmware\r', { frames: [], notes: ['ack', 'V2.0 open firmware'] }],
    ['v with free text', '\rvSTM32 b158aa7\r', { frames: [], notes: ['ack', 'vSTM32 b158aa7'] }],
    ['N with letters', '\rNA1b2\r', { frames: [], notes: ['ack', 'NA1b2'] }],
    ['29-bit frames with length 0', 'T18FEF7000\r', { frames: ['18fef700#'] }],
    ['a small 29-bit id keeps its width', 'T000000010\r', { frames: ['00000001#'] }],
    ['x in place of T', 'x18FEF7002AABB\r', { frames: ['18fef700#aabb'] }],
    [
      'x in place of T, where the rest does not fit',
      '\rx18FEF7002AAB\r',
      { frames: [], notes: ['ack'], malformed: { wrongLength: 1 } },
    ],
    [
      'x inside a line begins no frame',
      '\rhx18FEF7000\r',
      { frames: [], notes: ['ack'], malformed: { unknownLine: 1 } },
    ],
    ['two channels marked by & and $', '&t1230\r$T18FEF7000\r', { frames: ['123#', '18fef700#'] }],
    ['a channel mark and nothing', '\r&\r', { frames: [], notes: ['ack'], malformed: { unknownLine: 1 } }],
    ['a channel mark before an echo', '&zt1230\r', { frames: ['123#'] }],
    [
      'unknown first letters are no frames',
      '\rQ1\rh\r?\r',
      { frames: [], notes: ['ack'], malformed: { unknownLine: 3 } },
    ],
  ])('%s', (_what, text, seen) => {
    expect(seenIn(text)).toEqual({ notes: [], malformed: {}, ...seen });
  });

  test('a read ends in the middle of a line, at every place', () => {
    const bytes = ascii(`${FRAME}\rV1013\r${FRAME}`);
    for (let at = 0; at <= bytes.length; at++) {
      const decoded = decodePieces(slcanDecoder, [
        [1000, bytes.subarray(0, at)],
        [1001, bytes.subarray(at)],
      ]);
      expect(decoded.frames.map(short)).toEqual([READ, READ]);
      expect(decoded.notes).toEqual([{ kind: 'ack' }, { kind: 'reply', text: 'V1013' }]);
    }
  });

  test('a read for every byte', () => {
    const pieces = [...ascii(FRAME + FRAME)].map((byte, i) => [1000 + i, Uint8Array.of(byte)] as const);
    const { frames, counts } = decodePieces(slcanDecoder, pieces);
    expect(frames.map(({ atMs }) => atMs)).toEqual([1026, 1053]); // 26 characters and their CR: counted by hand
    expect(counts).toMatchObject({ bytes: 54, lines: 2, frames: 2 });
  });

  test('the adapter drops bytes without telling: any one lost byte costs its line at most', () => {
    const lines = ['T18FEF7008FFFFFFFFF200FFFF\r', 't1232AABB\r', 'T0CF004008FFFFFF6813FFFFFF\r'];
    const text = ['t1000\r', ...lines, 't1010\r'].join('');
    for (let at = 6; at < text.length - 6; at++) {
      const { frames } = decode(text.slice(0, at) + text.slice(at + 1));
      const read = frames.map(short);
      expect(read[0]).toBe('100#');
      expect(frames.length).toBeGreaterThanOrEqual(text[at] === '\r' ? 3 : 4);
      expect(read.at(-1)).toBe('101#');
    }
  });
});

describe('lengths', () => {
  // Grammar: 9=12 A=16 B=20 C=24 D=32 E=48 F=64 bytes; can-text-formats.md, "Received frames".
  test.each([
    ['8', 8, null],
    ['9', 12, 'notKept'],
    ['A', 16, 'notKept'],
    ['b', 20, 'notKept'],
    ['C', 24, 'notKept'],
    ['d', 32, 'notKept'],
    ['E', 48, 'notKept'],
    ['F', 64, 'notKept'],
  ])('CAN FD length digit %s is %d bytes', (digit, size, reason) => {
    const line = (bytes: number) => `\rD18FEF700${digit}${'11'.repeat(bytes)}\r`;
    expect(malformedOf(decode(line(size)))).toEqual(reason === null ? {} : { [reason]: 1 });
    expect(malformedOf(decode(line(size - 1)))).toEqual({ wrongLength: 1 });
    expect(malformedOf(decode(line(size + 1)))).toEqual({ wrongLength: 1 });
  });

  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8])('a classic frame of %d bytes', (size) => {
    const data = 'a5'.repeat(size);
    expect(decode(`t123${size}${data}\r`).frames.map(short)).toEqual([`123#${data}`]);
    expect(decode(`T18FEF700${size}${data}EA5F\r`).frames.map(short)).toEqual([`18fef700#${data}`]);
    expect(malformedOf(decode(`\rt123${size}${data}a\r`))).toEqual({ wrongLength: 1 });
  });

  test.each([
    ['no stamp', '', true],
    ['ms', '1F40', true],
    ['us', '000F4240', true],
    ['ms and error state 0', '1F400', true],
    ['ms and error state 1', '1F401', true],
    ['us and error state 1', '000F42401', true],
    ['ms and another digit', '1F402', false],
    ['us and another digit', '000F4240F', false],
    ['error state alone on a classic frame', '1', false],
    ['two digits', '1F', false],
    ['three digits', '1F4', false],
    ['six digits', '1F4000', false],
    ['seven digits', '1F40000', false],
    ['ten digits', '1F40000000', false],
    ['no hex', '1G40', false],
    ['beyond its period: no stamp, but a frame', 'EA60', true],
    ['us beyond its period', 'D693A400', true],
  ])('what is left after the data: %s', (_what, rest, taken) => {
    expect(decode(`\rt1231AA${rest}\r`).frames).toHaveLength(taken ? 1 : 0);
  });

  test('error state alone is taken after a CAN FD frame', () => {
    expect(decode('d1231AA1\r').frames.map(short)).toEqual(['123#aa']);
    expect(malformedOf(decode('\rd1231AA2\r'))).toEqual({ wrongLength: 1 });
  });

  test.each([
    ['t7FF0', ['7ff#']],
    ['t8000', []],
    ['T1FFFFFFF0', ['1fffffff#']],
    ['T200000000', []],
    ['TFFFFFFFF0', []],
  ])('the largest id: %s', (line, wanted) => {
    expect(decode(`\r${line}\r`).frames.map(short)).toEqual(wanted);
  });

  test.each([
    ['EA5F', 'source'],
    ['EA60', 'arrival'],
    ['D693A3FF', 'source'],
    ['D693A400', 'arrival'],
  ])('the last stamp of a period counts, the next is none: %s', (stamp, clock) => {
    expect(decode(`t1230${stamp}\r`).clock).toBe(clock);
  });

  test('a row holds nothing of a spoilt line before it', () => {
    const { batches } = decode('\rt1238AAAAAAAAAAAAAAGG\rt1231BB\r');
    expect([...batches[0]!.data]).toEqual([0xbb, 0, 0, 0, 0, 0, 0, 0]);
  });
});
