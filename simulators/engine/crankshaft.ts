import type { EngineParameters } from './engine-parameters.ts';

/** Radians a second in one revolution a minute. */
export const RAD_S_PER_RPM = Math.PI / 30;

/** The crankshaft. It may swing back a little when it comes to rest. */
export interface Crankshaft {
  readonly angleRad: number; // since the start of the simulation
  readonly travelRad: number; // both ways: a speed sensor does not see the sense of turning
  readonly speedRadS: number; // below 0 backwards
  /** How much of a compression the rings hold, 0 to 1: it outlasts the motion a little. */
  readonly held: number;
}

export const AT_REST: Crankshaft = { angleRad: 0, travelRad: 0, speedRadS: 0, held: 0 };

type Shaft = EngineParameters['crankshaft'];

/** What of the dry friction is left at standstill, and the speed at which most of the rest has come (common practice, no source). */
const LEFT_AT_REST = 0.4;
const COMES_RAD_S = 3;

/** Friction, Nm: dry and viscous, 1.2 % more for each degree the oil is colder (common practice, no source). */
export function frictionNm(shaft: Shaft, speedRadS: number): number {
  const thickness = Math.max(0.7, 1 + 0.012 * (20 - shaft.oilTemperatureC));
  const share = LEFT_AT_REST + ((1 - LEFT_AT_REST) * speedRadS) / (speedRadS + COMES_RAD_S);
  return thickness * (shaft.frictionNm * share + shaft.viscousNmS * speedRadS);
}

/**
 * Torque that the compressions take (positive slows), Nm, at a crank angle: cylinders / 2 humps a turn, since a
 * four-stroke cylinder compresses every other turn.
 */
export function compressionNm(shaft: Shaft, { angleRad, held }: Crankshaft): number {
  const hump = (shaft.cylinders / 2) * angleRad;
  return held * shaft.compressionNm * (Math.sin(hump) + 0.35 * Math.sin(2 * hump));
}

/** Softer compressions at low speed, when the rings have time to leak; after a stop they leak away. */
function stepHeld(shaft: Shaft, { held, speedRadS }: Crankshaft, dtSeconds: number): number {
  const speed = Math.abs(speedRadS);
  const aim = speed / (speed + shaft.leakDownRadS);
  return aim >= held ? aim : held + ((aim - held) * dtSeconds) / shaft.leakDownS;
}

/**
 * One step under a driving torque. Friction stops it, whichever way it turns; at rest it stays until drive and compressions beat dry
 * friction, so it may be thrown back by the compression that it did not get over.
 */
export function stepCrankshaft(
  shaft: Shaft,
  crank: Crankshaft,
  drivingNm: number,
  dtSeconds: number,
): Crankshaft {
  const { speedRadS: before } = crank;
  const freeNm = drivingNm - compressionNm(shaft, crank);
  const resistNm = frictionNm(shaft, Math.abs(before)) + crank.held * shaft.compressionLossNm;
  const sense = before === 0 ? Math.sign(freeNm) : Math.sign(before);
  const netNm = before === 0 && Math.abs(freeNm) <= resistNm ? 0 : freeNm - sense * resistNm;
  const after = before + (netNm / shaft.inertiaKgM2) * dtSeconds;
  const speedRadS = before * after < 0 ? 0 : after;
  const turned = speedRadS * dtSeconds; // the new speed: keeps the ripple from growing or dying
  return {
    angleRad: crank.angleRad + turned,
    travelRad: crank.travelRad + Math.abs(turned),
    speedRadS,
    held: stepHeld(shaft, crank, dtSeconds),
  };
}
