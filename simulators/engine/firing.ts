import type { EngineParameters } from './engine-parameters.ts';

/** Lower heating value of diesel fuel, J/kg (from memory, usual figure). */
const HEATING_J_KG = 42.8e6;

/** Combustion: whether the engine runs by itself, and the mean torque of it. */
export interface Firing {
  readonly running: boolean;
  readonly torqueNm: number;
  /** Angle at which the present cranking began. */
  readonly crankedFromRad: number;
}

export const NOT_FIRING: Firing = { running: false, torqueNm: 0, crankedFromRad: 0 };

/** What decides whether it fires. */
export interface FiringInputs {
  readonly keyOn: boolean;
  readonly angleRad: number;
  readonly speedRadS: number;
  readonly railPa: number;
}

/**
 * One step: fires once it has been cranked far enough with pressure in the rail, then a governor holds idle speed.
 * Ends with the key, or when it stalls.
 */
export function stepFiring(
  firing: EngineParameters['firing'],
  state: Firing,
  inputs: FiringInputs,
  dtSeconds: number,
): Firing {
  const crankedFromRad = inputs.speedRadS === 0 ? inputs.angleRad : state.crankedFromRad;
  const turns = (inputs.angleRad - crankedFromRad) / (2 * Math.PI);
  const ready = firing.afterTurns !== null && turns >= firing.afterTurns && inputs.railPa >= firing.fromPa;
  const running = inputs.keyOn && inputs.speedRadS > 0 && (state.running || ready);
  if (!running) return { running, torqueNm: 0, crankedFromRad };
  const base = 0.46 * firing.mostNm; // carries the friction at idle
  const wanted = base + firing.governorNmS * (firing.idleRadS - inputs.speedRadS);
  const aim = Math.min(firing.mostNm, Math.max(0, wanted));
  const torqueNm = state.torqueNm + (aim - state.torqueNm) * -Math.expm1(-dtSeconds / firing.lagS);
  return { running, torqueNm, crankedFromRad };
}

/** Fuel burnt, kg/s: power over efficiency and heating value. */
export const burntKgS = (firing: EngineParameters['firing'], torqueNm: number, speedRadS: number): number =>
  (torqueNm * speedRadS) / (firing.efficiency * HEATING_J_KG);
