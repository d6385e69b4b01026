import { chanceFrom, nextChance, uniform } from '../chance.ts';
import { RAD_S_PER_RPM } from './crankshaft.ts';
import type { EngineState } from './engine.ts';

/** What the engine's controller knows of the crankshaft, from the marks on it. */
export interface Controller {
  readonly timeS: number;
  readonly angleRad: number;
  /** Speed as reported: 0 until the controller has found its place, then the mean over the last firing interval. */
  readonly speedRpm: number;
  readonly lastEdgeS: number;
  readonly lastIntervalS: number;
  /** Angle at which it began to count turns; it has found its place `syncRad` later. */
  readonly turnedFromRad: number;
  readonly syncRad: number;
  readonly turning: boolean;
}

/**
 * The last value stands until no mark came for this many times the last interval, and no longer than a second or so.
 * Truck A's run-down (recordings): 53.5 rpm after an interval of 0.42 s stood for 1.02 s.
 */
const PATIENCE = 2.4;
const PATIENCE_S = 1.02;

/** A controller just awake. It finds its place 1.2 to 2 turns after turning begins; the seed decides where. */
export function wakingController(seed: number): Controller {
  const syncRad = 2 * Math.PI * (1.2 + 0.8 * uniform(nextChance(chanceFrom(seed))));
  return {
    timeS: 0,
    angleRad: 0,
    speedRpm: 0,
    lastEdgeS: 0,
    lastIntervalS: 0,
    turnedFromRad: 0,
    syncRad,
    turning: false,
  };
}

/**
 * One step behind the engine. Speed is renewed once a firing interval (720 / cylinders degrees), as in the recordings:
 * truck A holds 116 to 121 rpm for 0.16 to 0.2 s, which is 120 degrees of turning.
 */
export function stepController(state: Controller, engine: EngineState, dtSeconds: number): Controller {
  const angleRad = engine.crankshaft.travelRad;
  const segmentRad = (4 * Math.PI) / engine.parameters.crankshaft.cylinders;
  const timeS = state.timeS + dtSeconds;
  const edge = Math.floor(angleRad / segmentRad);
  if (edge === Math.floor(state.angleRad / segmentRad)) return waiting({ ...state, timeS, angleRad });
  const past = (angleRad - edge * segmentRad) / (angleRad - state.angleRad);
  const lastEdgeS = timeS - past * dtSeconds;
  if (!state.turning) return { ...state, timeS, angleRad, lastEdgeS, turning: true };
  const lastIntervalS = lastEdgeS - state.lastEdgeS;
  const placed = angleRad - state.turnedFromRad >= state.syncRad;
  const speedRpm = placed ? segmentRad / lastIntervalS / RAD_S_PER_RPM : 0;
  return { ...state, timeS, angleRad, lastEdgeS, lastIntervalS, speedRpm };
}

/** No mark in this step: after too long the engine counts as standing, and the place must be found again. */
function waiting(state: Controller): Controller {
  const patienceS =
    state.lastIntervalS === 0 ? PATIENCE_S : Math.min(PATIENCE_S, PATIENCE * state.lastIntervalS);
  if (state.timeS - state.lastEdgeS < patienceS) return state;
  return { ...state, speedRpm: 0, turning: false, lastIntervalS: 0, turnedFromRad: state.angleRad };
}
