import { describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { SPN_TABLE } from '../../src/j1939/spn-table.ts';
import { canonicalUnit } from '../../src/quantities/convert.ts';
import { SIGNAL_IDS, type SignalId } from '../../src/quantities/reading.ts';
import type { Dimension, UnitId } from '../../src/quantities/unit.ts';
import { SIGNALS } from '../../src/signals/catalogue.ts';
import { toReadings } from '../../src/signals/to-readings.ts';
import { framesOf } from '../j1939/fixtures/read-recording.ts';

interface Row {
  readonly spn: number;
  readonly unit: UnitId; // shown
  readonly dimension: Dimension;
  readonly frame: string;
  readonly canonical: number;
}

const row = (
  spn: number,
  [unit, dimension]: readonly [UnitId, Dimension],
  frame: string,
  canonical: number,
): Row => ({
  spn,
  unit,
  dimension,
  frame,
  canonical,
});
const MPA = ['MPa', 'pressure'] as const;
const KPA = ['kPa', 'pressure'] as const;
const DEGREES = ['degC', 'temperature'] as const;

/** SPN and unit from the tables of j1939.md; the canonical value of each frame by hand from its scale and offset there. */
const EXPECTED: Readonly<Record<SignalId, Row>> = {
  engineSpeed: row(190, ['rpm', 'speed'], '0CF00400#FFFFFF6813FFFFFF', 621), // 4968 / 8
  railPressure: row(157, MPA, '18FEDB00#FFFF0096FFFFFFFF', 150_000), // 38400 / 256 MPa
  commandedRailPressure: row(5313, MPA, '18FCFD00#FFFFFFFF0019FFFF', 25_000), // 6400 / 256 MPa
  rail2Pressure: row(1349, MPA, '18FEDB00#FFFFFFFFFFFF8000', 500), // 128 / 256 MPa
  injectionControlPressure: row(164, MPA, '18FEDB00#0100FFFFFFFFFFFF', 3.90625), // one bit
  supplyPressure: row(94, KPA, '18FEEF00#C4FFFFFFFFFFFFFF', 784), // 196 * 4
  filterDifferentialPressure: row(95, KPA, '18FEFC00#FFFF19FFFFFFFFFF', 50), // 25 * 2
  suctionFilterDifferentialPressure: row(1382, KPA, '18FE6A00#FFFF0AFFFFFFFFFF', 20), // 10 * 2
  oilPressure: row(100, KPA, '18FEEF00#FFFFFF64FFFFFFFF', 400), // 100 * 4
  batteryVoltage: row(168, ['V', 'voltage'], '18FEF700#FFFFFFFFF200FFFF', 12.1), // 242 * 0.05
  keySwitchVoltage: row(158, ['V', 'voltage'], '18FEF700#FFFFFFFFFFFFF001', 24.8), // 496 * 0.05
  coolantTemperature: row(110, DEGREES, '18FEEE00#37FFFFFFFFFFFFFF', 15), // 55 - 40
  fuelTemperature: row(174, DEGREES, '18FEEE00#FF00FFFFFFFFFFFF', -40), // 0 - 40
  oilTemperature: row(175, DEGREES, '18FEEE00#FFFF8025FFFFFFFF', 27), // 9600 * 0.03125 - 273
  boostPressure: row(102, KPA, '18FEF600#FF4BFFFFFFFFFFFF', 150), // 75 * 2
  fuelLevel: row(96, ['percent', 'ratio'], '18FEFC00#FF7DFFFFFFFFFFFF', 50), // 125 * 0.4
  waterInFuel: row(97, ['state', 'state'], '18FEFF00#FDFFFFFFFFFFFFFF', 1),
  actualTorque: row(513, ['percent', 'ratio'], '0CF00400#FFFF87FFFFFFFFFF', 10), // 135 - 125
  starterMode: row(1675, ['state', 'state'], '0CF00400#FFFFFFFFFFFFF2FF', 2),
  engineHours: row(247, ['h', 'hours'], '18FEE500#50C30000FFFFFFFF', 2500), // 50000 * 0.05
};

const CANONICAL: Readonly<Partial<Record<Dimension, UnitId>>> = {
  speed: 'rpm',
  pressure: 'kPa',
  voltage: 'V',
  temperature: 'degC',
  ratio: 'percent',
  state: 'state',
  hours: 'h',
};

const NAMES: Readonly<Partial<Record<SignalId, RegExp>>> = {
  supplyPressure: /delivery pressure/, // "fuel delivery (supply) pressure"
  boostPressure: /intake manifold 1 pressure/, // "intake manifold 1 (boost) pressure"
};

/** Words of our label in the name that the standard gives the parameter. */
const wordsIn = (id: SignalId): RegExp =>
  NAMES[id] ?? new RegExp(SIGNALS[id].label.toLowerCase().split(/[ -]/)[0]!, 'i');

describe.each(SIGNAL_IDS)('%s', (id) => {
  const { spn, unit, dimension, frame, canonical } = EXPECTED[id];
  const info = SIGNALS[id];

  test('is the parameter of j1939.md, in its unit', () => {
    expect([info.spn, info.unit, info.dimension]).toEqual([spn, unit, dimension]);
    expect(SPN_TABLE[info.parameter]?.spn).toBe(spn);
    expect(SPN_TABLE[info.parameter]?.unit).toBe(unit);
    expect(canonicalUnit(info.dimension)).toBe(CANONICAL[dimension]);
  });

  test('is called after the parameter', () => {
    expect(SPN_TABLE[info.parameter]?.name).toMatch(wordsIn(id));
  });

  test('has a label in sentence form and a short one no longer than it', () => {
    expect(info.label).toMatch(/^[A-Z]\S*( \S+)*$/);
    expect(info.shortLabel.length).toBeLessThanOrEqual(Math.min(13, info.label.length));
  });

  test('comes out of a frame in its canonical unit', () => {
    const readings = toReadings(decodeFrames(framesOf(`(2) can1 ${frame}`)));
    const at = [...readings.signal].indexOf(SIGNAL_IDS.indexOf(id));
    expect(readings.value[at]).toBeCloseTo(canonical, 9);
    expect([readings.quality[at], readings.atMs[at], readings.origin[at]]).toEqual([0, 2000, 256]);
  });

  test('is without a number, and not zero, where the frame has none', () => {
    const missing = toReadings(decodeFrames(framesOf(`(2) can0 ${frame.split('#')[0]}#FFFFFFFFFFFFFFFF`)));
    const at = [...missing.signal].indexOf(SIGNAL_IDS.indexOf(id));
    expect([missing.value[at], missing.quality[at]]).toEqual([NaN, 2]);
  });
});

test('labels are all different, long and short', () => {
  expect(new Set(SIGNAL_IDS.map((id) => SIGNALS[id].label)).size).toBe(SIGNAL_IDS.length);
  expect(new Set(SIGNAL_IDS.map((id) => SIGNALS[id].shortLabel)).size).toBe(SIGNAL_IDS.length);
});

test('decimals shown are none, or one for high pressures, volts and hours', () => {
  const one: readonly UnitId[] = ['MPa', 'V', 'h'];
  for (const id of SIGNAL_IDS) expect(SIGNALS[id].decimals).toBe(one.includes(SIGNALS[id].unit) ? 1 : 0);
});

test('a batch without rows gives no readings', () => {
  const none = toReadings(decodeFrames(framesOf('')));
  expect([none.count, none.value.length, none.signal.length]).toEqual([0, 0, 0]);
});
