import { problem, type Problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Vessel, VolumeMeasurement } from './measurement.ts';

/** What was read off the vessel. */
export interface VolumeEntry {
  readonly vessel: Vessel;
  /** One reading for each filling of the vessel, mL; more than one when it was emptied and filled again. */
  readonly readingsMl: readonly number[];
  /**
   * How much more or less than at the start may be left in the drain line at the end, mL either way. 0 for a line that was full before and
   * after. The value is not shifted by it.
   */
  readonly lineResidueMl?: number;
  /** Standard uncertainty of one of the readings, mL, where it was taken off a photograph: it takes the place of half a graduation. */
  readonly photoUncertaintyMl?: number;
}

/** Rectangular distribution of this half-width (GUM 4.3.7): divide by this. */
const RECTANGULAR = Math.sqrt(3);

/**
 * The collected volume with its standard uncertainty: tolerance of the marks (rectangular), half a graduation for each reading
 * (rectangular, GUM 4.3.7), what stays in the line (rectangular), added in quadrature.
 * Several fillings of one vessel: their readings err independently, but its marks are wrong by the same amount each time, so the
 * tolerances add up straight, not in quadrature (fully correlated, GUM 5.2.2 note 1).
 * A photograph shows one filling: its own uncertainty stands in for half a graduation of that one reading; the tolerance of the marks stays.
 * Readings below zero, beyond the vessel, no number or none at all give a problem, as does a vessel that cannot be right.
 */
export function measureVolume({
  vessel,
  readingsMl,
  lineResidueMl = 0,
  photoUncertaintyMl,
}: VolumeEntry): Result<VolumeMeasurement> {
  const wrong =
    unfitVessel(vessel) ??
    wrongReading(vessel, readingsMl) ??
    wrongResidue(lineResidueMl) ??
    wrongPhoto(photoUncertaintyMl);
  if (wrong) return failed(wrong);
  const valueMl = readingsMl.reduce((sum, reading) => sum + reading, 0);
  const { kind, halfWidth } = vessel.tolerance;
  const toleranceMl = (kind === 'mL' ? halfWidth * readingsMl.length : halfWidth * valueMl) / RECTANGULAR;
  const byEye = readingsMl.length - (photoUncertaintyMl === undefined ? 0 : 1);
  const readingMl = (Math.sqrt(byEye) * vessel.graduationMl) / 2 / RECTANGULAR;
  const lineMl = lineResidueMl / RECTANGULAR;
  return ok({
    valueMl,
    standardUncertaintyMl: Math.hypot(toleranceMl, readingMl, lineMl, photoUncertaintyMl ?? 0),
    vessel,
    parts: {
      readingsMl,
      toleranceMl,
      readingMl,
      lineMl,
      ...(photoUncertaintyMl === undefined ? {} : { photoMl: photoUncertaintyMl }),
    },
  });
}

/** What is wrong with a vessel that a person described; null when it can be used. */
export function unfitVessel({ name, capacityMl, graduationMl, tolerance }: Vessel): Problem | null {
  const positive = [capacityMl, graduationMl].every((size) => Number.isFinite(size) && size > 0);
  const tolerable = Number.isFinite(tolerance.halfWidth) && tolerance.halfWidth >= 0;
  const known = positive && tolerable && graduationMl <= capacityMl;
  return known ? null : problem('check.vessel-unfit', { vessel: name });
}

function wrongReading(vessel: Vessel, readingsMl: readonly number[]): Problem | null {
  if (readingsMl.length === 0) return problem('check.no-volume');
  for (const reading of readingsMl) {
    if (!Number.isFinite(reading)) return problem('check.volume-not-a-number');
    const context = { reading, vessel: vessel.name, capacity: vessel.capacityMl };
    if (reading < 0) return problem('check.volume-negative', context);
    if (reading > vessel.capacityMl) return problem('check.volume-beyond-vessel', context);
  }
  return null;
}

const wrongResidue = (residueMl: number): Problem | null =>
  Number.isFinite(residueMl) && residueMl >= 0 ? null : problem('check.line-residue', { residue: residueMl });

const wrongPhoto = (uncertaintyMl: number | undefined): Problem | null =>
  uncertaintyMl === undefined || (Number.isFinite(uncertaintyMl) && uncertaintyMl >= 0)
    ? null
    : problem('photo.no-uncertainty');
