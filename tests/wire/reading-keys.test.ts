import { describe, expect, test } from 'vitest';
import { SIGNAL_IDS } from '../../src/quantities/reading.ts';
import { SIGNALS } from '../../src/signals/catalogue.ts';
import {
  counterPeriodMs,
  meaningOf,
  physicalStampMs,
  physicalValue,
  SIGNAL_DIMENSIONS,
  type KeyMeaning,
} from '../../src/wire/reading-keys.ts';

const short = (meaning: KeyMeaning | null) =>
  meaning && (meaning.kind === 'time' ? `t ${meaning.unit}` : `${meaning.signal} ${meaning.unit}`);

describe('a key of a reading line', () => {
  test.each(SIGNAL_IDS)('may be the signal id %s, in any case, and then is in the canonical unit', (id) => {
    const canonical = { pressure: 'kPa', speed: 'rpm', voltage: 'V', temperature: 'degC' } as Record<
      string,
      string
    >;
    const meaning = meaningOf(id);
    expect(meaning).toMatchObject({ kind: 'value', signal: id });
    const unit = canonical[SIGNAL_DIMENSIONS[id]];
    if (unit) expect(short(meaning)).toBe(`${id} ${unit}`);
    expect(meaningOf(id.toUpperCase())).toEqual(meaning);
    expect(meaningOf(` ${id.replace(/[A-Z]/g, (letter) => `_${letter}`)} `)).toEqual(meaning);
  });

  test('measures what the catalogue of signals says', () => {
    for (const id of SIGNAL_IDS) expect(SIGNAL_DIMENSIONS[id], id).toBe(SIGNALS[id].dimension);
  });

  test.each([
    ['railPressure_bar', 'railPressure bar'],
    ['railPressure[MPa]', 'railPressure MPa'],
    ['railPressure (psi)', 'railPressure psi'],
    ['railPressure{kPa}', 'railPressure kPa'],
    ['rail_pressure_bar', 'railPressure bar'],
    ['RAIL PRESSURE bar', 'railPressure bar'],
    ['rail-pressure-psi', 'railPressure psi'],
    ['supplyPressure.inHg', 'supplyPressure inHg'],
    ['rpm', 'engineSpeed rpm'],
    ['speed', 'engineSpeed rpm'],
    ['Engine RPM', 'engineSpeed rpm'],
    ['speed_rpm', 'engineSpeed rpm'],
    ['engineSpeed [1/min]', 'engineSpeed rpm'],
    ['battery', 'batteryVoltage V'],
    ['battery_mV', 'batteryVoltage mV'],
    ['vBat', 'batteryVoltage V'],
    ['coolantTemperature_F', 'coolantTemperature degF'],
    ['coolantTemperature_\u00c2\u00b0C', 'coolantTemperature degC'], // UTF-8, read byte by byte
    ['fuelTemperature (\u00b0F)', 'fuelTemperature degF'], // Latin-1
    ['engineHours_h', 'engineHours h'],
    ['fuelLevel_%', 'fuelLevel percent'],
    ['t', 't ms'],
    ['T', 't ms'],
    ['t_ms', 't ms'],
    ['t_us', 't us'],
    ['t_s', 't s'],
    ['t (s)', 't s'],
    ['t[us]', 't us'],
    ['millis', 't ms'],
    ['micros', 't us'],
  ])('%j means %s', (key, meaning) => expect(short(meaningOf(key))).toBe(meaning));

  test.each([
    ['', 'nothing'],
    ['temp', 'which temperature is not said'],
    ['railPressure_degC', 'the unit is of another kind'],
    ['railPressure_psia', 'an absolute pressure has another zero'],
    ['engineSpeed_kmh', 'the unit is not known'],
    ['engineSpeed_xyz', 'the unit is no unit'],
    ['railPressure[bar', 'a bracket is missing'],
    ['time', 'its unit is not said'],
    ['t_min', 'no sketch counts minutes'],
    ['t_rpm', 'time in rpm'],
    ['__proto__', 'a name that objects have of themselves'],
    ['constructor', 'likewise'],
    ['x'.repeat(65) + '_bar', 'too long for a name'],
  ])('%j means nothing: %s', (key) => expect(meaningOf(key)).toBeNull());

  test('of any length takes no longer than its length', () => {
    for (const key of ['_'.repeat(60_000), '('.repeat(60_000), 'a_'.repeat(30_000), ' '.repeat(60_000)])
      expect(meaningOf(key)).toBeNull();
  });
});

describe('a number of a reading line', () => {
  const rail = (unit: 'bar' | 'kPa' | 'psi' | 'MPa') =>
    ({ kind: 'value', signal: 'railPressure', unit }) as const;

  // NIST SP 811, Appendix B.8: 1 bar = 100 kPa exactly, 1 psi = 6.894757 kPa.
  test('is put into the canonical unit', () => {
    expect(physicalValue(1, rail('bar'))).toBe(100);
    expect(physicalValue(1, rail('psi'))).toBeCloseTo(6.894757, 6);
    expect(physicalValue(160, rail('MPa'))).toBe(160_000);
    expect(physicalValue(212, { kind: 'value', signal: 'coolantTemperature', unit: 'degF' })).toBeCloseTo(
      100,
      9,
    );
  });

  test.each([1e300, -1e300, Infinity, -Infinity, NaN])('far outside what can be, %d, is none', (value) => {
    for (const signal of SIGNAL_IDS) {
      const meaning = meaningOf(signal) as KeyMeaning & { kind: 'value' };
      expect(physicalValue(value, meaning)).toBeNaN();
    }
    expect(physicalStampMs(value, 'ms')).toBeNaN();
  });

  test('below absolute zero is none, and zero and slightly negative ones are', () => {
    const coolant = { kind: 'value', signal: 'coolantTemperature', unit: 'degC' } as const;
    expect(physicalValue(-273.16, coolant)).toBeNaN();
    expect(physicalValue(-40, coolant)).toBe(-40);
    expect(physicalValue(-0.3, rail('bar'))).toBeCloseTo(-30, 9);
    expect(physicalValue(0, rail('bar'))).toBe(0);
  });

  test('as a stamp is put into ms, and its counter starts again after 32 bits', () => {
    expect(physicalStampMs(1500, 'us')).toBe(1.5);
    expect(physicalStampMs(1.5, 's')).toBe(1500);
    expect(physicalStampMs(-5, 'ms')).toBe(-5);
    expect(counterPeriodMs('us')).toBe(4_294_967.296); // 2^32 us, 71.6 minutes
    expect(counterPeriodMs('ms')).toBe(4_294_967_296); // 49.7 days
  });
});
