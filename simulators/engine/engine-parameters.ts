import { DIESEL_STIFFNESS, type Gap, type Stiffness } from './fluid.ts';

/**
 * What one engine is made of: constants of a run, SI units, temperatures in degC.
 * The sizes are invented for a six-cylinder engine of 11 to 15 litres (common practice, no source).
 */
export interface EngineParameters {
  readonly battery: {
    readonly emfV: number;
    readonly resistanceOhm: number; // at 20 degC
    readonly polarisationOhm: number; // settles in polarisationS
    readonly polarisationS: number;
    readonly temperatureC: number;
    readonly idleLoadA: number; // controllers, lamps
  };
  readonly starter: {
    readonly cableOhm: number;
    readonly windingOhm: number;
    readonly constantVS: number; // volts per rad/s of the crankshaft, and newton metres there per ampere
    readonly efficiency: number;
    readonly noLoadA: number;
  };
  readonly crankshaft: {
    readonly cylinders: number;
    readonly inertiaKgM2: number;
    readonly frictionNm: number; // at 20 degC of oil
    readonly viscousNmS: number;
    readonly compressionNm: number; // amplitude of the ripple
    readonly leakDownRadS: number; // slower than this the rings leak most of a compression away
    readonly compressionLossNm: number;
    readonly oilTemperatureC: number;
  };
  readonly firing: {
    /** Turns of cranking after which the engine fires; null: injection is blocked, it never fires. */
    readonly afterTurns: number | null;
    readonly fromPa: number; // no injection below this rail pressure
    readonly idleRadS: number;
    readonly mostNm: number;
    readonly governorNmS: number;
    readonly lagS: number;
    readonly efficiency: number;
  };
  readonly supply: {
    readonly paPerRadS: number;
    readonly regulatedPa: number;
    readonly riseS: number;
    readonly fallS: number;
  };
  readonly pump: {
    readonly displacementM3: number; // per turn of the crankshaft
    readonly halfFillPa: number; // supply pressure at which the elements fill by half
    readonly deadRatio: number; // dead volume over displacement: squeezed and given back
    readonly gap: Gap;
    readonly gaps: number; // plungers under pressure at one time
  };
  readonly rail: {
    readonly volumeM3: number;
    readonly stiffness: Stiffness;
    readonly leakM3SPa: number; // through closed outlet checks and seals
  };
  /** The calibrated relief valve fitted for the test. */
  readonly relief: { readonly crackingPa: number; readonly slopeM3SPa: number };
  readonly drain: { readonly lagS: number; readonly clingM3: number };
  readonly fuelTemperatureC: number;
  readonly pumpHeatCapacityJK: number;
  readonly pumpCoolingWK: number;
  readonly coolantTemperatureC: number;
  readonly vesselCapacityM3: number;
}

/** A sound engine at 20 degC with its injection blocked, rail ports capped and the test valve fitted. */
export const SOUND_ENGINE: EngineParameters = {
  battery: {
    emfV: 12.6,
    resistanceOhm: 0.0026,
    polarisationOhm: 0.0004,
    polarisationS: 3,
    temperatureC: 20,
    idleLoadA: 12,
  },
  starter: { cableOhm: 0.001, windingOhm: 0.0042, constantVS: 0.4, efficiency: 0.9, noLoadA: 90 },
  crankshaft: {
    cylinders: 6,
    inertiaKgM2: 3.5,
    frictionNm: 135,
    viscousNmS: 1.5,
    compressionNm: 260,
    leakDownRadS: 6,
    compressionLossNm: 35,
    oilTemperatureC: 20,
  },
  firing: {
    afterTurns: null,
    fromPa: 15e6,
    idleRadS: 73.3,
    mostNm: 620,
    governorNmS: 20,
    lagS: 0.1,
    efficiency: 0.38,
  },
  supply: { paPerRadS: 10_000, regulatedPa: 780_000, riseS: 1.2, fallS: 6 },
  pump: {
    displacementM3: 4.35e-6,
    halfFillPa: 25_000,
    deadRatio: 0.8,
    gap: { diameterM: 0.008, clearanceM: 2.5e-6, lengthM: 0.01 },
    gaps: 2,
  },
  rail: { volumeM3: 1e-4, stiffness: DIESEL_STIFFNESS, leakM3SPa: 2.5e-15 },
  relief: { crackingPa: 80e6, slopeM3SPa: 6e-12 },
  drain: { lagS: 0.5, clingM3: 3e-6 },
  fuelTemperatureC: 20,
  pumpHeatCapacityJK: 8000,
  pumpCoolingWK: 6,
  coolantTemperatureC: 20,
  vesselCapacityM3: 5e-4,
};
