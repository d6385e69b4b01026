import { describe, expect, test } from 'vitest';
import { guessColumns, speedCandidates, SURE } from '../../src/logs/guess-columns.ts';
import { guessUnit, isAbsolutePressure } from '../../src/logs/unit-by-size.ts';
import { profileOf, profilesOf } from './log-profiles.ts';

/** Signals by column for a header over a log that cranks; the first column is the time. */
function guessed(header: string, cells: (i: number) => string) {
  const rows = Array.from({ length: 12 }, (_, i) => `${i / 2};${cells(i)}`).join('\n');
  return guessColumns(profilesOf(`${header}\n${rows}\n`), 0);
}
const signals = (header: string, cells: (i: number) => string) =>
  Object.fromEntries(guessed(header, cells).map(({ index, signal }) => [signal, index]));
const rpm = (i: number) => (i % 4 ? 140 + i : 0);

describe('which column holds which signal', () => {
  test('each signal by its header', () => {
    const header = 'Time (s);Battery (V);RPM;Rail pressure (bar);Desired rail pressure (bar);Fuel supply pressure (bar);Fuel temp (°C)'; // prettier-ignore
    expect(signals(header, (i) => `11;${rpm(i)};300;310;5;40`)).toEqual({
      batteryVoltage: 1,
      engineSpeed: 2,
      railPressure: 3,
      commandedRailPressure: 4,
      supplyPressure: 5,
      fuelTemperature: 6,
    });
  });

  test('a unit of another kind rules a signal out', () => {
    expect(signals('Time (s);RPM;Rail pressure (V)', (i) => `${rpm(i)};2`)).toEqual({ engineSpeed: 1 });
    expect(signals('Time (s);RPM;Battery (°C)', (i) => `${rpm(i)};20`)).toEqual({ engineSpeed: 1 });
    expect(signals('Time (s);RPM;Engine speed (%)', (i) => `${rpm(i)};20`)).toEqual({ engineSpeed: 1 });
  });

  test('a column of words holds none', () => {
    expect(signals('Time (s);RPM;Battery', (i) => `${rpm(i)};on`)).toEqual({ engineSpeed: 1 });
  });

  test('the left one of two columns that say the same', () => {
    expect(signals('Time (s);RPM;Battery 1 (V);Battery 2 (V)', (i) => `${rpm(i)};11;12`)).toEqual({
      engineSpeed: 1,
      batteryVoltage: 2,
    });
  });

  test('"Fuel pressure" is rail pressure or supply pressure by what values fit', () => {
    const fuel = (unit: string, value: number) =>
      signals(`Time (s);RPM;Fuel pressure (${unit})`, (i) => `${rpm(i)};${value}`);
    expect(fuel('bar', 300).railPressure).toBe(2);
    expect(fuel('bar', 300).supplyPressure).toBeUndefined(); // 30,000 kPa is no supply pressure
  });

  test('the time column holds no signal', () => {
    const profiles = profilesOf('RPM;Battery (V)\n0;11\n140;11\n146;12\n');
    expect(guessColumns(profiles, 0).map(({ signal }) => signal)).toEqual(['batteryVoltage']);
    expect(guessColumns(profiles, null).map(({ signal }) => signal)).toEqual(['engineSpeed', 'batteryVoltage']); // prettier-ignore
  });

  test('says why, in words', () => {
    expect(guessed('Time (s);Engine speed', (i) => String(rpm(i)))[0]).toEqual({
      index: 1,
      signal: 'engineSpeed',
      confidence: 0.95,
      reason: 'the header says "Engine speed"',
    });
  });
});

describe('engine speed', () => {
  const candidates = (header: string, cells: (i: number) => string) => {
    const rows = Array.from({ length: 12 }, (_, i) => cells(i)).join('\n');
    return speedCandidates(profilesOf(`${header}\n${rows}\n`)).map(({ index, confidence }) => [
      index,
      confidence >= SURE,
    ]);
  };

  test('is sure by its header and by its unit', () => {
    expect(candidates('Engine speed;Load', (i) => `${rpm(i)};20`)).toEqual([[0, true]]);
    expect(candidates('Signal 7 (rpm);Load', (i) => `${rpm(i)};20`)).toEqual([[0, true]]);
  });

  test('the header goes before the unit', () => {
    expect(candidates('Signal 7 (rpm);Engine speed', (i) => `${rpm(i)};${rpm(i)}`)[0]).toEqual([1, true]);
  });

  test('is not sure where two headers say it', () => {
    expect(candidates('Engine speed;RPM', (i) => `${rpm(i)};${rpm(i)}`)).toEqual([
      [0, false],
      [1, false],
    ]);
  });

  test('is not sure where most values are ones that no engine has', () => {
    expect(candidates('RPM;Load', () => '65535;20')).toEqual([[0, false]]);
    expect(candidates('RPM;Load', () => '-20;20')).toEqual([[0, false]]);
  });

  test('is not sure where half of them are such', () => {
    expect(candidates('RPM;Load', (i) => `${i % 2 ? 140 : 65535};20`)).toEqual([[0, false]]);
  });

  test('stays sure with a few such values', () => {
    expect(candidates('RPM;Load', (i) => `${i % 4 ? 140 : 65535};20`)).toEqual([[0, true]]);
  });

  test('"Speed" is sure alone, or above what a vehicle drives', () => {
    expect(candidates('Speed', (i) => String(rpm(i)))).toEqual([[0, true]]);
    expect(candidates('Speed;Load', (i) => `${rpm(i)};20`)).toEqual([[0, false]]);
    expect(candidates('Speed;Load', (i) => `${i * 60};20`)).toEqual([[0, true]]);
  });

  test('a speed in km/h, mph or m/s is none', () => {
    for (const unit of ['km/h', 'mph', 'm/s', 'kn', 'Hz'])
      expect([unit, candidates(`Speed (${unit});Load`, (i) => `${i * 60};20`)]).toEqual([unit, []]);
    expect(candidates('Speed km h;Load', (i) => `${i * 60};20`)).toEqual([]);
  });

  test('without a header is the only column that moves through cranking speeds', () => {
    const bare = (rows: string) =>
      speedCandidates(profilesOf(rows)).map(({ index, confidence }) => [index, confidence >= SURE]);
    expect(bare('0;11\n140;11\n146;12\n150;11\n')).toEqual([[0, true]]);
    expect(bare('0;0\n140;120\n146;130\n150;131\n')).toEqual([
      [0, false],
      [1, false],
    ]);
    expect(bare('11;12\n12;13\n12;11\n')).toEqual([]); // below 60: voltages, temperatures
    expect(bare('146;12\n146;13\n146;11\n')).toEqual([]); // does not move
  });

  test('is never a column of another name', () => {
    expect(candidates('Load;Coolant', (i) => `${rpm(i)};20`)).toEqual([]);
  });
});

describe('the unit by the size of the values', () => {
  const unit = (signal: Parameters<typeof guessUnit>[0], header: string, ...values: number[]) =>
    guessUnit(signal, profileOf(header, values)).unit;

  test.each([
    ['engineSpeed', 'Drehzahl', 146, 'rpm'],
    ['engineSpeed', 'Drehzahl', 40, 'rpm'],
    ['engineSpeed', 'Drehzahl', 0, 'rpm'],
    ['engineSpeed', 'Drehzahl', 39, null],
    ['engineSpeed', 'Drehzahl', 70_000, null],
    ['engineSpeed', 'RPM', 3, 'rpm'],
    ['railPressure', 'Rail pressure', 45_001, 'kPa'],
    ['railPressure', 'Rail pressure', 45_000, null],
    ['railPressure', 'Rail pressure', 300, null],
    ['commandedRailPressure', 'Desired rail pressure', 120_000, 'kPa'],
    ['commandedRailPressure', 'Desired rail pressure', 1200, null],
    ['supplyPressure', 'Supply pressure', 261, 'kPa'],
    ['supplyPressure', 'Supply pressure', 260, null],
    ['supplyPressure', 'Supply pressure', 5, null],
    ['supplyPressure', 'Supply pressure', 2000, null],
    ['batteryVoltage', 'Battery', 12, 'V'],
    ['batteryVoltage', 'Battery', 60, 'V'],
    ['batteryVoltage', 'Battery', 4, null],
    ['batteryVoltage', 'Battery', 4000, 'mV'],
    ['batteryVoltage', 'Battery', 28_000, 'mV'],
    ['batteryVoltage', 'Battery', 100, null],
    ['fuelTemperature', 'Fuel temperature', 40, null],
  ] as const)('%s of "%s" up to %d is in %s', (signal, header, highest, expected) => {
    expect(unit(signal, header, 0, highest)).toBe(expected);
  });

  test('is the stated one, whatever the size', () => {
    expect(unit('railPressure', 'Rail pressure (psi)', 60_000)).toBe('psi');
  });

  test('is none where one is stated that no one knows', () => {
    expect(unit('railPressure', 'Rail pressure (kgf/cm2)', 60_000)).toBeNull();
  });

  test.each([
    ['supplyPressure', 'p (bar)', 16, true], // 1600 kPa
    ['supplyPressure', 'p (bar)', 17, false],
    ['railPressure', 'p (MPa)', 300, true],
    ['railPressure', 'p (MPa)', 301, false],
    ['batteryVoltage', 'U (V)', 61, false],
    ['fuelTemperature', 'T (°F)', 302, true], // 150 °C
    ['fuelTemperature', 'T (°F)', 304, false],
  ] as const)('a %s of "%s" up to %d is plausible: %s', (signal, header, highest, plausible) => {
    expect(guessUnit(signal, profileOf(header, [highest])).plausible).toBe(plausible);
  });
});

describe('absolute pressure', () => {
  test.each(['p (psia)', 'p (bar a)', 'p abs (kPa)', 'p absolute', 'p absolut [bar]', 'Presión absoluta', 'p (MPa a)'])(
    '"%s" is one',
    (header) => expect(isAbsolutePressure('railPressure', profileOf(header, [1]))).toBe(true),
  ); // prettier-ignore

  test.each(['p (psi)', 'p (psig)', 'p (barg)', 'Absorber pressure (bar)', 'Rail pressure a'])('"%s" is none', (header) =>
    expect(isAbsolutePressure('supplyPressure', profileOf(header, [1]))).toBe(false),
  ); // prettier-ignore

  test('a voltage is none', () => {
    expect(isAbsolutePressure('batteryVoltage', profileOf('U abs', [1]))).toBe(false);
  });
});
