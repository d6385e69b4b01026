import { stepController, wakingController, type Controller } from '../../simulators/engine/controller.ts';
import { RAD_S_PER_RPM } from '../../simulators/engine/crankshaft.ts';
import type { EngineParameters } from '../../simulators/engine/engine-parameters.ts';
import { restingEngine, stepEngine, type EngineState } from '../../simulators/engine/engine.ts';
import { DELIVERY_TEST_RIG, type Rig } from '../../simulators/engine/rig.ts';
import { densityKgM3 } from '../../simulators/engine/fluid.ts';

export const DT_SECONDS = 0.002;

/** Set up for the crank delivery test, but nobody blocked the injection. */
export const LEFT_OPEN: Rig = { ...DELIVERY_TEST_RIG, portsBlocked: false, injectionBlocked: false };

/** One instant of a run. Time counts from the starter's first turn. */
export interface Instant {
  readonly seconds: number;
  readonly engine: EngineState;
  readonly controller: Controller;
}

/** Cranks for `crankSeconds`, then lets go, with the key on throughout; every step is kept. */
export function crankOnce(
  parameters: EngineParameters,
  crankSeconds: number,
  afterSeconds = 3,
  seed = 1,
): Instant[] {
  const fires = parameters.firing.afterTurns !== null;
  let engine = restingEngine(parameters, fires ? LEFT_OPEN : DELIVERY_TEST_RIG);
  let controller = wakingController(seed);
  const instants: Instant[] = [];
  const steps = Math.round((crankSeconds + afterSeconds) / DT_SECONDS);
  for (let step = 0; step < steps; step += 1) {
    const starterOn = step * DT_SECONDS < crankSeconds;
    engine = stepEngine(engine, { keyOn: true, starterOn }, DT_SECONDS);
    controller = stepController(controller, engine, DT_SECONDS);
    instants.push({ seconds: (step + 1) * DT_SECONDS, engine, controller });
  }
  return instants;
}

export const rpmOf = (engine: EngineState): number => engine.crankshaft.speedRadS / RAD_S_PER_RPM;

export const collectedMl = ({ fuel }: EngineState): number =>
  (fuel.mass.vessel / densityKgM3(fuel.temperatureC)) * 1e6;

/** Instants between two times, s. */
export const between = (instants: readonly Instant[], from: number, to: number): Instant[] =>
  instants.filter(({ seconds }) => seconds >= from && seconds <= to);

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
