import { stepCrankshaft, type Crankshaft } from './crankshaft.ts';
import type { EngineParameters } from './engine-parameters.ts';
import { burntKgS, NOT_FIRING, stepFiring, type Firing } from './firing.ts';
import { pourOut, restingFuelPath, stepFuelPath, type FuelPath } from './fuel-path.ts';
import { starterAt, stepPolarisation } from './starter.ts';

/** Above this the alternator carries the load and charges (common practice, no source). */
const CHARGING_RAD_S = 52;
const CHARGING_V = 13.9;

/** What the person in the cab does. */
export interface EngineInputs {
  readonly keyOn: boolean;
  readonly starterOn: boolean; // has effect with the key on only
}

/** Everything that changes in the engine. SI units. Replaced, never changed in place. */
export interface EngineState {
  readonly parameters: EngineParameters;
  readonly crankshaft: Crankshaft;
  readonly firing: Firing;
  readonly polarisationV: number;
  readonly batteryV: number;
  readonly starterA: number;
  readonly fuel: FuelPath;
}

/** The engine at rest. */
export function restingEngine(parameters: EngineParameters): EngineState {
  return {
    parameters,
    crankshaft: { angleRad: 0, speedRadS: 0 },
    firing: NOT_FIRING,
    polarisationV: 0,
    batteryV: starterAt(parameters, false, 0, 0).terminalV,
    starterA: 0,
    fuel: restingFuelPath(parameters),
  };
}

/** One step; meant for 1 ms, stable to about 5 ms (the relief valve is the stiffest part). */
export function stepEngine(state: EngineState, inputs: EngineInputs, dtSeconds: number): EngineState {
  const { parameters, crankshaft: crank, fuel } = state;
  const starter = starterAt(
    parameters,
    inputs.keyOn && inputs.starterOn,
    crank.speedRadS,
    state.polarisationV,
  );
  const firing = stepFiring(
    parameters.firing,
    state.firing,
    { keyOn: inputs.keyOn, angleRad: crank.angleRad, speedRadS: crank.speedRadS, railPa: fuel.railPa },
    dtSeconds,
  );
  const crankshaft = stepCrankshaft(
    parameters.crankshaft,
    crank,
    starter.torqueNm + firing.torqueNm,
    dtSeconds,
  );
  const speedRadS = 0.5 * (crank.speedRadS + crankshaft.speedRadS);
  const burnt = burntKgS(parameters.firing, firing.torqueNm, speedRadS);
  const charging = firing.running && crank.speedRadS > CHARGING_RAD_S;
  return {
    parameters,
    crankshaft,
    firing,
    polarisationV: stepPolarisation(parameters, state.polarisationV, starter.currentA, dtSeconds),
    batteryV: charging ? Math.max(CHARGING_V, starter.terminalV) : starter.terminalV,
    starterA: starter.currentA,
    fuel: stepFuelPath(parameters, fuel, { speedRadS, burntKgS: burnt }, dtSeconds),
  };
}

/** Somebody pours the vessel out and puts it back. */
export const emptyVessel = (state: EngineState): EngineState => ({ ...state, fuel: pourOut(state.fuel) });
