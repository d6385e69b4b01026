import { describe, expect, test } from 'vitest';
import {
  hasWords,
  isJunk,
  isPlainText,
  isText,
  NO_EVIDENCE,
  protocolOf,
  saysSlcan,
  takeBytes,
  takeDisturbance,
  versionOf,
} from '../../src/wire/search-evidence.ts';
import { isKnownVersion, listenWay } from '../../src/wire/search-slcan-kinds.ts';
import { BOOT_SPEEDS, planTrials, SERIAL_SPEEDS } from '../../src/wire/search-speeds.ts';
import { ascii } from './decode-all.ts';

const after = (...texts: readonly string[]) =>
  texts.reduce((evidence, text, at) => takeBytes(evidence, latin1(text), 10 * at).evidence, NO_EVIDENCE);
const latin1 = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const FRAME = 'T0CF004008F0FF7DBA04FFFFFF\r';

describe('what bytes say of SLCAN', () => {
  test.each<[string, string[], boolean]>([
    ['acknowledgements, a refusal and a version', ['\r\r\r', '\x07', 'V1013\r'], true],
    ['acknowledgements and refusals alone', ['\r\r\r', '\x07', '\x07'], true],
    ['one acknowledgement alone', ['\r'], false],
    ['a version alone', ['V1013\r'], true],
    ['a version cut in the middle', ['V10', '13\r'], true],
    ['a version without its end', ['V1013'], false],
    ['a version of free text', ['Version 2, open firmware\r'], true],
    ['a commit and a repository', ['b158aa7 https://example.org/firmware.git\r'], true],
    ['free text among acknowledgements', ['\r\r\r', '\r', 'firmware 2\r'], true],
    ['frames', [FRAME, FRAME], true],
    ['one frame', [FRAME], false],
    ['bus states', ['sa000000\r', 'sw096000\r'], true],
    ['what was sent to it sent back', ['\r\r\r', 'C\r', 'V\r'], false],
    ['lines of a board', ['\r\n', 'hello\r\n', 'there\r\n', 'again\r\n'], false],
    [
      'voltages that look like versions',
      ['Voltage 12.4\r\n', 'Voltage 12.4\r\n', 'Voltage 12.4\r\n', 'Voltage 12.4\r\n'],
      false,
    ],
    ['junk', ['\xe6\xe6\xe6', '\x00\x80'], false],
    ['nothing', [], false],
  ])('%s: %s', (_what, texts, says) => expect(saysSlcan(after(...texts))).toBe(says));

  test('the version is what looks like one, else the one line among acknowledgements', () => {
    expect(versionOf(after('\r\r\r', 'V1013\r'))).toBe('V1013');
    expect(versionOf(after('\r\r\r', '\r', 'firmware 2\r'))).toBe('firmware 2');
    expect(versionOf(after('\r\r\r', '\x07'))).toBeNull();
  });

  test('the first line may be the rest of one, and counts for nothing', () => {
    expect(after('lf a line\r\n').unknownLines).toBe(0);
    expect(after('lf a line\r\nwhole\r\n').unknownLines).toBe(1);
  });
});

describe('what bytes say of the serial speed', () => {
  test.each<[string, string[], { text: boolean; junk: boolean; words: boolean }]>([
    ['a line', ['hello there\r\n'], { text: true, junk: false, words: true }],
    ['a line after a stray byte', ['\xffhello there\r\n'], { text: true, junk: false, words: true }],
    ['blanks and line ends', [' \r \r \r'], { text: true, junk: false, words: false }],
    ['a few strange bytes', ['\xe6\x80'], { text: false, junk: false, words: false }],
    [
      'many strange bytes',
      ['\xe6\x80\x00\xfe\xe0\x8f\x00\xc3\x98'],
      { text: false, junk: true, words: false },
    ],
    [
      'strange bytes among letters',
      ['a\xe6b\x80c\x00d\xfee\xe0f\x8fg\x00h\xc3'],
      { text: false, junk: true, words: false },
    ],
    ['nothing', [], { text: false, junk: false, words: false }],
  ])('%s', (_what, texts, { text, junk, words }) => {
    const evidence = after(...texts);
    expect([isText(evidence), isJunk(evidence), hasWords(evidence)]).toEqual([text, junk, words]);
  });

  test('three disturbances that the port tells of are a wrong speed', () => {
    const twice = takeDisturbance(takeDisturbance(NO_EVIDENCE));
    expect([isJunk(twice), isJunk(takeDisturbance(twice))]).toEqual([false, true]);
  });

  test('three whole lines of another form are plain text', () => {
    expect(isPlainText(after('a\r\n', 'bb\r\n', 'cc\r\n', 'dd\r\n'))).toBe(true);
    expect(isPlainText(after('a\r\n', 'bb\r\n', 'cc\r\n'))).toBe(false);
  });

  test('line protocols are told by their whole lines', () => {
    const line = '(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n';
    expect(protocolOf(after(line.slice(0, 30)))).toBeNull();
    expect(protocolOf(after(line, line, '(158932'))).toBe('candump');
    expect(protocolOf(after(FRAME, FRAME))).toBe('slcan');
  });

  test('what is kept of a long stream does not grow', () => {
    let evidence = NO_EVIDENCE;
    for (let at = 0; at < 500; at++) evidence = takeBytes(evidence, ascii('x'.repeat(100)), at).evidence;
    expect(evidence.bytes).toBe(50_000);
    expect([evidence.head.length <= 4096, evidence.line.length <= 200]).toEqual([true, true]);
  });

  test('taking bytes leaves the evidence before as it was', () => {
    const before = after('V10');
    const copy = structuredClone(before);
    takeBytes(before, ascii('13\r'), 5);
    expect(before).toEqual(copy);
  });
});

// can-text-formats.md, Part 1, Quirks.
describe('kinds of firmware by their version text', () => {
  test.each([
    ['V1013', 'L', true],
    ['VaF09', 'L', true],
    ['b158aa7 https://example.org/firmware.git', 'M1 then O', true],
    ['v1.2-3-gb158aa7-dirty git@example.org:some/firmware.git', 'M1 then O', true],
    ['+Board: general\tSlcan: 101', 'none', true],
    ['V2.0 open firmware', 'unknown', false],
    ['V10', 'unknown', false],
    ['hello there', 'unknown', false],
    [null, 'unknown', false],
  ] as const)('%s: %s', (version, way, known) => {
    expect(listenWay(version)).toBe(way);
    if (version !== null) expect(isKnownVersion(version)).toBe(known);
  });
});

describe('the plan of openings', () => {
  const found = {
    baudRate: 9_600,
    protocol: 'slcan',
    bitRate: null,
    version: null,
    listenOnly: 'unconfirmed',
  } as const;

  test('is all speeds quickly, then the patient ones', () => {
    const plan = planTrials({ speeds: SERIAL_SPEEDS, remembered: null, baudRate: null });
    expect(plan.map(({ baudRate }) => baudRate)).toEqual([...SERIAL_SPEEDS, ...BOOT_SPEEDS]);
    expect(plan.filter(({ patience }) => patience === 'quick')).toHaveLength(SERIAL_SPEEDS.length);
    expect(plan[0]).toEqual({ baudRate: 115_200, patience: 'quick' });
  });

  test('begins with what is remembered, where that was understood', () => {
    const plan = planTrials({ speeds: SERIAL_SPEEDS, remembered: found, baudRate: null });
    expect(plan[0]).toEqual({ baudRate: 9_600, patience: 'known' });
    const never = { ...found, protocol: null };
    expect(planTrials({ speeds: SERIAL_SPEEDS, remembered: never, baudRate: null })[0]?.patience).toBe(
      'quick',
    );
  });

  test('is one opening that stays where the speed is given or there is none', () => {
    expect(planTrials({ speeds: SERIAL_SPEEDS, remembered: found, baudRate: 19_200 })).toEqual([
      { baudRate: 19_200, patience: 'stay' },
    ]);
    expect(planTrials({ speeds: null, remembered: found, baudRate: null })).toEqual([
      { baudRate: null, patience: 'stay' },
    ]);
  });
});
