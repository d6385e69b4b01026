import { describe, expect, test } from 'vitest';
import { unitSymbol } from '../../src/quantities/format.ts';
import { parseUnit } from '../../src/quantities/parse-unit.ts';
import { UNIT_IDS } from '../../src/quantities/unit.ts';

const NAMED = UNIT_IDS.filter((unit) => unit !== 'state');

describe.each(NAMED)('%s', (unit) => {
  const forms = (text: string) => [
    text,
    ` ${text} `,
    `[${text}]`,
    `(${text})`,
    `{${text}}`,
    text.toUpperCase(),
  ];
  test('is read from its own printed symbol, in brackets and in capitals too', () => {
    for (const form of forms(unitSymbol(unit))) {
      // Capitals of mV and ms mean the same; MPA can only be MPa.
      expect(parseUnit(form), form).toBe(unit);
    }
  });
});

describe('spellings of logs in several languages (common practice, no source)', () => {
  test.each([
    ['об/мин', 'rpm'],
    ['U/min', 'rpm'],
    ['giri/min', 'rpm'],
    ['obr/min', 'rpm'],
    ['rev/min', 'rpm'],
    ['Sek.', 's'],
    ['Sekunden', 's'],
    ['Minuten', 'min'],
    ['Stunden', 'h'],
    ['lbs/in²', 'psi'],
    ['lbf/sq in', 'psi'],
    ['in. Hg', 'inHg'],
    ['ccm', 'mL'],
    ['fluid ounces', 'usFlOz'],
    ['Grad C', 'degC'],
    ['deg. Fahrenheit', 'degF'],
    ['pct', 'percent'],
    ['mVDC', 'mV'],
  ])('"%s" is %s', (text, unit) => expect(parseUnit(text)).toBe(unit));
});

test.each([
  'psi abs',
  'kPa abs',
  'kPa(a)',
  'MPa(a)',
  'bara',
  'inHg abs',
  'm',
  'g',
  'Hz',
  'rpm2',
  'psi/s',
  '%%',
  '°',
  'state',
  '__proto__',
])('"%s" is not taken for a unit that Meniscus converts', (text) => expect(parseUnit(text)).toBeNull());
