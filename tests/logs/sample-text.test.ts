import { describe, expect, test } from 'vitest';
import { sampleText } from '../../src/logs/sample-text.ts';
import { WINDOWS_1252_HIGH } from '../../src/logs/windows-1252.ts';
import { bytesOf, CP1252_HIGH } from './log-bytes.ts';

/** A log of at least `size` characters whose lines say their number, so that a cut line shows. */
function numberedLog(size: number, lineEnd = '\n'): string {
  const lines: string[] = [];
  for (let length = 0, i = 0; length < size; i++) {
    const line = `<${i};${'x'.repeat(i % 40)}>`;
    lines.push(line);
    length += line.length + lineEnd.length;
  }
  return lines.join(lineEnd);
}
const HALF_MEBIBYTE = 524_288;

describe('the sample of a log', () => {
  test('is the whole log up to half a mebibyte', () => {
    const text = numberedLog(HALF_MEBIBYTE).slice(0, HALF_MEBIBYTE);
    expect(sampleText(bytesOf(text), 'utf-8')).toEqual({ head: text, windows: [] });
    expect(sampleText(bytesOf(`${text}x`), 'utf-8').windows).toHaveLength(16);
  });

  test.each([
    ['UTF-8', 'utf-8', '\n'],
    ['carriage returns', 'utf-8', '\r'],
    ['UTF-16 little endian', 'utf-16le', '\n'],
    ['UTF-16 big endian', 'utf-16be', '\r\n'],
    ['Windows-1252', 'windows-1252', '\r\n'],
  ] as const)('of a larger one are whole lines: %s', (_, encoding, lineEnd) => {
    const text = numberedLog(1_200_000, lineEnd);
    const known = new Set(text.split(lineEnd));
    const { head, windows } = sampleText(bytesOf(text, encoding), encoding);
    for (const part of [head, ...windows]) {
      const lines = part.split(/\r\n|\r|\n/).filter((line) => line !== '');
      expect(lines.length).toBeGreaterThan(50);
      expect(lines.filter((line) => !known.has(line))).toEqual([]);
    }
  });

  test('begins with the first line and ends with the last', () => {
    const text = numberedLog(2_000_000);
    const { head, windows } = sampleText(bytesOf(text), 'utf-8');
    expect(text.startsWith(head)).toBe(true);
    expect(text.endsWith(windows.at(-1) ?? '?')).toBe(true);
  });

  test('is spread over the log in order', () => {
    const { windows } = sampleText(bytesOf(numberedLog(3_000_000)), 'utf-8');
    const firsts = windows.map((part) => Number(/<(\d+);/.exec(part)?.[1]));
    expect([...firsts].sort((a, b) => a - b)).toEqual(firsts);
    expect(new Set(firsts).size).toBe(16);
  });

  test('costs no more for a log ten times as long', () => {
    const size = (characters: number) => {
      const { head, windows } = sampleText(bytesOf(numberedLog(characters)), 'utf-8');
      return head.length + windows.join('').length;
    };
    expect(size(6_000_000)).toBeLessThan(1.05 * size(600_000));
  });

  test('of one line without end is nothing, and does not throw', () => {
    const { head, windows } = sampleText(new Uint8Array(600_000).fill(0x41), 'utf-8');
    expect([head, ...windows].join('')).toBe('');
  });
});

describe('Windows-1252', () => {
  test('has 27 characters of its own between 0x80 and 0x9F', () => {
    // Source: Python's cp1252 codec, which leaves 0x81, 0x8D, 0x8F, 0x90 and 0x9D open
    expect(WINDOWS_1252_HIGH).toHaveLength(32);
    const open = [...WINDOWS_1252_HIGH].flatMap((unit, i) => (unit === 0x80 + i ? [unit] : []));
    expect(open).toEqual([0x81, 0x8d, 0x8f, 0x90, 0x9d]);
    WINDOWS_1252_HIGH.forEach((unit, i) => {
      if (CP1252_HIGH[i] !== '·') expect([i, String.fromCharCode(unit)]).toEqual([i, CP1252_HIGH[i]]);
    });
  });
});
