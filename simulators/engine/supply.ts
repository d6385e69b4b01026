import type { EngineParameters } from './engine-parameters.ts';

/** The low-pressure side: gallery pressure behind the pressure filter, and the pull at the supply pump's inlet, Pa gauge. */
export interface Supply {
  readonly galleryPa: number;
  readonly suctionPa: number; // below the atmosphere: a positive number
  readonly filterDropPa: number; // over the pressure filter
  readonly air: number; // share of air in the gallery, 0 to 1
}

export const RESTING_SUPPLY: Supply = { galleryPa: 0, suctionPa: 0, filterDropPa: 0, air: 0 };

/** What acts on the low-pressure side during a step. */
export interface SupplyDrive {
  readonly speedRadS: number;
  readonly takenM3S: number; // by the pumping elements
  readonly dry: boolean; // the pick-up in the tank draws air
  readonly thickness: number; // viscosity over that at 20 degC
  readonly dtSeconds: number;
}

/** Flows of the step, m3/s. `filter` less all that leaves is what the gallery gained. */
export interface SupplyFlows {
  readonly filterM3S: number; // into the gallery, below 0 back through a standing pump
  readonly reliefM3S: number; // supply pump's relief valve, back to the tank
  readonly lubricationM3S: number;
  readonly crackM3S: number;
}

/** The pull at which the pump's inlet gives out: fuel boils and draws gas from solution (common practice, no source). */
const GIVES_OUT_PA = 70_000;
/** The pull follows the flow with this lag: the hose gives. */
const SUCTION_LAG_S = 0.05;

/** Fuel that the supply pump moves, m3/s before slip: less where air is drawn or the inlet gives out. */
function movedM3S({ supply, suction }: EngineParameters, state: Supply, drive: SupplyDrive): number {
  if (drive.dry) return 0;
  const pull = state.suctionPa / GIVES_OUT_PA;
  const gasFree = 1 / (1 + pull * pull * pull * pull);
  const speedRadS = Math.max(0, drive.speedRadS);
  return ((supply.displacementM3 * speedRadS) / (2 * Math.PI)) * gasFree * (1 - suction.airShare);
}

/** Conductances of a step, m3/s per pascal, and what the pump drives into the filter. */
interface Network {
  readonly filterG: number;
  readonly reliefG: number; // 0 while the relief valve is shut
  readonly outG: number; // from the gallery
  readonly gainM3S: number; // filter flow = gain - slope * gallery pressure
  readonly slopeG: number;
}

function networkOf(parameters: EngineParameters, state: Supply, drive: SupplyDrive): Network {
  const { supply, pump, metering } = parameters;
  const moved = movedM3S(parameters, state, drive);
  const filterG = 1 / (supply.filterPaS * drive.thickness);
  const slipG = supply.slipM3SPa / drive.thickness;
  const shutPa = (moved + filterG * state.galleryPa) / (slipG + filterG);
  const reliefG = shutPa > supply.reliefPa ? supply.reliefM3SPa : 0;
  const sumG = slipG + reliefG + filterG;
  return {
    filterG,
    reliefG,
    outG: pump.lubricationM3SPa / drive.thickness + metering.crackM3SPa,
    gainM3S: (filterG * (moved + reliefG * supply.reliefPa)) / sumG,
    slopeG: filterG - (filterG * filterG) / sumG,
  };
}

/**
 * One step. Between pump and filter nothing is stored: pump - slip - relief = filter flow there; the gallery takes
 * filter - lubrication - crack - taken. Implicit Euler in the gallery pressure, so that what the flows move is what the gallery gains.
 */
export function stepSupply(
  parameters: EngineParameters,
  state: Supply,
  drive: SupplyDrive,
): { readonly supply: Supply; readonly flows: SupplyFlows } {
  const { supply, suction, metering } = parameters;
  const { dtSeconds, thickness, takenM3S } = drive;
  const { filterG, reliefG, outG, gainM3S, slopeG } = networkOf(parameters, state, drive);
  const storage = supply.complianceM3Pa / dtSeconds;
  const heldM3S = storage * state.galleryPa - takenM3S;
  let galleryPa = (heldM3S + gainM3S) / (storage + slopeG + outG);
  let filterM3S = gainM3S - slopeG * galleryPa;
  if (filterM3S < -supply.backLeakM3SPa * galleryPa) {
    galleryPa = heldM3S / (storage + supply.backLeakM3SPa + outG);
    filterM3S = -supply.backLeakM3SPa * galleryPa;
  }
  const reliefM3S = Math.max(0, reliefG * (galleryPa + filterM3S / filterG - supply.reliefPa));
  const drawn = Math.max(0, filterM3S) + reliefM3S;
  const pullPa = (suction.linePaS + suction.filterPaS) * thickness * drawn;
  const suctionPa = state.suctionPa + (pullPa - state.suctionPa) * -Math.expm1(-dtSeconds / SUCTION_LAG_S);
  const swept = (drawn * dtSeconds) / supply.airVolumeM3;
  const air = Math.max(suction.airShare, state.air - swept);
  const crackM3S = metering.crackM3SPa * galleryPa;
  return {
    supply: { galleryPa, suctionPa, filterDropPa: Math.max(0, filterM3S / filterG), air },
    flows: { filterM3S, reliefM3S, lubricationM3S: outG * galleryPa - crackM3S, crackM3S },
  };
}
