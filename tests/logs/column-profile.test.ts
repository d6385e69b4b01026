import { describe, expect, test } from 'vitest';
import { profileOf, profilesOf } from './log-profiles.ts';

describe('what the rows tell of a column', () => {
  test('its numbers, their range and its share of them', () => {
    const profile = profileOf('RPM', ['0', '146', 'N/A', '', '120.5', 'off']);
    expect(profile.values).toEqual([0, 146, 120.5]);
    expect([profile.lowest, profile.highest]).toEqual([0, 146]);
    expect(profile.cells).toEqual(['0', '146', '120.5', 'off']);
    expect(profile.numberShare).toBe(0.75); // three of four that are not missing
    expect(profile.timeShare).toBe(0);
  });

  test('its share of times', () => {
    expect(profileOf('Time', ['10:00:00', '10:00:01', 'x', '--']).timeShare).toBeCloseTo(2 / 3, 12);
  });

  test('nothing, where no cell is filled', () => {
    const profile = profileOf('Note', ['', 'N/A']);
    expect(profile).toMatchObject({ values: [], numberShare: 0, timeShare: 0 });
    expect([profile.lowest, profile.highest]).toEqual([Infinity, -Infinity]);
  });

  test('the unit of the header first, of the unit row second, of the cells third', () => {
    const unit = (header: string, row: string, cell: string) => {
      const [, column] = profilesOf(`Time;${header}\ns;${row}\n0;${cell}\n1;${cell}\n2;${cell}\n`);
      return [column?.unit, column?.unitFrom, column?.unitText];
    };
    expect(unit('p (psi)', 'bar', '3 kPa')).toEqual(['psi', 'header', 'psi']);
    expect(unit('Pressure', 'bar', '3 kPa')).toEqual(['bar', 'unitRow', 'bar']);
    expect(unit('Pressure', '-', '3 kPa')).toEqual(['kPa', 'cells', 'kPa']);
    expect(unit('Pressure (x)', 'bar', '3')).toEqual(['bar', 'unitRow', 'bar']);
  });

  test('a unit that no one knows is kept as written', () => {
    expect(profileOf('Supply (kgf/cm2)', ['1', '2'])).toMatchObject({
      unit: null,
      unitText: 'kgf/cm2',
      unitFrom: null,
    });
  });

  test('letters behind the numbers where four of five cells have them', () => {
    expect(profileOf('n', ['1 rpm', '2 rpm', '3 rpm', '4 rpm', '5'])).toMatchObject({
      suffix: 'rpm',
      unit: 'rpm',
      values: [1, 2, 3, 4, 5],
    });
    expect(profileOf('n', ['1 rpm', '2 rpm', '3 rpm', '4', '5'])).toMatchObject({
      suffix: null,
      values: [4, 5],
    });
  });

  test('AM and PM are no unit', () => {
    expect(profileOf('Time', ['10 AM', '11 AM', '12 PM']).suffix).toBeNull();
  });

  test('header and name: with and without the unit', () => {
    expect(profileOf('Rail pressure [bar]', ['1'])).toMatchObject({
      header: 'Rail pressure [bar]',
      name: 'Rail pressure',
    });
  });

  test('columns beyond the header have no name', () => {
    const columns = profilesOf('Time;RPM\n0;1;7\n1;2;8\n2;3;9\n');
    expect(columns.map(({ header, index }) => [index, header])).toEqual([
      [0, 'Time'],
      [1, 'RPM'],
      [2, ''],
    ]);
  });
});
