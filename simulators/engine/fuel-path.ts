import type { EngineParameters } from './engine-parameters.ts';
import { densityKgM3, viscosityPaS } from './fluid.ts';
import { pumpFlows, stepSupplyPa, type PumpFlows } from './pump.ts';
import { midpointPressurePa, railMassKg, railPressurePa, type RailVolume } from './rail.ts';

/** Where the fuel is and where it went, kg since the start. */
export interface FuelMasses {
  readonly rail: number;
  readonly line: number; // in the drain line
  readonly vessel: number;
  readonly drawn: number; // from the supply into the pump
  readonly returned: number; // leaks, back to the tank
  readonly burnt: number;
  readonly spilled: number; // over the rim of a full vessel
  readonly emptied: number; // poured out of the vessel
}

export interface FuelPath {
  readonly supplyPa: number;
  readonly temperatureC: number; // of pump and fuel
  readonly railPa: number;
  readonly reliefM3S: number; // what the test valve passed in the last step
  readonly mass: FuelMasses;
}

/** What acts on the fuel path during a step. */
export interface FuelDrive {
  readonly speedRadS: number;
  readonly burntKgS: number;
}

const railVolume = ({ rail }: EngineParameters, temperatureC: number): RailVolume => ({
  volumeM3: rail.volumeM3,
  stiffness: rail.stiffness,
  densityKgM3: densityKgM3(temperatureC),
});

/** The fuel path at rest: rail full without pressure, drain line wetted by an earlier priming, vessel empty. */
export function restingFuelPath(parameters: EngineParameters): FuelPath {
  const temperatureC = parameters.fuelTemperatureC;
  const rail = railMassKg(railVolume(parameters, temperatureC), 0);
  const line = parameters.drain.clingM3 * densityKgM3(temperatureC);
  const mass = { rail, line, vessel: 0, drawn: 0, returned: 0, burnt: 0, spilled: 0, emptied: 0 };
  return { supplyPa: 0, temperatureC, railPa: 0, reliefM3S: 0, mass };
}

interface PumpDrive {
  readonly speedRadS: number;
  readonly viscosityPaS: number;
}

interface RailFlows {
  readonly pump: PumpFlows;
  readonly leakM3S: number;
  readonly reliefM3S: number;
}

function railFlows(
  parameters: EngineParameters,
  path: FuelPath,
  drive: PumpDrive,
  railPa: number,
): RailFlows {
  const { relief, rail } = parameters;
  const { speedRadS, viscosityPaS: viscosity } = drive;
  return {
    pump: pumpFlows(parameters, { speedRadS, viscosityPaS: viscosity, supplyPa: path.supplyPa, railPa }),
    leakM3S: rail.leakM3SPa * railPa,
    reliefM3S: relief.slopeM3SPa * Math.max(0, railPa - relief.crackingPa),
  };
}

/** The drain line runs out into the vessel, which holds so much and no more. */
function collect(
  parameters: EngineParameters,
  mass: FuelMasses,
  reliefKg: number,
  step: FuelStep,
): FuelMasses {
  const { drain, vesselCapacityM3 } = parameters;
  const filled = mass.line + reliefKg;
  const runs = Math.max(0, filled - drain.clingM3 * step.density) * -Math.expm1(-step.dtSeconds / drain.lagS);
  const vessel = Math.min(vesselCapacityM3 * step.density, mass.vessel + runs);
  const { rail, drawn, returned, burnt, emptied } = mass; // named one by one: a spread is several times slower here
  const spilled = mass.spilled + (mass.vessel + runs - vessel);
  return { rail, line: filled - runs, vessel, drawn, returned, burnt, spilled, emptied };
}

interface FuelStep {
  readonly density: number;
  readonly dtSeconds: number;
}

/** One step. Mass is only moved from one account to another, so fuel in = fuel out + stored. */
export function stepFuelPath(
  parameters: EngineParameters,
  path: FuelPath,
  drive: FuelDrive,
  dtSeconds: number,
): FuelPath {
  const rail = railVolume(parameters, path.temperatureC);
  const density = rail.densityKgM3;
  const burntKg = Math.min(drive.burntKgS * dtSeconds, Math.max(0, path.mass.rail - railMassKg(rail, 0)));
  const pumpDrive = { speedRadS: drive.speedRadS, viscosityPaS: viscosityPaS(path.temperatureC) };
  const flowsAt = (railPa: number) => railFlows(parameters, path, pumpDrive, railPa);
  const net = (railPa: number): number => {
    const { pump, leakM3S, reliefM3S } = flowsAt(railPa);
    return (pump.deliveredM3S - leakM3S - reliefM3S) * density - burntKg / dtSeconds;
  };
  const { pump, leakM3S, reliefM3S } = flowsAt(midpointPressurePa(rail, path.mass.rail, net, dtSeconds));
  const kg = (flowM3S: number): number => flowM3S * density * dtSeconds;
  const { line, vessel, spilled, emptied } = path.mass;
  const moved: FuelMasses = {
    line,
    vessel,
    spilled,
    emptied,
    rail: path.mass.rail + kg(pump.deliveredM3S) - kg(leakM3S) - kg(reliefM3S) - burntKg,
    drawn: path.mass.drawn + kg(pump.drawnM3S),
    returned: path.mass.returned + kg(pump.gapLeakM3S) + kg(leakM3S),
    burnt: path.mass.burnt + burntKg,
  };
  const mass = collect(parameters, moved, kg(reliefM3S), { density, dtSeconds });
  const heatW = path.railPa * (pump.gapLeakM3S + leakM3S); // what leaks past a gap warms it
  const coolingW = parameters.pumpCoolingWK * (path.temperatureC - parameters.fuelTemperatureC);
  return {
    supplyPa: stepSupplyPa(parameters, path.supplyPa, drive.speedRadS, dtSeconds),
    temperatureC: path.temperatureC + ((heatW - coolingW) / parameters.pumpHeatCapacityJK) * dtSeconds,
    railPa: railPressurePa(rail, mass.rail),
    reliefM3S,
    mass,
  };
}

/** The vessel is poured out, which takes no time. */
export const pourOut = (path: FuelPath): FuelPath => ({
  ...path,
  mass: { ...path.mass, vessel: 0, emptied: path.mass.emptied + path.mass.vessel },
});

/** Fuel drawn, less all that left and the growth of all that is stored, over what was drawn or stored: 0 within rounding. */
export function fuelBalance(parameters: EngineParameters, { mass }: FuelPath): number {
  const start = restingFuelPath(parameters).mass;
  const gone = mass.returned + mass.burnt + mass.spilled + mass.emptied;
  const grown = mass.rail - start.rail + (mass.line - start.line) + mass.vessel;
  return (mass.drawn - gone - grown) / (start.rail + start.line + mass.drawn);
}
