import type { Problem } from '../problems/problem.ts';

/** Raised whenever a change can move a verdict; stored with each graded run and printed on each report. */
export const GRADING_REVISION = 2;

/** Where the value lies on the chart or window, taken at face value. */
export type Zone = 'pass' | 'marginal' | 'fail low' | 'fail high';

export type VerdictWord = Zone | 'too close to call' | 'not valid';

/** The boundary that the value is nearest to. `marginMl` is positive when the value lies above it. */
export interface NearestBoundary {
  readonly name: 'failBelow' | 'passAbove' | 'failAbove' | 'min' | 'max';
  readonly atValue: number;
  /** value minus boundary, in the unit of the value (mL for volumes). */
  readonly distance: number;
  /** 100 * distance / boundary. NaN where the boundary is 0. */
  readonly distancePercent: number;
}

export interface Verdict {
  readonly word: VerdictWord;
  /** The zone of the value at face value; null when not valid. When too close to call this is the leaning. */
  readonly leaning: Zone | null;
  /** Probability of `leaning`, 0 to 1 (JCGM 106); null when not valid, and where a person's eye decided (inspection): it has none. */
  readonly confidence: number | null;
  readonly probabilities: Readonly<Record<Zone, number>> | null;
  readonly nearest: NearestBoundary | null;
  /** Why there is no verdict, or what warns about it. Each a problem with its remedy. */
  readonly reasons: readonly Problem[];
  readonly warnings: readonly Problem[];
  readonly gradingRevision: number;
}
