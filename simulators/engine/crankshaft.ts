import type { EngineParameters } from './engine-parameters.ts';

/** Radians a second in one revolution a minute. */
export const RAD_S_PER_RPM = Math.PI / 30;

/** The crankshaft: how far it has turned since the start of the simulation, and how fast. Never backwards. */
export interface Crankshaft {
  readonly angleRad: number;
  readonly speedRadS: number;
}

type Shaft = EngineParameters['crankshaft'];

/** Friction, Nm: dry and viscous, 1.2 % more for each degree the oil is colder (common practice, no source). */
export function frictionNm(shaft: Shaft, speedRadS: number): number {
  const thickness = Math.max(0.7, 1 + 0.012 * (20 - shaft.oilTemperatureC));
  return thickness * (shaft.frictionNm + shaft.viscousNmS * speedRadS);
}

/**
 * Torque that the compressions take (positive slows), Nm, at a crank angle: cylinders / 2 humps a turn, since a
 * four-stroke cylinder compresses every other turn; softer when the rings have time to leak.
 */
export function compressionNm(shaft: Shaft, { angleRad, speedRadS }: Crankshaft): number {
  const hump = (shaft.cylinders / 2) * angleRad;
  const held = speedRadS / (speedRadS + shaft.leakDownRadS);
  return (
    held * (shaft.compressionNm * (Math.sin(hump) + 0.35 * Math.sin(2 * hump)) + shaft.compressionLossNm)
  );
}

/** One step under a driving torque; at rest it stays there until the torque beats dry friction. */
export function stepCrankshaft(
  shaft: Shaft,
  crank: Crankshaft,
  drivingNm: number,
  dtSeconds: number,
): Crankshaft {
  const netNm = drivingNm - frictionNm(shaft, crank.speedRadS) - compressionNm(shaft, crank);
  const speedRadS = Math.max(0, crank.speedRadS + (netNm / shaft.inertiaKgM2) * dtSeconds);
  return { angleRad: crank.angleRad + speedRadS * dtSeconds, speedRadS };
}
