import type { SignalId } from '../quantities/reading.ts';

/** What the zero of a pressure reading is: the atmosphere, empty space, or the other side of a filter. */
export type PressureReference = 'gauge' | 'absolute' | 'differential';

/** Standard atmosphere, kPa (ISO 2533): what an absolute reading is taken from where the barometer was not read. */
export const STANDARD_ATMOSPHERE_KPA = 101.325;

/**
 * A pressure below the atmosphere as a restriction, kPa, positive. Gauge: the reading with its sign turned (−20 kPa is a restriction of 20). Absolute: the
 * atmosphere less the reading. Differential: the reading itself, which already grows with the restriction; no barometer is in it.
 */
export function restrictionKPa(
  readingKPa: number,
  reference: PressureReference,
  atmosphereKPa = STANDARD_ATMOSPHERE_KPA,
): number {
  switch (reference) {
    case 'gauge':
      return 0 - readingKPa;
    case 'absolute':
      return atmosphereKPa - readingKPa;
    case 'differential':
      return readingKPa;
  }
}

/**
 * What the readings of a signal are taken from. SPN 95 and 1382 are differential pressures; all the others that may be chosen are gauge (SPN 94 among
 * them). No absolute fuel pressure is among the signals: such an instrument is typed.
 */
export const referenceOf = (signal: SignalId): PressureReference =>
  signal === 'filterDifferentialPressure' || signal === 'suctionFilterDifferentialPressure'
    ? 'differential'
    : 'gauge';
