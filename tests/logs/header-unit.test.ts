import { describe, expect, test } from 'vitest';
import { isUnitRow, readUnit, splitHeaderUnit, stripBrackets } from '../../src/logs/header-unit.ts';

describe('the unit in a header', () => {
  test.each([
    ['Rail pressure (psi)', 'Rail pressure', 'psi'],
    ['Rail pressure [bar]', 'Rail pressure', 'bar'],
    ['Battery {V}', 'Battery', 'V'],
    ['Battery <V>', 'Battery', 'V'],
    ['Engine speed(rpm)', 'Engine speed', 'rpm'],
    ['Engine speed ( rpm )', 'Engine speed', 'rpm'],
    ['  Time (s)  ', 'Time', 's'],
    ['Time in s', 'Time', 's'],
    ['Temps en s', 'Temps', 's'],
    ['p / bar', 'p', 'bar'],
    ['Pressure, psi', 'Pressure', 'psi'],
    ['Pressure: kPa', 'Pressure', 'kPa'],
    ['n/rpm', 'n', 'rpm'],
    ['Drehzahl / 1/min', 'Drehzahl', '1/min'],
    ['Rail pressure MPa', 'Rail pressure', 'MPa'],
    ['rail_psi', 'rail', 'psi'],
    ['time.ms', 'time', 'ms'],
    ['batt-V', 'batt', 'V'],
    ['Drehzahl [1/min]', 'Drehzahl', '1/min'],
    ['Régime (tr/min)', 'Régime', 'tr/min'],
    ['Fuel temperature (°C)', 'Fuel temperature', '°C'],
  ])('of "%s" is told from its name', (header, name, unitText) => {
    expect(splitHeaderUnit(header)).toEqual({ name, unitText });
  });

  test.each(['Engine speed', 'Rail pressure, filtered', 'Bank A/B', 'Sensor_12', 'Oil in sump', 'Time'])(
    'of "%s" is none',
    (header) => expect(splitHeaderUnit(header)).toEqual({ name: header, unitText: null }),
  );

  test('in brackets is kept as written although no one knows it', () => {
    expect(splitHeaderUnit('Supply (kgf/cm2)')).toEqual({ name: 'Supply', unitText: 'kgf/cm2' });
  });

  test('is the header itself where nothing else stands there', () => {
    expect(splitHeaderUnit('rpm')).toEqual({ name: 'rpm', unitText: 'rpm' });
    expect(splitHeaderUnit('(bar)')).toEqual({ name: '', unitText: 'bar' });
    expect(splitHeaderUnit('')).toEqual({ name: '', unitText: null });
  });

  test('is the last one in brackets', () => {
    expect(splitHeaderUnit('Speed (filtered) (rpm)')).toEqual({ name: 'Speed (filtered)', unitText: 'rpm' });
  });
});

describe('units by their spelling', () => {
  test.each([
    ['rpm', 'rpm'], ['RPM', 'rpm'], ['1/min', 'rpm'], ['tr/min', 'rpm'], ['U/min', 'rpm'], ['min-1', 'rpm'],
    ['psi', 'psi'], ['bar', 'bar'], ['kPa', 'kPa'], ['MPa', 'MPa'], ['V', 'V'], ['mV', 'mV'], ['s', 's'], ['ms', 'ms'],
    ['°C', 'degC'], ['°F', 'degF'], [' bar ', 'bar'],
  ])('"%s" is %s', (text, unit) => expect(readUnit(text)).toBe(unit)); // prettier-ignore

  test.each(['', 'km/h', 'mph', 'furlong', 'kgf/cm2'])('"%s" is none that is converted', (text) =>
    expect(readUnit(text)).toBeNull(),
  );

  test('no text is no unit', () => expect(readUnit(null)).toBeNull());
});

describe('a unit row', () => {
  test.each([
    ['plain', ['s', 'rpm', 'bar']],
    ['in brackets', ['[s]', '(rpm)', '{bar}']],
    ['with blanks for what has none', ['s', '', 'rpm', '']],
    ['with a dash for what has none', ['s', '-', 'rpm']],
    ['with units that are not converted', ['hh:mm:ss.f', 'rpm', 'km/h', '%', 'mg/str']],
    ['with one word that is none among three', ['s', 'rpm', 'bar', 'foo']],
  ])('%s', (_, cells) => expect(isUnitRow(cells)).toBe(true));

  test.each([
    ['of names', ['Time', 'Engine speed', 'Rail pressure']],
    ['of numbers', ['0.0', '146', '300']],
    ['of dashes', ['-', '-', '-']],
    ['of blanks', ['', '', '']],
    ['with as many names as units', ['s', 'Engine speed']],
    ['without cells', []],
  ])('is not one %s', (_, cells) => expect(isUnitRow(cells)).toBe(false));
});

test.each([
  ['[s]', 's'],
  ['(rpm)', 'rpm'],
  [' { V } ', 'V'],
  ['<bar>', 'bar'],
  ['1/min', '1/min'],
  ['', ''],
])('"%s" without its brackets is "%s"', (cell, bare) => expect(stripBrackets(cell)).toBe(bare));
