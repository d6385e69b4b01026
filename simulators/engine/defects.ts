import type { EngineParameters } from './engine-parameters.ts';

/** What can be wrong with the engine. Each acts on the parameters only, so that several can be combined. */
export const DEFECT_KINDS = [
  'worn pump elements',
  'leaking outlet check valve',
  'weak supply pump',
  'weak battery',
  'corroded starter cable',
  'high cranking drag',
] as const;
export type DefectKind = (typeof DEFECT_KINDS)[number];

/** One thing that is wrong. `severity` 0 is nothing, 1 the worst that still turns the engine. */
export interface Defect {
  readonly kind: DefectKind;
  readonly severity: number;
}

/** The worst of each is invented so that severity 1 is unmistakable in its check (no source). */
const APPLY: Readonly<Record<DefectKind, (engine: EngineParameters, severity: number) => EngineParameters>> =
  {
    'worn pump elements': ({ pump, ...engine }, severity) => ({
      ...engine,
      pump: { ...pump, gap: { ...pump.gap, clearanceM: pump.gap.clearanceM * (1 + 2.5 * severity) } },
    }),
    'leaking outlet check valve': ({ rail, ...engine }, severity) => ({
      ...engine,
      rail: { ...rail, leakM3SPa: rail.leakM3SPa + 1.2e-13 * severity },
    }),
    'weak supply pump': ({ supply, ...engine }, severity) => ({
      ...engine,
      supply: {
        ...supply,
        paPerRadS: supply.paPerRadS * (1 - 0.95 * severity),
        regulatedPa: supply.regulatedPa * (1 - 0.9 * severity),
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
  };

/** The parameters with all defects applied, in the order given. Severity is held between 0 and 1. */
export const applyDefects = (engine: EngineParameters, defects: readonly Defect[]): EngineParameters =>
  defects.reduce(
    (sofar, { kind, severity }) => APPLY[kind](sofar, Math.min(1, Math.max(0, severity))),
    engine,
  );
