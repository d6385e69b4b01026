import { nearlyNormal, type Chance } from '../chance.ts';
import type { Controller } from './controller.ts';
import type { EngineParameters } from './engine-parameters.ts';
import type { EngineState } from './engine.ts';
import { tankShare } from './fuel-path.ts';

/** What the engine's controllers would put on the bus at one instant, in the units of the J1939 parameters. */
export interface Sensors {
  readonly speedRpm: number;
  readonly railMPa: number;
  readonly commandedRailMPa: number;
  readonly supplyKPa: number; // behind the pressure filter
  readonly filterDropKPa: number; // over the pressure filter
  readonly suctionDropKPa: number; // from the tank to the inlet of the supply pump
  readonly torquePercent: number;
  readonly hours: number;
  readonly fuelLevelPercent: number;
  readonly oilKPa: number;
  readonly batteryV: number;
  readonly cabV: number; // the same battery as the cab's controller sees it
  readonly coolantC: number;
  readonly fuelC: number;
  readonly oilC: number;
}

/** Oil pressure against speed, up to its relief (common practice, no source). */
const OIL_KPA_PER_RAD_S = 4;
const OIL_MOST_KPA = 400;
/** Spread of the sensors (common practice, no source). */
const SUPPLY_NOISE_KPA = 3;
const BATTERY_NOISE_V = 0.03;
/** The cab stands on its own cable: truck A shows 0.05 to 0.2 V more there than at the engine. */
const CAB_OFFSET_V = 0.1;

/** What lagging sensors feel, before noise and rounding. */
export interface Sensing {
  readonly railPa: number;
  readonly supplyPa: number;
  readonly fuelC: number;
}

/** Lags of rail, supply and fuel temperature sensor, s (common practice, no source). */
const RAIL_LAG_S = 0.02;
const SUPPLY_LAG_S = 0.1;
const FUEL_LAG_S = 15;
/** Where the rail sensor ends, MPa. */
const RAIL_RANGE_MPA = 220;

export const restingSensing = ({ fuelTemperatureC }: EngineParameters): Sensing => ({
  railPa: 0,
  supplyPa: 0,
  fuelC: fuelTemperatureC,
});

/** One step of the sensors behind the engine; meant for steps well below 20 ms. */
export function stepSensing(sensing: Sensing, { fuel }: EngineState, dtSeconds: number): Sensing {
  const { railPa, supplyPa, fuelC } = sensing;
  return {
    railPa: railPa + ((fuel.railPa - railPa) * dtSeconds) / RAIL_LAG_S,
    supplyPa: supplyPa + ((fuel.supply.galleryPa - supplyPa) * dtSeconds) / SUPPLY_LAG_S,
    fuelC: fuelC + ((fuel.temperatureC - fuelC) * dtSeconds) / FUEL_LAG_S,
  };
}

/** What is read at one instant. */
export interface Readable {
  readonly engine: EngineState;
  readonly controller: Controller;
  readonly sensing: Sensing;
}

/** Reads all sensors once; the noise comes from `chance`, and the chance after it is given back. Never negative. */
export function readSensors(
  { engine, controller, sensing }: Readable,
  chance: Chance,
): { readonly sensors: Sensors; readonly chance: Chance } {
  const rail = nearlyNormal(chance);
  const supply = nearlyNormal(rail.chance);
  const battery = nearlyNormal(supply.chance);
  const { parameters, fuel, crankshaft, control } = engine;
  const { sensorGain, sensorOffsetPa, sensorNoisePa } = parameters.rail;
  const sensedPa = sensorOffsetPa + sensorGain * sensing.railPa + sensorNoisePa * rail.value;
  const batteryV = engine.batteryV + BATTERY_NOISE_V * battery.value;
  const sensors: Sensors = {
    speedRpm: controller.speedRpm,
    railMPa: Math.min(RAIL_RANGE_MPA, Math.max(0, sensedPa / 1e6)),
    commandedRailMPa: control.commandedPa / 1e6,
    supplyKPa: Math.max(0, sensing.supplyPa / 1e3 + SUPPLY_NOISE_KPA * supply.value),
    filterDropKPa: fuel.supply.filterDropPa / 1e3,
    suctionDropKPa: Math.max(0, fuel.supply.suctionPa / 1e3),
    torquePercent: (100 * engine.firing.torqueNm) / parameters.firing.fullNm,
    hours: parameters.hours + engine.runSeconds / 3600,
    fuelLevelPercent: 100 * tankShare(parameters, fuel.mass),
    oilKPa: Math.min(OIL_MOST_KPA, OIL_KPA_PER_RAD_S * Math.abs(crankshaft.speedRadS)),
    batteryV,
    cabV: batteryV + CAB_OFFSET_V,
    coolantC: engine.coolantC,
    fuelC: sensing.fuelC,
    oilC: parameters.crankshaft.oilTemperatureC,
  };
  return { sensors, chance: battery.chance };
}
