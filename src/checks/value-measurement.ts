import type { Problem } from '../problems/problem.ts';
import type { LimitQuantity } from '../limits/printed-unit.ts';

/** A stretch of the data, ms on the source's clock. */
export interface Stretch {
  readonly startMs: number;
  readonly endMs: number;
}

/** A stretch that a person chose instead of the found one. */
export interface ChosenStretch extends Stretch {
  readonly reason: string;
}

/** A number that belongs to a measurement, to be shown beside it, in the unit given. */
export interface MeasuredFact {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

/** What a part of the uncertainty of a measured value comes from. */
export type ValueCause =
  | 'spread' // of the values within the stretch, with their autocorrelation
  | 'resolution' // one step of the signal
  | 'instrument' // tolerance of an instrument that was read by hand
  | 'instrumentStep' // half a step of its scale
  | 'startEdge'
  | 'endEdge'
  | 'lateReport'; // the starter may have turned before speed was reported

/** One value with its uncertainty and where it comes from, ready to be held against a window. */
export interface ValueMeasurement {
  readonly quantity: LimitQuantity;
  /** In `LIMIT_UNIT[quantity]` (kPa, ms, mL, mL/min); null while there is none. */
  readonly value: number | null;
  /** The value is only known to be at least this: the data ended, or the starter was released, before the end of what is measured. */
  readonly atLeast: boolean;
  readonly standardUncertainty: number;
  /** What the uncertainty is made of, each as a standard uncertainty in the unit of the value. */
  readonly parts: readonly { readonly cause: ValueCause; readonly standardUncertainty: number }[];
  /** One step of the signal or of the instrument, in the unit of the value, for repeats; 0 where there is none. */
  readonly step: number;
  /** Where in the data it was found; null for a typed value. */
  readonly stretch: Stretch | null;
  readonly typed: boolean;
  readonly facts: readonly MeasuredFact[];
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** A value typed by hand from an instrument, in the canonical unit, with the half-width of what the instrument is worth. */
export interface TypedValue {
  readonly value: number;
  /** Half-width of the instrument's tolerance, same unit as the value (rectangular). */
  readonly tolerance: number;
  /** Half a step of its scale or display, same unit (rectangular). */
  readonly halfStep: number;
}
