import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canLogDecoder } from '../../src/wire/can-log.ts';
import { ascii, decodeText, short } from './decode-all.ts';

/** A blank before the bracket sends a line to the general reader: both must read the same. */
const general = (text: string) => ` ${text.replaceAll('\n', '\n ')}`;

const read = (text: string) => {
  const { frames, breaks, counts } = decodeText(canLogDecoder, text);
  return { frames, breaks, malformed: counts.malformed };
};

const hex = (digits: number) =>
  fc
    .array(fc.constantFrom(...'0123456789ABCDEFabcdef'), { minLength: digits, maxLength: digits })
    .map((all) => all.join(''));
const line = fc
  .record({
    seconds: fc.integer({ min: 1_000_000_000, max: 4_000_000_000 }),
    micros: fc.integer({ min: 0, max: 999_999 }),
    name: fc.constantFrom('can0', 'vcan1', '1'),
    id: fc.oneof(hex(8), hex(3), fc.constant('18FEF700'), fc.constant('20000004')),
    data: fc.integer({ min: 0, max: 18 }).chain(hex),
    tail: fc.constantFrom('', ' R', ' T', '\r', ' ', '_9', 'x'),
  })
  .map(
    ({ seconds, micros, name, id, data, tail }) =>
      `(${seconds}.${String(micros).padStart(6, '0')}) ${name} ${id}#${data}${tail}`,
  );

describe('the quick way for the usual line', () => {
  test('reads the line of the reference as written there', () => {
    // can-text-formats.md, Part 2, "Log format": the example.
    const { frames, malformed } = read('(1589326646.631333) can1 18FEF700#FFFFFFFFF200FFFF\n');
    expect(frames.map(short)).toEqual(['18fef700#fffffffff200ffff']);
    expect(frames[0]).toMatchObject({
      atMs: 1_589_326_646_631.333,
      extended: true,
      remote: false,
      channel: 0,
    });
    expect(Object.values(malformed).every((count) => count === 0)).toBe(true);
  });

  test('reads what the general reader reads, of every line of a log', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 12 }), (lines) => {
        const text = `${lines.join('\n')}\n`;
        expect(read(text)).toEqual(read(general(text)));
      }),
      { numRuns: 400 },
    );
  });

  test('reads what the general reader reads, of lines with one letter turned', () => {
    const letters = ascii(' ().#0123456789ABCDEFabcdefRTxz-_\t');
    fc.assert(
      fc.property(line, fc.nat(), fc.constantFrom(...letters), (whole, place, letter) => {
        // The first letter decides which reader looks at all.
        const at = 1 + (place % (whole.length - 1));
        const turned = `${whole.slice(0, at)}${String.fromCharCode(letter)}${whole.slice(at + 1)}\n`;
        expect(read(turned)).toEqual(read(general(turned)));
      }),
      { numRuns: 600 },
    );
  });
});
