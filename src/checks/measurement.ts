import type { Crank, SpeedAverage } from '../crank/crank.ts';
import type { LimitCondition } from '../limits/limit-sheet.ts';
import type { ProblemCode } from '../problems/catalogue.ts';
import type { Problem } from '../problems/problem.ts';

/** A vessel and what its marks are worth. */
export interface Vessel {
  readonly id: string;
  readonly name: string;
  readonly capacityMl: number;
  readonly graduationMl: number;
  /** Half-width of the tolerance of the marks: mL, or a fraction of the reading for beakers. */
  readonly tolerance: { readonly kind: 'mL' | 'fraction'; readonly halfWidth: number };
  /** A beaker's marks are approximate: a verdict on them is warned of. */
  readonly measures: boolean;
}

/** A volume as read, with what is not known about it. */
export interface VolumeMeasurement {
  readonly valueMl: number;
  readonly standardUncertaintyMl: number;
  readonly vessel: Vessel;
  /** Where the uncertainty comes from; absent for volumes that came without it. */
  readonly parts?: VolumeParts;
}

/** Standard uncertainties of a volume by their cause, mL, and the readings that were added up. */
export interface VolumeParts {
  readonly readingsMl: readonly number[];
  readonly toleranceMl: number;
  readonly readingMl: number;
  /** Of the reading off a photograph, which stands in for half a graduation; absent without one. */
  readonly photoMl?: number;
  readonly lineMl: number;
}

/** A span of time with its standard uncertainty, both in ms. */
export interface TimedSpan {
  readonly spanMs: number;
  readonly standardUncertaintyMs: number;
}

/** A person's word that a reason may stand as a warning, by the code of the reason. */
export interface Override {
  readonly code: ProblemCode;
  readonly reason: string;
}

/** What the conditions of a limit were during the run, in canonical units; null or absent where not known. */
export type ConditionValues = Partial<Record<LimitCondition['signal'], number | null>>;

/** One crank with its average, and whether the person lets it count. */
export interface CountedCrank {
  readonly crank: Crank;
  /** The edges used: as found, or as set by the person (then with a reason). */
  readonly startMs: number;
  readonly endMs: number;
  readonly average: SpeedAverage;
  /** Its crank time and the doubt in it; absent in runs kept without it, then the edges give the time. */
  readonly time?: TimedSpan;
  readonly counts: boolean;
  readonly reason: string | null;
}

/** What a crank delivery measured, ready for grading. */
export interface CrankDelivery {
  readonly cranks: readonly CountedCrank[];
  readonly crankSeconds: number;
  readonly crankSecondsUncertainty: number;
  readonly targetSeconds: number;
  readonly average: SpeedAverage | null; // over the cranks that count
  readonly volume: VolumeMeasurement | null;
  /** Volume scaled to the target time; only where the time is outside its tolerance. An estimate. */
  readonly volumeAtTargetMl: number | null;
  /** What makes it not valid, and what only warns. */
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** A volume collected over a time (e.g. a return volume), ready for grading against a window. */
export interface CollectedVolume {
  readonly volume: VolumeMeasurement | null;
  readonly seconds: number | null;
  readonly secondsUncertainty: number;
  /** Null where the limit states no time. */
  readonly targetSeconds: number | null;
  /** Volume scaled to the target time; only where the time is outside its tolerance. An estimate. */
  readonly volumeAtTargetMl: number | null;
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}
