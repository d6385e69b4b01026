import type { Millis } from './time.ts';

/**
 * The physical quantities that Meniscus knows, in the order of their index in the columns of a ReadingBatch.
 * Only ever append: the index is written into no file, but tests and colours follow this order.
 */
export const SIGNAL_IDS = [
  'engineSpeed', // rpm
  'railPressure', // kPa
  'commandedRailPressure', // kPa
  'rail2Pressure', // kPa
  'injectionControlPressure', // kPa, measured (SPN 164), not the commanded rail pressure
  'supplyPressure', // kPa
  'filterDifferentialPressure', // kPa
  'suctionFilterDifferentialPressure', // kPa
  'oilPressure', // kPa
  'batteryVoltage', // V
  'keySwitchVoltage', // V
  'coolantTemperature', // degC
  'fuelTemperature', // degC
  'oilTemperature', // degC
  'boostPressure', // kPa
  'fuelLevel', // %
  'waterInFuel', // state 0 no, 1 yes
  'actualTorque', // %
  'starterMode', // state 0 to 15
  'engineHours', // h
] as const;

export type SignalId = (typeof SIGNAL_IDS)[number];

/** Why there is, or is not, a number. `error` and `notAvailable` are what a standard marks as such. */
export const QUALITIES = ['valid', 'error', 'notAvailable'] as const;
export type Quality = (typeof QUALITIES)[number];

/**
 * Where a value came from: `channel * 256 + J1939 source address`. NO_ORIGIN for sources without addresses
 * (speed logs, typed numbers).
 */
export const NO_ORIGIN = -1;

/** One value of one signal at one instant, in the canonical unit of its signal. `value` is null unless valid. */
export interface Reading {
  readonly signal: SignalId;
  readonly atMs: Millis;
  readonly value: number | null;
  readonly quality: Quality;
  readonly origin: number;
}
