import type { EngineParameters } from './engine-parameters.ts';

/** What battery and starter do at one instant. */
export interface StarterInstant {
  readonly currentA: number;
  readonly torqueNm: number; // at the crankshaft, never backwards: the drive has an overrunning clutch
  readonly terminalV: number; // at the battery's posts
}

/** Copper: resistance of a cell path grows in the cold by about 1 % a degree (common practice, no source). */
const coldFactor = (temperatureC: number): number => Math.max(0.6, 1 + 0.01 * (20 - temperatureC));

/**
 * Battery, cable and a permanent-magnet starter in one loop: emf - I (Ri + Rcable + Rwinding) = k * speed, and
 * torque = k I. With the starter off only the controllers' load flows.
 */
export function starterAt(
  { battery, starter }: EngineParameters,
  starterOn: boolean,
  speedRadS: number,
  polarisationV: number,
): StarterInstant {
  const innerOhm = battery.resistanceOhm * coldFactor(battery.temperatureC);
  const emfV = battery.emfV - polarisationV - battery.idleLoadA * innerOhm;
  if (!starterOn) return { currentA: 0, torqueNm: 0, terminalV: emfV };
  const loopOhm = innerOhm + starter.cableOhm + starter.windingOhm;
  const driving = (emfV - starter.constantVS * speedRadS) / loopOhm;
  const currentA = Math.max(starter.noLoadA, driving);
  const torqueNm = starter.constantVS * starter.efficiency * Math.max(0, driving - starter.noLoadA);
  return { currentA, torqueNm, terminalV: emfV - currentA * innerOhm };
}

/** Polarisation voltage of the battery after a step: first order towards I * R. */
export const stepPolarisation = (
  { battery }: EngineParameters,
  polarisationV: number,
  currentA: number,
  dtSeconds: number,
): number =>
  polarisationV +
  (currentA * battery.polarisationOhm - polarisationV) * -Math.expm1(-dtSeconds / battery.polarisationS);
