import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const folder = new URL('../../src/ui/', import.meta.url);
const files = readdirSync(folder).map((name) => ({
  name,
  text: readFileSync(new URL(name, folder), 'utf8'),
}));

/** A content security policy of style-src 'self' refuses style attributes and style elements written as markup. */
const REFUSED = [/\sstyle=/, /styleMap/, /<style/, /setAttribute\(\s*['"]style/, /cssText\s*=/];

describe('the elements under a strict content security policy', () => {
  test('are all looked at', () => {
    expect(files.length).toBeGreaterThan(45);
    const names = files.map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(['source-offers.ts', 'raw-monitor.ts', 'ask-dialog.ts']));
  });

  test.each(REFUSED.map((pattern) => [pattern]))('never use %s', (pattern) => {
    expect(files.filter(({ text }) => pattern.test(text)).map(({ name }) => name)).toEqual([]);
  });

  test('load nothing: no address, no font, no import rule', () => {
    const loads = /https?:\/\/|@import|@font-face|url\((?!#)/;
    expect(files.filter(({ text }) => loads.test(text)).map(({ name }) => name)).toEqual([]);
  });

  test('write colours in the tokens only', () => {
    const colour = /#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(/i;
    const found = files.filter(
      ({ name, text }) => name !== 'tokens.ts' && colour.test(text.replace(/url\(#[^)]*\)/g, '')),
    );
    expect(found.map(({ name }) => name)).toEqual([]);
  });
});
