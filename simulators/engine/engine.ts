import { AT_REST, frictionNm, stepCrankshaft, type Crankshaft } from './crankshaft.ts';
import type { EngineParameters } from './engine-parameters.ts';
import { burntKgS, NOT_FIRING, stepFiring, type Firing } from './firing.ts';
import {
  changeLine,
  opened,
  pourOut,
  prime,
  restingFuelPath,
  stepFuelPath,
  type FuelPath,
} from './fuel-path.ts';
import { RESTING_CONTROL, stepRailControl, type RailControl } from './rail-control.ts';
import { DELIVERY_TEST_RIG, type EngineInputs, type Pedal, type Rig } from './rig.ts';
import { starterAt, stepPolarisation } from './starter.ts';

/** Above this the alternator carries the load and charges (common practice, no source). */
const CHARGING_RAD_S = 52;
const CHARGING_V = 13.9;
/** A load comes on in about so long, and goes as soon as the foot is off, s. */
const LOAD_LAG_S = 1.5;
const UNLOAD_LAG_S = 0.15;
/** Coolant of a running engine moves towards its thermostat (common practice, no source). */
const THERMOSTAT_C = 85;
const WARM_UP_S = 600;

/** Everything that changes in the engine. SI units. Replaced, never changed in place. */
export interface EngineState {
  readonly parameters: EngineParameters;
  readonly rig: Rig;
  readonly crankshaft: Crankshaft;
  readonly firing: Firing;
  readonly control: RailControl;
  readonly loadNm: number;
  readonly coolantC: number;
  readonly runSeconds: number;
  readonly polarisationV: number;
  readonly batteryV: number;
  readonly starterA: number;
  readonly fuel: FuelPath;
}

/** The engine at rest; where nothing is said, set up for the crank delivery test. */
export function restingEngine(parameters: EngineParameters, rig: Rig = DELIVERY_TEST_RIG): EngineState {
  return {
    parameters,
    rig,
    crankshaft: AT_REST,
    firing: NOT_FIRING,
    control: RESTING_CONTROL,
    loadNm: 0,
    coolantC: parameters.coolantTemperatureC,
    runSeconds: 0,
    polarisationV: 0,
    batteryV: starterAt(parameters, false, 0, 0).terminalV,
    starterA: 0,
    fuel: restingFuelPath(parameters),
  };
}

function fire(state: EngineState, inputs: EngineInputs, pedal: Pedal, dtSeconds: number): Firing {
  const { parameters, crankshaft: crank, rig, fuel, control } = state;
  const { angleRad, speedRadS } = crank;
  const shaft = parameters.crankshaft;
  const firingInputs = {
    keyOn: inputs.keyOn,
    blocked: rig.injectionBlocked || rig.portsBlocked,
    angleRad,
    speedRadS,
    railPa: fuel.railPa,
    commandedPa: control.commandedPa,
    pedal,
    holdNm: frictionNm(shaft, speedRadS) + shaft.compressionLossNm + state.loadNm,
  };
  return stepFiring(parameters.firing, state.firing, firingInputs, dtSeconds);
}

function controlRail(
  state: EngineState,
  inputs: EngineInputs,
  firing: Firing,
  dtSeconds: number,
): RailControl {
  const { parameters, crankshaft: crank, rig, fuel, control } = state;
  const { sensorGain, sensorOffsetPa } = parameters.rail;
  const controlInputs = {
    keyOn: inputs.keyOn,
    running: firing.running,
    turns: (crank.angleRad - firing.crankedFromRad) / (2 * Math.PI),
    pedal: inputs.pedal ?? 'idle',
    raiseRail: inputs.raiseRail ?? false,
    sensedPa: sensorOffsetPa + sensorGain * fuel.railPa,
    unplugged: rig.testValve,
  };
  return stepRailControl(parameters, control, controlInputs, dtSeconds);
}

/** One step; meant for 1 ms, stable to about 5 ms (the test valve is the stiffest part). */
export function stepEngine(state: EngineState, inputs: EngineInputs, dtSeconds: number): EngineState {
  const { parameters, crankshaft: crank, rig, fuel } = state;
  const pedal = inputs.pedal ?? 'idle';
  const starterOn = inputs.keyOn && inputs.starterOn;
  const starter = starterAt(parameters, starterOn, crank.speedRadS, state.polarisationV);
  const firing = fire(state, inputs, pedal, dtSeconds);
  const { running } = firing;
  const driving = starter.torqueNm + firing.torqueNm - state.loadNm;
  const crankshaft = stepCrankshaft(parameters.crankshaft, crank, driving, dtSeconds);
  const speedRadS = 0.5 * (crank.speedRadS + crankshaft.speedRadS);
  const control = controlRail(state, inputs, firing, dtSeconds);
  const fuelDrive = {
    fromRad: crank.angleRad,
    toRad: crankshaft.angleRad,
    speedRadS,
    burntKgS: burntKgS(parameters.firing, firing.torqueNm, speedRadS),
    running,
    opening: control.opening,
    rig,
  };
  const charging = running && crank.speedRadS > CHARGING_RAD_S;
  const loadAim = running && pedal === 'load' ? parameters.firing.loadNm : 0;
  const loadLagS = loadAim > state.loadNm ? LOAD_LAG_S : UNLOAD_LAG_S;
  return {
    parameters,
    rig,
    crankshaft,
    firing,
    control,
    loadNm: running ? state.loadNm + ((loadAim - state.loadNm) * dtSeconds) / loadLagS : 0,
    coolantC: running
      ? state.coolantC + ((THERMOSTAT_C - state.coolantC) * dtSeconds) / WARM_UP_S
      : state.coolantC,
    runSeconds: running ? state.runSeconds + dtSeconds : state.runSeconds,
    polarisationV: stepPolarisation(parameters, state.polarisationV, starter.currentA, dtSeconds),
    batteryV: charging ? Math.max(CHARGING_V, starter.terminalV) : starter.terminalV,
    starterA: starter.currentA,
    fuel: stepFuelPath(parameters, fuel, fuelDrive, dtSeconds),
  };
}

/** Somebody pours the vessel out and puts it back. */
export const emptyVessel = (state: EngineState): EngineState => ({ ...state, fuel: pourOut(state.fuel) });

/** Somebody works the hand primer. */
export const primeEngine = (state: EngineState): EngineState => ({
  ...state,
  fuel: prime(state.parameters, state.fuel),
});

/** A part was changed: other constants from now on; where the fuel path was opened, air is in it. */
export const refitted = (
  state: EngineState,
  parameters: EngineParameters,
  openedPath: boolean,
): EngineState => ({
  ...state,
  parameters,
  fuel: openedPath ? opened(parameters, state.fuel) : state.fuel,
});

/** The technician changes what is fitted, capped or led into the vessel. */
export function rigged(state: EngineState, change: Partial<Rig>): EngineState {
  const rig = { ...state.rig, ...change };
  const moved = rig.intoVessel !== state.rig.intoVessel;
  return { ...state, rig, fuel: moved ? changeLine(state.parameters, state.fuel) : state.fuel };
}
