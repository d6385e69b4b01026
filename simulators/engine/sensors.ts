import { nearlyNormal, type Chance } from '../chance.ts';
import type { Controller } from './controller.ts';
import type { EngineState } from './engine.ts';

/** What the engine's controllers would put on the bus at one instant, in the units of the J1939 parameters. */
export interface Sensors {
  readonly speedRpm: number;
  readonly railMPa: number;
  readonly commandedRailMPa: number;
  readonly supplyKPa: number;
  readonly oilKPa: number;
  readonly batteryV: number;
  readonly cabV: number; // the same battery as the cab's controller sees it
  readonly coolantC: number;
  readonly fuelC: number;
  readonly oilC: number;
}

/** Commanded pressure steps from 0 to 25 MPa when turning is noticed, 0.3 s before the first speed (truck A recording). */
const COMMANDED_MPA = 25;
/** Oil pressure against speed, up to its relief (common practice, no source). */
const OIL_KPA_PER_RAD_S = 4;
const OIL_MOST_KPA = 400;
/** Spread of the sensors (common practice, no source). */
const RAIL_NOISE_MPA = 0.15;
const SUPPLY_NOISE_KPA = 3;
const BATTERY_NOISE_V = 0.03;
/** The cab stands on its own cable: truck A shows 0.05 to 0.2 V more there than at the engine. */
const CAB_OFFSET_V = 0.1;

/** Reads all sensors once; the noise comes from `chance`, and the chance after it is given back. Never negative. */
export function readSensors(
  engine: EngineState,
  controller: Controller,
  chance: Chance,
): { readonly sensors: Sensors; readonly chance: Chance } {
  const rail = nearlyNormal(chance);
  const supply = nearlyNormal(rail.chance);
  const battery = nearlyNormal(supply.chance);
  const { parameters, fuel, crankshaft } = engine;
  const batteryV = engine.batteryV + BATTERY_NOISE_V * battery.value;
  const sensors: Sensors = {
    speedRpm: controller.speedRpm,
    railMPa: Math.max(0, fuel.railPa / 1e6 + RAIL_NOISE_MPA * rail.value),
    commandedRailMPa: controller.turning ? COMMANDED_MPA : 0,
    supplyKPa: Math.max(0, fuel.supplyPa / 1e3 + SUPPLY_NOISE_KPA * supply.value),
    oilKPa: Math.min(OIL_MOST_KPA, OIL_KPA_PER_RAD_S * crankshaft.speedRadS),
    batteryV,
    cabV: batteryV + CAB_OFFSET_V,
    coolantC: parameters.coolantTemperatureC,
    fuelC: fuel.temperatureC,
    oilC: parameters.crankshaft.oilTemperatureC,
  };
  return { sensors, chance: battery.chance };
}
