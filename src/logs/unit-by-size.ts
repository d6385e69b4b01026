import type { SignalId } from '../quantities/reading.ts';
import type { UnitId } from '../quantities/unit.ts';
import { toCanonical } from '../quantities/convert.ts';
import type { ColumnProfile } from './column-profile.ts';
import { normalHeader } from './header-words.ts';

/** The unit that the size of the values tells. */
export interface UnitGuess {
  readonly unit: UnitId | null;
  /** Whether the stated unit, or any unit, makes the values ones of this signal. */
  readonly plausible: boolean;
}

/** Highest value that a signal reaches, in canonical units; common practice, no source. */
const HIGHEST: Readonly<Partial<Record<SignalId, number>>> = {
  engineSpeed: 8031.875,
  railPressure: 300_000,
  commandedRailPressure: 300_000,
  supplyPressure: 1600,
  batteryVoltage: 60,
  fuelTemperature: 150,
};
/** Beyond these sizes, as written, only one unit is left. Sizes in psi, bar, kPa and MPa overlap below them. */
const ONLY_UNIT: Readonly<Partial<Record<SignalId, (highest: number) => UnitId | null>>> = {
  engineSpeed: (highest) => (highest === 0 || (highest >= 40 && highest < 70_000) ? 'rpm' : null),
  railPressure: (highest) => (highest > 45_000 ? 'kPa' : null),
  commandedRailPressure: (highest) => (highest > 45_000 ? 'kPa' : null),
  supplyPressure: (highest) => (highest > 260 && highest < 2000 ? 'kPa' : null),
  batteryVoltage: (highest) =>
    highest > 4 && highest <= 60 ? 'V' : highest >= 4000 && highest <= 60_000 ? 'mV' : null,
};

/**
 * The unit of a column that states none, by the size of its values; null where more than one fits: psi, bar and MPa of rail
 * pressure during a crank cannot be told apart, and a wrong guess would be wrong by a factor of 7 to 145.
 */
export function guessUnit(signal: SignalId, { unit, unitText, highest, name }: ColumnProfile): UnitGuess {
  const limit = HIGHEST[signal] ?? Infinity;
  if (unit !== null) return { unit, plausible: toCanonical(highest, unit) <= limit };
  if (unitText !== null && isPressure(signal)) return { unit: null, plausible: true }; // stated, and none that we know
  const only = ONLY_UNIT[signal]?.(highest) ?? null;
  if (signal === 'engineSpeed' && /\brpm\b/.test(normalHeader(name))) return { unit: 'rpm', plausible: true };
  return { unit: only, plausible: only === null || toCanonical(highest, only) <= limit };
}

const isPressure = (signal: SignalId): boolean => /pressure$/i.test(signal);
const ABSOLUTE = /\b(?:psi ?a|bar ?a|[km]?pa ?a|abs|absolute?|absolut[ao]?)\b/;

/** Whether a column of a pressure says that its zero is vacuum ("psia", "bar abs", "kPa(a)"): its values are no gauge pressure. */
export const isAbsolutePressure = (
  signal: SignalId,
  { header, unitText }: Pick<ColumnProfile, 'header' | 'unitText'>,
): boolean => isPressure(signal) && ABSOLUTE.test(normalHeader(`${header} ${unitText ?? ''}`));
