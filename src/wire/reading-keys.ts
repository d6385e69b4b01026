import { canonicalUnit, dimensionOf, toCanonical } from '../quantities/convert.ts';
import { parseUnit } from '../quantities/parse-unit.ts';
import { SIGNAL_IDS, type SignalId } from '../quantities/reading.ts';
import type { Dimension, UnitId } from '../quantities/unit.ts';

/** What a key or a column of a reading line means: a signal in a unit, or the time in a unit. */
export type KeyMeaning =
  | { readonly kind: 'value'; readonly signal: SignalId; readonly unit: UnitId }
  | { readonly kind: 'time'; readonly unit: 'us' | 'ms' | 's' };

/** What each signal measures. */
export const SIGNAL_DIMENSIONS: Readonly<Record<SignalId, Dimension>> = {
  engineSpeed: 'speed',
  railPressure: 'pressure',
  commandedRailPressure: 'pressure',
  rail2Pressure: 'pressure',
  injectionControlPressure: 'pressure',
  supplyPressure: 'pressure',
  filterDifferentialPressure: 'pressure',
  suctionFilterDifferentialPressure: 'pressure',
  oilPressure: 'pressure',
  batteryVoltage: 'voltage',
  keySwitchVoltage: 'voltage',
  coolantTemperature: 'temperature',
  fuelTemperature: 'temperature',
  oilTemperature: 'temperature',
  boostPressure: 'pressure',
  fuelLevel: 'ratio',
  waterInFuel: 'state',
  actualTorque: 'ratio',
  starterMode: 'state',
  engineHours: 'hours',
};

/** Plain words for the signals that sketches send most. */
const ALIASES: Readonly<Record<string, SignalId>> = {
  rpm: 'engineSpeed',
  speed: 'engineSpeed',
  enginerpm: 'engineSpeed',
  crankspeed: 'engineSpeed',
  rail: 'railPressure',
  supply: 'supplyPressure',
  battery: 'batteryVoltage',
  batt: 'batteryVoltage',
  vbat: 'batteryVoltage',
  coolant: 'coolantTemperature',
  boost: 'boostPressure',
  hours: 'engineHours',
};

const SIGNAL_NAMES: ReadonlyMap<string, SignalId> = new Map([
  ...SIGNAL_IDS.map((signal): [string, SignalId] => [signal.toLowerCase(), signal]),
  ...Object.entries(ALIASES),
]);
const TIME_NAMES: ReadonlyMap<string, 'us' | 'ms'> = new Map([
  ['t', 'ms'],
  ['millis', 'ms'],
  ['micros', 'us'],
]);
const TIME_UNITS: ReadonlyMap<string, 'us' | 'ms' | 's'> = new Map([
  ['us', 'us'],
  ['ms', 'ms'],
  ['s', 's'],
]);

/** Longer keys are nobody's. */
const LONGEST_KEY = 64;
const WITH_BRACKETS = /^([^([{<]+)[([{<]([^)\]}>]*)[)\]}>]$/;
const WITH_LAST_WORD = /^(.+)[_ .:/-]([^_ .:/-]+)$/;

/**
 * The meaning of a key, whatever its case: a signal id or a plain word for one, alone (then in the canonical unit of the signal) or
 * with a unit: `railPressure_bar`, `rail_pressure[MPa]`, `railPressure (psi)`. `t` in ms, `t_us`, `t_s`. Null for everything else,
 * also for a unit that does not fit the signal or is not known (an absolute pressure).
 */
export function meaningOf(key: string): KeyMeaning | null {
  if (key.length > LONGEST_KEY) return null;
  const text = key.trim().replaceAll('Â°', '°'); // the degree sign in UTF-8, read byte by byte
  const alone = withoutUnit(text);
  if (alone) return alone;
  const parts = WITH_BRACKETS.exec(text) ?? WITH_LAST_WORD.exec(text);
  if (!parts) return null;
  const name = withoutUnit(parts[1]!);
  return name && withUnit(name, parts[2]!.trim());
}

function withoutUnit(name: string): KeyMeaning | null {
  const bare = name.toLowerCase().replace(/[\s_.-]/g, '');
  const timeUnit = TIME_NAMES.get(bare);
  if (timeUnit) return { kind: 'time', unit: timeUnit };
  const signal = SIGNAL_NAMES.get(bare);
  return signal ? { kind: 'value', signal, unit: canonicalUnit(SIGNAL_DIMENSIONS[signal]) } : null;
}

function withUnit(meaning: KeyMeaning, text: string): KeyMeaning | null {
  if (meaning.kind === 'time') {
    const unit = TIME_UNITS.get(text.toLowerCase());
    return unit ? { kind: 'time', unit } : null;
  }
  const unit = parseUnit(text);
  const fits = unit !== null && dimensionOf(unit) === SIGNAL_DIMENSIONS[meaning.signal];
  return fits ? { ...meaning, unit } : null;
}

/** Least and greatest value, in the canonical unit, that a sensor could mean. Common practice, no source: wide on purpose. */
const BOUNDS: Readonly<Record<Dimension, readonly [least: number, greatest: number]>> = {
  speed: [-20_000, 20_000],
  pressure: [-1_000_000, 1_000_000],
  voltage: [-1_000, 1_000],
  temperature: [-273.15, 3_000],
  volume: [-1e6, 1e6],
  span: [-1e15, 1e15],
  ratio: [-1_000, 1_000],
  hours: [0, 1e7],
  state: [0, 255],
};

/** The number in the canonical unit of its signal; NaN where it is none, or far outside what can be. */
export function physicalValue(value: number, { signal, unit }: KeyMeaning & { kind: 'value' }): number {
  const canonical = toCanonical(value, unit);
  const [least, greatest] = BOUNDS[SIGNAL_DIMENSIONS[signal]];
  return canonical >= least && canonical <= greatest ? canonical : NaN;
}

/** The stamp in ms; NaN where it is none, or longer than any clock has run. */
export function physicalStampMs(value: number, unit: 'us' | 'ms' | 's'): number {
  const ms = unit === 'us' ? value / 1000 : toCanonical(value, unit);
  return Math.abs(ms) <= BOUNDS.span[1] ? ms : NaN;
}

/** Where a 32-bit counter of this unit starts again, ms; seconds are taken for a counter of ms divided by 1000. */
export const counterPeriodMs = (unit: 'us' | 'ms' | 's'): number =>
  unit === 'us' ? 2 ** 32 / 1000 : 2 ** 32;
