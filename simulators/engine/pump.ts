import type { EngineParameters } from './engine-parameters.ts';
import { bulkModulusPa, gapLeakM3S } from './fluid.ts';

/** What sets the pump's delivery at one instant. */
export interface PumpInputs {
  readonly speedRadS: number;
  readonly supplyPa: number;
  readonly railPa: number;
  readonly viscosityPaS: number;
}

/** Volumes at ambient pressure, m3/s. drawn = delivered + gapLeak. */
export interface PumpFlows {
  readonly drawnM3S: number;
  readonly deliveredM3S: number;
  readonly gapLeakM3S: number;
}

/**
 * The high-pressure pump: displacement per turn, filled as well as the supply pressure fills it, less what the dead volume
 * swallows when squeezed, less what leaks past the plungers (Poiseuille). So delivery per turn rises with speed and
 * falls with wear, warmth and pressure.
 */
export function pumpFlows({ pump, rail }: EngineParameters, inputs: PumpInputs): PumpFlows {
  const { supplyPa, railPa } = inputs;
  const filled = supplyPa <= 0 ? 0 : supplyPa / (supplyPa + pump.halfFillPa);
  const squeezed = (pump.deadRatio * railPa) / bulkModulusPa(railPa, rail.stiffness);
  const strokes = (pump.displacementM3 * inputs.speedRadS) / (2 * Math.PI);
  const drawnM3S = strokes * Math.max(0, filled - squeezed);
  const leak = pump.gaps * gapLeakM3S(pump.gap, railPa, inputs.viscosityPaS);
  const gapLeak = Math.min(drawnM3S, leak);
  return { drawnM3S, deliveredM3S: drawnM3S - gapLeak, gapLeakM3S: gapLeak };
}

/** Supply pressure after a step: rises with speed up to its regulator, and falls slowly when the pump stands. */
export function stepSupplyPa(
  { supply }: EngineParameters,
  supplyPa: number,
  speedRadS: number,
  dtSeconds: number,
): number {
  const aim = Math.min(supply.regulatedPa, supply.paPerRadS * speedRadS);
  const lagS = aim > supplyPa ? supply.riseS : supply.fallS;
  return supplyPa + (aim - supplyPa) * -Math.expm1(-dtSeconds / lagS);
}
