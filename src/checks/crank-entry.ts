import type { Crank, SpeedAverage } from '../crank/crank.ts';
import type { TimedSpan } from './measurement.ts';

/** Edges that a person set instead of the found ones, ms. */
export interface SetEdges {
  readonly startMs: number;
  readonly endMs: number;
  readonly reason: string;
}

/** One found crank with what was computed over its edges (the set ones where there are any), and the person's choice. */
export interface CrankEntry {
  readonly crank: Crank;
  readonly average: SpeedAverage;
  /** Its crank time with the doubt of both edges and of a late first report. */
  readonly time: TimedSpan;
  readonly setEdges?: SetEdges | null;
  /** Why it does not count; null or absent when it does. */
  readonly leftOut?: { readonly reason: string } | null;
}
