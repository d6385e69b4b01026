import { expect, test } from 'vitest';
import fc from 'fast-check';
import { parseUnit } from '../../src/quantities/parse-unit.ts';
import { UNIT_IDS, type UnitId } from '../../src/quantities/unit.ts';

const written: Readonly<Partial<Record<UnitId, readonly string[]>>> = {
  rpm: ['rpm', 'RPM', 'r.p.m.', '1/min', 'r/min', 'U/min', 'min-1', 'min^-1', 'min⁻¹', '[rpm]', 'tr/min'],
  kPa: ['kPa', 'KPA', ' kPa ', 'kPa(g)', '(kPa)'],
  MPa: ['MPa', 'mpa', 'mPa'],
  bar: ['bar', 'Bar', 'bar(g)', 'barg'],
  psi: ['psi', 'PSI', 'PSI(g)', 'psig', 'lbf/in²', 'lb/in2'],
  Pa: ['Pa'],
  inHg: ['inHg', 'in. Hg', 'in Hg'],
  mmHg: ['mmHg', 'mm Hg'],
  V: ['V', 'volts', 'VDC'],
  mV: ['mV'],
  degC: ['°C', 'deg C', 'degC', '℃', 'º C', '˚C', 'C', 'Celsius'],
  degF: ['°F', 'deg F', '℉', 'F'],
  mL: ['mL', 'ml', 'cc', 'cm³', 'ML'],
  L: ['L', 'litres'],
  usFlOz: ['fl oz', 'fl. oz.', 'US fl oz'],
  impFlOz: ['imp fl oz', 'UK fl oz'],
  ms: ['ms', 'msec'],
  s: ['s', 'sec', 'Sec.', 'seconds'],
  min: ['min', 'minutes'],
  percent: ['%', 'percent'],
  h: ['h', 'hrs'],
};

for (const [unit, texts] of Object.entries(written)) {
  test.each(texts.map((text) => [text]))(`"%s" is read as ${unit}`, (text) => {
    expect(parseUnit(text)).toBe(unit);
  });
}

test.each([
  '',
  ' ',
  '-',
  'furlong',
  'engine',
  'psia',
  'bar abs',
  'bar(a)',
  'oz',
  'mbar',
  'kg',
  'constructor',
])('"%s" is no unit that can be converted', (text) => {
  expect(parseUnit(text)).toBeNull();
});

test('never throws and gives only known units, on any text', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      const unit = parseUnit(text);
      expect(unit === null || UNIT_IDS.includes(unit)).toBe(true);
    }),
  );
});
