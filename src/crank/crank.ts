import type { Millis } from '../quantities/time.ts';

/** An instant found between two samples, with its standard uncertainty (their interval / sqrt 12). */
export interface Edge {
  readonly atMs: Millis;
  readonly standardUncertaintyMs: number;
}

/** How a crank ended. `cut`: the data ended while the starter was still turning, so its time is a lower bound. */
export type CrankEnd = 'released' | 'engine started' | 'data lost' | 'cut';

/** What marked the start: the speed itself, or an earlier and truer sign (battery fall, starter signal). */
export type StartSign = 'speed' | 'battery' | 'starter';

/** One stretch in which the starter turned the engine, as found in the data. */
export interface Crank {
  /** Where speed rose through the start level. Speed is known from here on. */
  readonly start: Edge;
  readonly end: Edge;
  readonly endedBy: CrankEnd;
  /** The data began when the engine was already being cranked: its time is a lower bound. */
  readonly cutAtStart: boolean;
  /** When the starter began to turn; equals `start` unless a truer sign was found. Crank time counts from here. */
  readonly starterOn: Edge;
  readonly startSign: StartSign;
}

/** What the crank finder is doing now. `noData`: nothing usable for longer than the stale limit. */
export type CrankPhase = 'noData' | 'rest' | 'cranking' | 'running' | 'runningDown';

/** Levels and spans of measurement.md section 2; settings of a procedure, stored with the run. */
export interface CrankSettings {
  readonly startRpm: number; // 50
  readonly endRpm: number; // 30
  readonly runningRpm: number; // 400
  readonly holdMs: number; // 200: crossing must hold for two samples or this, whichever is longer
  readonly runningHoldMs: number; // 500
  readonly restMs: number; // 500: zero (or missing) that long after running ends the run-down
  readonly staleIntervals: number; // 3
  readonly staleFloorMs: number; // 1000
  readonly lateReportMs: number; // 600: rectangular doubt of the unseen beginning
}

export const DEFAULT_CRANK_SETTINGS: CrankSettings = {
  startRpm: 50,
  endRpm: 30,
  runningRpm: 400,
  holdMs: 200,
  runningHoldMs: 500,
  restMs: 500,
  staleIntervals: 3,
  staleFloorMs: 1000,
  lateReportMs: 600,
};

/** Speed over one stretch of time; formed by average-speed. */
export interface SpeedAverage {
  /** Time-weighted mean: trapezoids between samples, edges interpolated. NaN where there is no sample. */
  readonly meanRpm: number;
  /** Plain mean of the samples within the edges, as a spreadsheet gives it. */
  readonly sampleMeanRpm: number;
  readonly minRpm: number;
  readonly maxRpm: number;
  readonly samples: number;
  /** Samples left out as single spikes. */
  readonly spikes: number;
  /** Fraction 0 to 1 of the stretch that samples cover; of an interval longer than 1.5 usual ones only one counts (coverage.ts). */
  readonly coverage: number;
  /** Standard uncertainty of meanRpm: spread with its autocorrelation, and resolution. */
  readonly standardUncertaintyRpm: number;
  readonly effectiveSamples: number;
  /** Integral of speed over the stretch, rpm * ms, for joining several cranks. */
  readonly integralRpmMs: number;
  readonly durationMs: number;
}
