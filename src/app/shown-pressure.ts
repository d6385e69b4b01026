import type { CheckSettings } from '../checks/check-settings.ts';
import { fromCanonical } from '../quantities/convert.ts';
import type { SignalId } from '../quantities/reading.ts';
import { SIGNALS } from '../signals/catalogue.ts';
import type { Settings } from './settings.ts';

export type PressureUnits = Pick<Settings, 'pressureUnit' | 'supplyUnit'>;
export type ShownPressureUnit = PressureUnits[keyof PressureUnits];

/** The signal that a check measures; null where it measures none. */
export function measuredSignal(settings: CheckSettings): SignalId | null {
  switch (settings.kind) {
    case 'steady pressure':
    case 'pressure build':
    case 'pressure decay':
      return settings.signal;
    case 'pressure deviation':
      return settings.actual;
    case 'collected volume':
    case 'crank delivery':
    case 'inspection':
      return null;
  }
}

const HIGH: readonly SignalId[] = [
  'railPressure',
  'commandedRailPressure',
  'rail2Pressure',
  'injectionControlPressure',
];

/** The unit in which this browser shows a pressure: rail pressures in one, all others in the other. */
export const pressureUnitOf = (
  signal: SignalId | null,
  { pressureUnit, supplyUnit }: PressureUnits,
): ShownPressureUnit => (signal !== null && HIGH.includes(signal) ? pressureUnit : supplyUnit);

/** What a check measures, in words. */
export function measuredLabel(settings: CheckSettings): string {
  switch (settings.kind) {
    case 'steady pressure':
      return settings.vacuum ? 'Suction restriction' : SIGNALS[settings.signal].label;
    case 'pressure build':
      return 'Time of the rise';
    case 'pressure decay':
      return 'Time of the fall';
    case 'pressure deviation':
      return 'Worst mean shortfall';
    case 'collected volume':
    case 'crank delivery':
      return 'Volume';
    case 'inspection':
      return '';
  }
}

/** How pressures of a check are shown: in which unit, by what to multiply kPa, and with how many decimals. */
export interface PressureScale {
  readonly unit: ShownPressureUnit;
  readonly digits: number;
  readonly of: (kPa: number) => number;
}

/** Decimals that show a few kPa of a low pressure, and a tenth of a MPa of a high one. */
const DIGITS: Readonly<Record<ShownPressureUnit, { readonly high: number; readonly low: number }>> = {
  kPa: { high: 0, low: 0 },
  bar: { high: 0, low: 2 },
  psi: { high: 0, low: 1 },
  MPa: { high: 1, low: 3 },
};

/** How the pressures of a check are shown in this browser. */
export function pressureScale(settings: CheckSettings, units: PressureUnits): PressureScale {
  const signal = measuredSignal(settings);
  const unit = pressureUnitOf(signal, units);
  const isHigh = signal !== null && HIGH.includes(signal);
  return {
    unit,
    digits: DIGITS[unit][isHigh ? 'high' : 'low'],
    of: (kPa) => fromCanonical(kPa, unit),
  };
}
