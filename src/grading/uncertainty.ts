import type { VolumeMeasurement, VolumeParts } from '../checks/measurement.ts';
import type { ValueCause } from '../checks/value-measurement.ts';
import type { Tracing } from '../limits/limit-sheet.ts';

/** What a part of the uncertainty comes from. `volume` stands for one that was given without its parts. */
export type UncertaintyCause =
  | 'tolerance'
  | 'reading'
  | 'photo'
  | 'line'
  | 'volume'
  | 'time'
  | 'speed'
  | 'value'
  | 'tracing'
  | 'tracingSpeed'
  | ValueCause;

/** One part of an uncertainty, already in the unit of the value (sensitivity times standard uncertainty of the input). */
export interface UncertaintyPart {
  readonly cause: UncertaintyCause;
  readonly contribution: number;
}

/** Parts and their sum in quadrature, in the unit of the value. */
export interface UncertaintyBudget {
  readonly parts: readonly UncertaintyPart[];
  readonly combined: number;
}

/** First-order combination of independent inputs: root of the sum of squares (GUM 5.1.2). */
export const combine = (parts: readonly UncertaintyPart[]): UncertaintyBudget => ({
  parts,
  combined: Math.hypot(...parts.map(({ contribution }) => contribution)),
});

/** A time with its standard uncertainty, s. */
export interface TimeDoubt {
  readonly seconds: number;
  readonly standardUncertainty: number;
}

/**
 * Parts of a volume, mL. `scale` is what the volume was multiplied by (target time over measured time; 1 where it stands as read), so its own
 * parts are multiplied too. The volume grows with time at V/T, so the doubt in time enters as V/T times u(T), whether scaled or not:
 * the derivative of V·T0/T with respect to T has that same size, for the scaled V.
 */
export function volumeParts(
  volume: VolumeMeasurement,
  scale: number,
  time: TimeDoubt | null,
): readonly UncertaintyPart[] {
  const { parts, standardUncertaintyMl, valueMl } = volume;
  const own: readonly UncertaintyPart[] = parts
    ? [
        { cause: 'tolerance', contribution: scale * parts.toleranceMl },
        ...readingParts(parts, scale),
        { cause: 'line', contribution: scale * parts.lineMl },
      ]
    : [{ cause: 'volume', contribution: scale * standardUncertaintyMl }];
  if (!time || time.seconds <= 0) return own;
  const rate = (scale * valueMl) / time.seconds;
  return [...own, { cause: 'time', contribution: rate * time.standardUncertainty }];
}

/** By eye, off a photograph, or both where one filling of several was photographed. */
function readingParts({ readingMl, photoMl }: VolumeParts, scale: number): readonly UncertaintyPart[] {
  const eye: UncertaintyPart = { cause: 'reading', contribution: scale * readingMl };
  if (photoMl === undefined) return [eye];
  return [{ cause: 'photo', contribution: scale * photoMl }, ...(readingMl > 0 ? [eye] : [])];
}

/** The part of a doubtful speed: the boundary moves by its slope for each rpm that the speed is off. */
export const speedPart = (slopePerRpm: number, standardUncertaintyRpm: number): UncertaintyPart => ({
  cause: 'speed',
  contribution: Math.abs(slopePerRpm) * standardUncertaintyRpm,
});

/**
 * The parts of a curve that was traced off a picture, mL: it may lie off in volume, and in speed by its slope for each rpm (GUM 5.1.2). None for a
 * curve whose points were given as numbers.
 */
export function tracingParts(
  tracing: Tracing | undefined,
  slopeMlPerRpm: number,
): readonly UncertaintyPart[] {
  if (!tracing) return [];
  const { uVolumeMl, uSpeedRpm } = tracing;
  const across: readonly UncertaintyPart[] =
    uSpeedRpm === undefined
      ? []
      : [{ cause: 'tracingSpeed', contribution: Math.abs(slopeMlPerRpm) * uSpeedRpm }];
  return [{ cause: 'tracing', contribution: uVolumeMl }, ...across];
}
