import { describe, expect, test } from 'vitest';
import { gaugeAsked, withInstrument } from '../../src/app/gauge-asked.ts';
import { DEFAULT_SETTINGS, Settings } from '../../src/app/settings.ts';
import { pressureUnitOf } from '../../src/app/shown-pressure.ts';
import { LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { readGauge, type GaugeInstrument } from '../../src/ui/gauge-reading.ts';

const asked = (id: string, settings: Settings = DEFAULT_SETTINGS) =>
  gaugeAsked(LOW_RAIL_PRESSURE.checks.find((check) => check.id === id)!.settings, settings);
const own: GaugeInstrument = {
  id: 'typed',
  name: 'Gauge 3',
  kind: 'dial',
  unit: 'bar',
  fullScale: 10,
  percent: 1,
  digits: 0,
  step: 0.2,
};
const read = (id: string, text: string, unit: GaugeInstrument['unit']) => {
  const { quantity, likely } = asked(id)!;
  return readGauge(text, unit, { quantity, likely, instrument: null, confirmed: false });
};

describe('what is asked for in a check that is measured by hand', () => {
  test('every check that gives one value asks for one, no other does', () => {
    const kinds = LOW_RAIL_PRESSURE.checks
      .filter(({ id }) => asked(id) !== null)
      .map(({ settings }) => settings.kind);
    expect(new Set(kinds)).toEqual(
      new Set(['steady pressure', 'pressure build', 'pressure decay', 'pressure deviation']),
    );
  });

  test('1265 bar of supply pressure and 90 kPa of restriction are asked about, what is usual is not', () => {
    expect(read('supply-idle', '1265', 'bar')).toMatchObject({ unlikely: { instead: ['kPa'] } });
    expect(read('supply-idle', '9.6', 'kPa')).toMatchObject({
      unlikely: { instead: ['bar', 'psi', 'inHg'] },
    });
    expect(read('supply-idle', '9.6', 'bar')).toMatchObject({ value: 960 });
    expect(read('suction-restriction', '90', 'kPa')).toMatchObject({ unlikely: {} });
    expect(read('suction-restriction', '-8', 'inHg')).toMatchObject({ value: expect.any(Number) as number });
    expect(read('rail-decay', '4.2', 's')).toEqual({ value: 4200 });
    expect(read('rail-decay', '400', 's')).toMatchObject({ unlikely: {} });
  });

  test('is asked for in the unit of this browser: rail pressures in one, all others in the other', () => {
    const settings = { ...DEFAULT_SETTINGS, pressureUnit: 'MPa', supplyUnit: 'psi' } as const;
    expect(asked('supply-idle', settings)?.unit).toBe('psi');
    expect(asked('final-drive', settings)?.unit).toBe('MPa');
    expect(asked('rail-build', settings)?.unit).toBe('s');
    expect(pressureUnitOf('railPressure', settings)).toBe('MPa');
  });

  test('an instrument that was typed once is offered first, and never where it shows something else', () => {
    const instruments = withInstrument(DEFAULT_SETTINGS.instruments, own);
    const settings = Settings.parse({ instruments });
    expect(asked('supply-idle', settings)?.instruments[0]).toMatchObject({ name: 'Gauge 3', fullScale: 10 });
    expect(asked('rail-decay', settings)?.instruments.map(({ name }) => name)).toEqual([
      'Stopwatch, by hand',
    ]);
  });

  test('an instrument of the same name takes the place of the one before, and not more than eight are kept', () => {
    const twice = withInstrument(withInstrument([], own), { ...own, fullScale: 16 });
    expect(twice).toMatchObject([{ name: 'Gauge 3', fullScale: 16 }]);
    const many = Array.from({ length: 12 }, (_, place) => ({ ...own, name: `Gauge ${place}` }));
    const kept = many.reduce(withInstrument, [] as GaugeInstrument[]);
    expect(kept).toHaveLength(8);
    expect(kept[0]?.name).toBe('Gauge 11');
    expect(new Set(kept.map(({ id }) => id)).size).toBe(8);
  });
});
