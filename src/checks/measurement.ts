import type { Crank, SpeedAverage } from '../crank/crank.ts';
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
}

/** One crank with its average, and whether the person lets it count. */
export interface CountedCrank {
  readonly crank: Crank;
  /** The edges used: as found, or as set by the person (then with a reason). */
  readonly startMs: number;
  readonly endMs: number;
  readonly average: SpeedAverage;
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
