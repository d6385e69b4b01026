import type { EngineParameters } from './engine-parameters.ts';
import type { Pedal } from './rig.ts';

/** Lower heating value of diesel fuel, J/kg (from memory, usual figure). */
const HEATING_J_KG = 42.8e6;

/** A running engine dies below this rail pressure (common practice, no source). */
const STARVES_PA = 8e6;

/** Combustion: whether the engine runs by itself, and the mean torque of it. */
export interface Firing {
  readonly running: boolean;
  readonly torqueNm: number;
  /** Angle at which the present cranking began. */
  readonly crankedFromRad: number;
}

export const NOT_FIRING: Firing = { running: false, torqueNm: 0, crankedFromRad: 0 };

/** What decides whether it fires, and how hard. */
export interface FiringInputs {
  readonly keyOn: boolean;
  readonly blocked: boolean; // no fuel reaches the cylinders
  readonly angleRad: number;
  readonly speedRadS: number;
  readonly railPa: number;
  readonly commandedPa: number;
  readonly pedal: Pedal;
  readonly holdNm: number; // friction at this speed, which the governor knows
}

/** Below this share of the commanded pressure the controller takes torque back. */
const DERATES_BELOW = 0.8;

/** Most torque: little at idle; with the pedal down all there is, less where the rail does not follow. */
function mostNm(firing: EngineParameters['firing'], { pedal, railPa, commandedPa }: FiringInputs): number {
  if (pedal === 'idle') return firing.mostNm;
  const share = commandedPa > 0 ? railPa / (DERATES_BELOW * commandedPa) : 1;
  return firing.fullNm * Math.min(1, share);
}

const governedRadS = (firing: EngineParameters['firing'], pedal: Pedal): number =>
  pedal === 'load' ? firing.loadRadS : pedal === 'high idle' ? firing.highIdleRadS : firing.idleRadS;

/**
 * One step: fires once it has been cranked far enough with pressure in the rail, then a governor holds the speed that is asked for.
 * Ends with the key, without fuel, or when it stalls.
 */
export function stepFiring(
  firing: EngineParameters['firing'],
  state: Firing,
  inputs: FiringInputs,
  dtSeconds: number,
): Firing {
  const { speedRadS } = inputs;
  const crankedFromRad = speedRadS === 0 ? inputs.angleRad : state.crankedFromRad;
  const turns = (inputs.angleRad - crankedFromRad) / (2 * Math.PI);
  const ready = firing.afterTurns !== null && turns >= firing.afterTurns && inputs.railPa >= firing.fromPa;
  const alight = state.running ? inputs.railPa >= STARVES_PA : ready;
  const running = inputs.keyOn && !inputs.blocked && speedRadS > 0 && alight;
  if (!running) return { running, torqueNm: 0, crankedFromRad };
  const wanted = inputs.holdNm + firing.governorNmS * (governedRadS(firing, inputs.pedal) - speedRadS);
  const aim = Math.min(mostNm(firing, inputs), Math.max(0, wanted));
  const torqueNm = state.torqueNm + (aim - state.torqueNm) * -Math.expm1(-dtSeconds / firing.lagS);
  return { running, torqueNm, crankedFromRad };
}

/** Fuel burnt, kg/s: power over efficiency and heating value. */
export const burntKgS = (firing: EngineParameters['firing'], torqueNm: number, speedRadS: number): number =>
  (torqueNm * speedRadS) / (firing.efficiency * HEATING_J_KG);
