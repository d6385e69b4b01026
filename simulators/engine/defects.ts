import type { EngineParameters } from './engine-parameters.ts';

/** What can be wrong with the engine or the bridge. Each acts on the parameters only, so that several can be combined. */
export const DEFECT_KINDS = [
  'clogged filter',
  'suction restriction',
  'air leak',
  'weak supply pump',
  'sticking metering valve',
  'cracked metering housing',
  'worn pump elements',
  'one element dead',
  'leaking outlet check valve',
  'leaking rail relief valve',
  'high injector return',
  'weak battery',
  'corroded starter cable',
  'high cranking drag',
  'noisy rail sensor',
  'stuck rail sensor',
  'dropped frames',
  'loose bridge cable',
] as const;
export type DefectKind = (typeof DEFECT_KINDS)[number];

/** One thing that is wrong. `severity` 0 is nothing, 1 the worst that still turns the engine. */
export interface Defect {
  readonly kind: DefectKind;
  readonly severity: number;
}

type Apply = (engine: EngineParameters, severity: number) => EngineParameters;

/** The worst of each is invented so that severity 1 is unmistakable in its check (no source). */
const APPLY: Readonly<Record<DefectKind, Apply>> = {
  // filters of one age: both sides
  'clogged filter': ({ suction, supply, ...engine }, severity) => ({
    ...engine,
    suction: { ...suction, filterPaS: suction.filterPaS * (1 + 12 * severity) },
    supply: { ...supply, filterPaS: supply.filterPaS * (1 + 30 * severity) },
  }),
  'suction restriction': ({ suction, ...engine }, severity) => ({
    ...engine,
    suction: { ...suction, linePaS: suction.linePaS * (1 + 150 * severity) },
  }),
  'air leak': ({ suction, ...engine }, severity) => ({
    ...engine,
    suction: { ...suction, airShare: 0.7 * severity },
  }),
  'weak supply pump': ({ supply, ...engine }, severity) => ({
    ...engine,
    supply: {
      ...supply,
      slipM3SPa: supply.slipM3SPa * (1 + 9 * severity),
      reliefPa: supply.reliefPa * (1 - 0.5 * severity),
    },
  }),
  'sticking metering valve': ({ metering, ...engine }, severity) => ({
    ...engine,
    metering: {
      ...metering,
      // Varnish takes most of the travel at once, and the rest slowly.
      mostOpen: metering.mostOpen * (1 - 0.85 * severity ** 0.2),
      stickBand: metering.stickBand + 0.03 * severity,
    },
  }),
  'cracked metering housing': ({ metering, ...engine }, severity) => ({
    ...engine,
    metering: { ...metering, crackM3SPa: metering.crackM3SPa + 4e-11 * severity },
  }),
  'worn pump elements': ({ pump, ...engine }, severity) => ({
    ...engine,
    pump: { ...pump, gap: { ...pump.gap, clearanceM: pump.gap.clearanceM * (1 + 2.5 * severity) } },
  }),
  'one element dead': ({ pump, ...engine }, severity) => ({
    ...engine,
    pump: { ...pump, elements: [pump.elements[0], pump.elements[1] * (1 - severity)] },
  }),
  'leaking outlet check valve': ({ pump, ...engine }, severity) => ({
    ...engine,
    pump: { ...pump, checkLeakM3SPa: pump.checkLeakM3SPa + 1.2e-13 * severity },
  }),
  'leaking rail relief valve': ({ rail, ...engine }, severity) => ({
    ...engine,
    rail: { ...rail, relief: { ...rail.relief, leakM3SPa: rail.relief.leakM3SPa + 1.2e-13 * severity } },
  }),
  'high injector return': ({ injectors, ...engine }, severity) => ({
    ...engine,
    injectors: {
      leakM3SPa: injectors.leakM3SPa * (1 + 14 * severity),
      controlM3: injectors.controlM3 * (1 + 3 * severity),
    },
  }),
  'weak battery': ({ battery, ...engine }, severity) => ({
    ...engine,
    battery: {
      ...battery,
      emfV: battery.emfV - 1.2 * severity,
      resistanceOhm: battery.resistanceOhm * (1 + 2 * severity),
    },
  }),
  'corroded starter cable': ({ starter, ...engine }, severity) => ({
    ...engine,
    starter: { ...starter, cableOhm: starter.cableOhm + 0.008 * severity },
  }),
  'high cranking drag': ({ crankshaft, ...engine }, severity) => ({
    ...engine,
    crankshaft: { ...crankshaft, frictionNm: crankshaft.frictionNm * (1 + 0.8 * severity) },
  }),
  'noisy rail sensor': ({ rail, ...engine }, severity) => ({
    ...engine,
    rail: { ...rail, sensorNoisePa: rail.sensorNoisePa + 8e6 * severity },
  }),
  'stuck rail sensor': ({ rail, ...engine }, severity) => ({
    ...engine,
    rail: {
      ...rail,
      sensorGain: rail.sensorGain * (1 - severity),
      sensorOffsetPa: rail.sensorOffsetPa * (1 - severity) + STUCK_AT_PA * severity,
    },
  }),
  'dropped frames': ({ bridge, ...engine }, severity) => ({
    ...engine,
    bridge: { ...bridge, framesLost: 1 - (1 - bridge.framesLost) * (1 - 0.4 * severity) },
  }),
  'loose bridge cable': ({ bridge, ...engine }, severity) => ({
    ...engine,
    bridge: { ...bridge, looseness: 1 - (1 - bridge.looseness) * (1 - severity) },
  }),
};

/** Where a stuck sensor stands, Pa: near cranking pressure. */
const STUCK_AT_PA = 28e6;

/** The parameters with all defects applied, in the order given. Severity is held between 0 and 1. */
export const applyDefects = (engine: EngineParameters, defects: readonly Defect[]): EngineParameters =>
  defects.reduce(
    (sofar, { kind, severity }) => APPLY[kind](sofar, Math.min(1, Math.max(0, severity))),
    engine,
  );
