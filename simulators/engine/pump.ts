import type { EngineParameters } from './engine-parameters.ts';
import { bulkModulusPa, gapLeakM3S, thinnedDropPa } from './fluid.ts';

/** What sets the delivery of the high-pressure pump in one step. */
export interface PumpInputs {
  readonly fromRad: number; // crank angle at the beginning of the step
  readonly toRad: number;
  readonly galleryPa: number;
  readonly air: number;
  readonly opening: number; // of the metering valve, 0 to 1
  readonly railPa: number;
  readonly viscosityPaS: number;
  readonly dtSeconds: number;
}

/** Volumes at ambient pressure, m3 in the step. drawn = delivered + gapLeak. */
export interface PumpVolumes {
  readonly drawnM3: number;
  readonly deliveredM3: number;
  readonly gapLeakM3: number;
}

const TURN = 2 * Math.PI;
const NO_VOLUMES: PumpVolumes = { drawnM3: 0, deliveredM3: 0, gapLeakM3: 0 };

/**
 * How far an element is filled before its stroke, 0 to 1: as well as the gallery pressure fills it, and no more than the metering valve lets
 * through; less the air, and less what the dead volume swallows when squeezed to rail pressure.
 */
export function fillRatio({ pump, metering, rail }: EngineParameters, inputs: PumpInputs): number {
  const { galleryPa, opening, railPa } = inputs;
  if (galleryPa <= 0 || opening <= 0) return 0;
  const strokes = (pump.displacementM3 * (inputs.toRad - inputs.fromRad)) / (TURN * inputs.dtSeconds);
  const inletM3S = opening * metering.fullM3SRootPa * Math.sqrt(galleryPa);
  const filled = galleryPa / (galleryPa + pump.halfFillPa);
  const asked = (strokes * filled) / inletM3S; // beside what the valve lets through: above 1 the valve decides
  const through = filled / Math.sqrt(Math.sqrt(1 + asked * asked * asked * asked));
  const squeezed = (pump.deadRatio * railPa) / bulkModulusPa(railPa, rail.stiffness);
  const solid = 1 - inputs.air; // squared: air in the element is squeezed before anything is delivered
  return Math.max(0, through * solid * solid - squeezed);
}

/**
 * Share of strokes that an element has pushed out since the start, at a cam angle: it rises sinusoidally, and a part-filled
 * element delivers in the last part of its rise only. Exact for a step of any length.
 */
export function pushedStrokes(camRad: number, fill: number): number {
  const whole = Math.floor(camRad / TURN);
  const within = camRad - whole * TURN;
  const risen = within >= Math.PI ? 1 : 0.5 * (1 - Math.cos(within));
  return fill * whole + Math.max(0, risen - (1 - fill));
}

/** Cam angle, rad, under pressure since the start: from where a part-filled element begins to deliver to the top of its stroke. */
export function pressedRad(camRad: number, beginsRad: number): number {
  const whole = Math.floor(camRad / TURN);
  const within = Math.min(camRad - whole * TURN, Math.PI);
  return whole * (Math.PI - beginsRad) + Math.max(0, within - beginsRad);
}

/** What the two elements, half a stroke apart, do in a step. A plunger leaks past its gap while it delivers (Poiseuille). */
export function pumpVolumes(parameters: EngineParameters, inputs: PumpInputs): PumpVolumes {
  const { pump } = parameters;
  const turnedRad = (inputs.toRad - inputs.fromRad) * pump.strokesPerTurn;
  const fill = turnedRad > 0 ? fillRatio(parameters, inputs) : 0;
  if (fill === 0) return NO_VOLUMES;
  const beginsRad = Math.acos(2 * fill - 1);
  const strokeM3 = pump.displacementM3 / (2 * pump.strokesPerTurn);
  const leakM3S = gapLeakM3S(pump.gap, thinnedDropPa(inputs.railPa), inputs.viscosityPaS);
  const leakM3Rad = (leakM3S * inputs.dtSeconds) / turnedRad;
  let drawnM3 = 0;
  let gapLeakM3 = 0;
  for (let element = 0; element < 2; element += 1) {
    const from = inputs.fromRad * pump.strokesPerTurn + element * Math.PI;
    const working = pump.elements[element as 0 | 1];
    const pushed = (pushedStrokes(from + turnedRad, fill) - pushedStrokes(from, fill)) * strokeM3 * working;
    const pressed = pressedRad(from + turnedRad, beginsRad) - pressedRad(from, beginsRad);
    drawnM3 += pushed;
    gapLeakM3 += Math.min(pushed, leakM3Rad * pressed);
  }
  return { drawnM3, deliveredM3: drawnM3 - gapLeakM3, gapLeakM3 };
}
