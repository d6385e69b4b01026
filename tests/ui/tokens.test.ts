import { describe, expect, test } from 'vitest';
import {
  colourProperty,
  DARK,
  GROUNDS,
  LIGHT,
  MEANINGS,
  PRINT,
  SERIES_COLOURS,
  tokens,
} from '../../src/ui/tokens.ts';

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (definitions "relative luminance", "contrast ratio"). */
function luminance(hex: string): number {
  const channels = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255);
  const [red = 0, green = 0, blue = 0] = channels.map((value) =>
    value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4,
  );
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [low = 0, high = 0] = [luminance(one), luminance(other)].sort((left, right) => left - right);
  return (high + 0.05) / (low + 0.05);
}

const SETS = { light: LIGHT, dark: DARK, print: PRINT };
const TEXT = 4.5; // WCAG 2.2, success criterion 1.4.3
const GRAPHIC = 3; // WCAG 2.2, success criterion 1.4.11

describe('contrast', () => {
  test('black on white is 21 to 1, as WCAG 2.2 states', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#ffffff', '#ffffff')).toBe(1);
  });

  describe.each(Object.entries(SETS))('of the %s set', (_, set) => {
    test.each(GROUNDS)('lets text be read on %s', (ground) => {
      for (const ink of ['ink', 'quiet', 'accent', ...SERIES_COLOURS, ...MEANINGS] as const) {
        expect.soft(contrast(set[ink], set[ground]), `${ink} on ${ground}`).toBeGreaterThanOrEqual(TEXT);
      }
    });

    test.each(MEANINGS)('lets text be read on the tint of %s, and on it when solid', (meaning) => {
      for (const ink of ['ink', meaning] as const) {
        expect.soft(contrast(set[ink], set[`${meaning}Soft`]), ink).toBeGreaterThanOrEqual(TEXT);
      }
      expect.soft(contrast(set.onSolid, set[meaning])).toBeGreaterThanOrEqual(TEXT);
    });

    test('lets marks, the focus ring and the skin of the liquid be seen', () => {
      for (const ground of GROUNDS) {
        expect.soft(contrast(set.mark, set[ground])).toBeGreaterThanOrEqual(GRAPHIC);
        expect.soft(contrast(set.focus, set[ground])).toBeGreaterThanOrEqual(GRAPHIC);
      }
      expect.soft(contrast(set.fuelEdge, set.fuel)).toBeGreaterThanOrEqual(GRAPHIC);
      expect.soft(contrast(set.ink, set.fuel)).toBeGreaterThanOrEqual(TEXT);
      expect.soft(contrast(set.ink, set.glass)).toBeGreaterThanOrEqual(TEXT);
      expect.soft(contrast(set.onSolid, set.accentStrong)).toBeGreaterThanOrEqual(TEXT);
    });
  });
});

describe('tokens', () => {
  test('have the same names in all three sets', () => {
    expect(Object.keys(DARK).sort()).toEqual(Object.keys(LIGHT).sort());
    expect(Object.keys(PRINT).sort()).toEqual(Object.keys(LIGHT).sort());
  });

  test('declare every colour once for light, once for print and twice for dark', () => {
    for (const name of Object.keys(LIGHT) as (keyof typeof LIGHT)[]) {
      expect.soft(tokens.cssText.split(`${colourProperty(name)}:`).length - 1, name).toBe(4);
    }
  });

  test('print on white with black ink', () => {
    expect([PRINT.ground, PRINT.ink]).toEqual(['#ffffff', '#000000']);
  });
});
