import { compressionRatio, pressureAtRatioPa, type Stiffness } from './fluid.ts';

/** A closed volume full of fuel. */
export interface RailVolume {
  readonly volumeM3: number;
  readonly stiffness: Stiffness;
  /** Density of the fuel at ambient pressure. */
  readonly densityKgM3: number;
}

/** Gauge pressure of a mass of fuel in the volume, Pa. */
export const railPressurePa = (rail: RailVolume, massKg: number): number =>
  pressureAtRatioPa(massKg / (rail.volumeM3 * rail.densityKgM3), rail.stiffness);

/** Mass of fuel in the volume at a gauge pressure, kg. */
export const railMassKg = (rail: RailVolume, pressurePa: number): number =>
  rail.volumeM3 * rail.densityKgM3 * compressionRatio(pressurePa, rail.stiffness);

/**
 * The pressure at which the flows of a whole step are to be taken: explicit midpoint rule. Add net inflow at this pressure
 * times `dtSeconds` to the mass, and the step is of second order and gains or loses nothing.
 */
export function midpointPressurePa(
  rail: RailVolume,
  massKg: number,
  netInflowKgS: (pressurePa: number) => number,
  dtSeconds: number,
): number {
  const now = netInflowKgS(railPressurePa(rail, massKg));
  return railPressurePa(rail, massKg + 0.5 * now * dtSeconds);
}
