import { describe, expect, test } from 'vitest';
import { decodeText, detectEncoding } from '../../src/logs/decode-text.ts';
import { bytesOf, CP1252_HIGH } from './log-bytes.ts';

describe('decoding the bytes of a log', () => {
  test('every byte of Windows-1252 decodes as the code page says', () => {
    // Source: Python's cp1252 codec for 0x80 to 0x9F (Node 20's TextDecoder gets these wrong); ISO 8859-1 elsewhere.
    for (let byte = 0; byte < 256; byte++) {
      const high = CP1252_HIGH[byte - 0x80];
      const expected = high === undefined || high === '·' ? String.fromCharCode(byte) : high;
      expect([byte, decodeText(Uint8Array.of(0x41, byte), 'windows-1252')]).toEqual([byte, `A${expected}`]);
    }
  });

  test.each([
    ['utf-8', 'utf-8', 'Régime Ø ½ € 🚛\n'],
    ['utf-8-bom', 'utf-8', 'Régime Ø ½ € 🚛\n'],
    ['utf-16le', 'utf-16le', 'Régime Ø ½ € 🚛\n'],
    ['utf-16be', 'utf-16be', 'Régime Ø ½ € 🚛\n'],
    ['utf-16le-bare', 'utf-16le', 'Regime,rpm\n0,146\n'],
    ['utf-16be-bare', 'utf-16be', 'Regime,rpm\n0,146\n'],
    ['windows-1252', 'windows-1252', 'Régime Ø °C € – „x“\n'],
  ] as const)('%s is found as %s and keeps its text', (written, found, text) => {
    const bytes = bytesOf(text, written);
    expect(detectEncoding(bytes)).toBe(found);
    expect(decodeText(bytes, found)).toBe(text);
  });

  test.each([
    ['an overlong form', [0xc0, 0xaf]],
    ['a surrogate', [0xed, 0xa0, 0x80]],
    ['beyond U+10FFFF', [0xf4, 0x90, 0x80, 0x80]],
    ['a lone continuation', [0x41, 0x80]],
    ['a degree sign of Windows-1252 at the very end', [0x43, 0xb0]],
  ] as const)('%s is not UTF-8 (RFC 3629), so the file is Windows-1252', (_, bytes) => {
    expect(detectEncoding(Uint8Array.from(bytes))).toBe('windows-1252');
  });

  test('a character cut off by the end of the file does not make a UTF-8 file another', () => {
    const cut = bytesOf('Régime é').slice(0, -1);
    expect(detectEncoding(cut)).toBe('utf-8');
    expect(decodeText(cut, 'utf-8')).toBe('Régime \ufffd');
  });

  test('characters that lie across the inner chunks stay whole', () => {
    const text = `${'a'.repeat(2047)}é${'b'.repeat(2046)}🚛${'€'.repeat(20_000)}`;
    for (const as of ['utf-8', 'utf-16le', 'utf-16be'] as const)
      expect(decodeText(bytesOf(text, as), as)).toBe(text);
  });
});
