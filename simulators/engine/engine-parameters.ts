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
    readonly leakDownS: number; // in about so long
    readonly compressionLossNm: number;
    readonly oilTemperatureC: number;
  };
  readonly firing: {
    /** Turns of cranking after which the engine fires; null: it never does, whatever is done. */
    readonly afterTurns: number | null;
    readonly fromPa: number; // no injection below this rail pressure
    readonly idleRadS: number;
    readonly highIdleRadS: number;
    readonly loadRadS: number;
    readonly loadNm: number; // what a loaded pull takes at the flywheel
    readonly mostNm: number; // at idle
    readonly fullNm: number; // with the pedal down and the rail pressure as commanded
    readonly governorNmS: number;
    readonly lagS: number;
    readonly efficiency: number;
  };
  readonly tank: {
    readonly volumeM3: number;
    readonly filledShare: number; // at the start
    readonly pickUpShare: number; // below this the pick-up draws air
  };
  /** From the tank to the inlet of the supply pump. Resistances in Pa per m3/s for fuel of 20 degC. */
  readonly suction: {
    readonly linePaS: number;
    readonly filterPaS: number;
    readonly airShare: number; // of what the pump moves, where the suction side leaks
  };
  readonly supply: {
    readonly displacementM3: number; // per turn of the crankshaft
    readonly slipM3SPa: number; // back through its clearances, at 20 degC
    readonly reliefPa: number;
    readonly reliefM3SPa: number;
    readonly backLeakM3SPa: number; // past its outlet check while it stands
    readonly filterPaS: number; // pressure filter
    readonly complianceM3Pa: number; // how much more the gallery holds for each pascal: hoses and a little air
    readonly airVolumeM3: number; // of the low-pressure side: so much fuel sweeps the air out
  };
  readonly metering: {
    readonly fullM3SRootPa: number; // flow of the open valve over the root of the gallery pressure
    readonly mostOpen: number; // 0 to 1
    readonly stickBand: number; // the slide does not move for less
    readonly lagS: number;
    readonly crackM3SPa: number; // from the housing to the pump's return
  };
  readonly pump: {
    readonly displacementM3: number; // per turn of the crankshaft, both elements
    readonly elements: readonly [number, number]; // 1 works, 0 delivers nothing
    readonly strokesPerTurn: number; // of each element
    readonly halfFillPa: number; // supply pressure at which the elements fill by half
    readonly deadRatio: number; // dead volume over displacement: squeezed and given back
    readonly gap: Gap; // of each plunger, under pressure during its stroke
    readonly lubricationM3SPa: number; // from the gallery through the housing to the return
    readonly checkLeakM3SPa: number; // from the rail back past the outlet checks to the return
  };
  readonly rail: {
    readonly volumeM3: number;
    readonly stiffness: Stiffness;
    readonly relief: {
      readonly crackingPa: number;
      readonly slopeM3SPa: number;
      readonly leakM3SPa: number; // while it should be shut
    };
    readonly sensorGain: number;
    readonly sensorOffsetPa: number;
    readonly sensorNoisePa: number;
  };
  readonly injectors: {
    readonly leakM3SPa: number; // static, all together, at 20 degC
    readonly controlM3: number; // to the return for each turn of a running engine
  };
  /** The calibrated relief valve fitted for the test. */
  readonly relief: { readonly crackingPa: number; readonly slopeM3SPa: number };
  /** How a bridge and its bus treat the frames, 0 to 1. */
  readonly bridge: { readonly framesLost: number; readonly looseness: number };
  readonly drain: { readonly lagS: number; readonly clingM3: number };
  readonly fuelTemperatureC: number;
  readonly pumpHeatCapacityJK: number;
  readonly pumpCoolingWK: number;
  readonly coolantTemperatureC: number;
  readonly vesselCapacityM3: number;
  readonly hours: number; // run before
}

/** A sound engine at 20 degC. */
export const SOUND_ENGINE: EngineParameters = {
  battery: {
    emfV: 12.6,
    resistanceOhm: 0.00265,
    polarisationOhm: 0.0004,
    polarisationS: 3,
    temperatureC: 20,
    idleLoadA: 12,
  },
  starter: { cableOhm: 0.001, windingOhm: 0.0042, constantVS: 0.4, efficiency: 0.9, noLoadA: 90 },
  crankshaft: {
    cylinders: 6,
    inertiaKgM2: 3.5,
    frictionNm: 146,
    viscousNmS: 1.5,
    compressionNm: 260,
    leakDownRadS: 6,
    leakDownS: 0.4,
    compressionLossNm: 35,
    oilTemperatureC: 20,
  },
  firing: {
    afterTurns: null,
    fromPa: 15e6,
    idleRadS: 73.3,
    highIdleRadS: 220,
    loadRadS: 167.5,
    loadNm: 1200,
    mostNm: 620,
    fullNm: 2000,
    governorNmS: 20,
    lagS: 0.1,
    efficiency: 0.38,
  },
  tank: { volumeM3: 0.4, filledShare: 0.62, pickUpShare: 0.02 },
  suction: { linePaS: 3e7, filterPaS: 5e7, airShare: 0 },
  supply: {
    displacementM3: 6e-6,
    slipM3SPa: 3e-11,
    reliefPa: 1.2e6,
    reliefM3SPa: 2.2e-9,
    backLeakM3SPa: 8e-12,
    filterPaS: 4e8,
    complianceM3Pa: 5e-11,
    airVolumeM3: 2e-4,
  },
  metering: { fullM3SRootPa: 9e-8, mostOpen: 1, stickBand: 0, lagS: 0.05, crackM3SPa: 0 },
  pump: {
    displacementM3: 4.35e-6,
    elements: [1, 1],
    strokesPerTurn: 3,
    halfFillPa: 25_000,
    deadRatio: 0.8,
    gap: { diameterM: 0.008, clearanceM: 3.5e-6, lengthM: 0.01 },
    lubricationM3SPa: 4.8e-12,
    checkLeakM3SPa: 2.5e-15,
  },
  rail: {
    volumeM3: 1e-4,
    stiffness: DIESEL_STIFFNESS,
    relief: { crackingPa: 195e6, slopeM3SPa: 1e-11, leakM3SPa: 2e-16 },
    sensorGain: 1,
    sensorOffsetPa: 0,
    sensorNoisePa: 0.15e6,
  },
  injectors: { leakM3SPa: 8e-15, controlM3: 4e-8 },
  relief: { crackingPa: 80e6, slopeM3SPa: 8e-12 },
  bridge: { framesLost: 0, looseness: 0 },
  drain: { lagS: 0.5, clingM3: 3e-6 },
  fuelTemperatureC: 20,
  pumpHeatCapacityJK: 8000,
  pumpCoolingWK: 6,
  coolantTemperatureC: 20,
  vesselCapacityM3: 5e-4,
  hours: 11_842,
};
