import type { EngineParameters } from './engine-parameters.ts';
import { densityKgM3, stiffnessAt, viscosityPaS } from './fluid.ts';
import type { FuelMasses } from './fuel-masses.ts';
import { pumpVolumes, type PumpVolumes } from './pump.ts';
import { midpointPressurePa, railMassKg, railPressurePa, type RailVolume } from './rail.ts';
import type { Rig } from './rig.ts';
import { RESTING_SUPPLY, stepSupply, type Supply, type SupplyFlows } from './supply.ts';

export interface FuelPath {
  readonly supply: Supply;
  readonly temperatureC: number; // of pump and rail
  readonly railPa: number;
  /** Viscosity in the tank over that at 20 degC: it does not change, and is dear to work out. */
  readonly thickness: number;
  /** What came out of each line in the last step, m3/s at ambient pressure. */
  readonly lines: LineFlows;
  readonly mass: FuelMasses;
}

/** Flows of the lines that can be put into the vessel, m3/s. */
export interface LineFlows {
  readonly deliveryM3S: number; // of the test valve
  readonly pumpM3S: number;
  readonly injectorM3S: number;
  readonly reliefM3S: number;
}

/** What acts on the fuel path during a step. */
export interface FuelDrive {
  readonly fromRad: number;
  readonly toRad: number;
  readonly speedRadS: number;
  readonly burntKgS: number;
  readonly running: boolean;
  readonly opening: number; // of the metering valve
  readonly rig: Rig;
}

/** Fuel that goes through the pump takes its heat along: J/(kg K) (from memory, usual figure). */
const SPECIFIC_HEAT = 2000;
const VISCOSITY_20_PA_S = viscosityPaS(20);
const NO_FLOWS: LineFlows = { deliveryM3S: 0, pumpM3S: 0, injectorM3S: 0, reliefM3S: 0 };

const railVolume = ({ rail }: EngineParameters, temperatureC: number): RailVolume => ({
  volumeM3: rail.volumeM3,
  stiffness: stiffnessAt(rail.stiffness, temperatureC),
  densityKgM3: densityKgM3(temperatureC),
});

/** The fuel path at rest: rail full without pressure, drain line wetted by an earlier priming, vessel empty. */
export function restingFuelPath(parameters: EngineParameters): FuelPath {
  const temperatureC = parameters.fuelTemperatureC;
  const density = densityKgM3(temperatureC);
  const rail = railMassKg(railVolume(parameters, temperatureC), 0);
  const line = parameters.drain.clingM3 * density;
  const nothing = { gallery: 0, vessel: 0, drawn: 0, returned: 0, burnt: 0, spilled: 0, emptied: 0 };
  const mass = { ...nothing, brought: rail + line, rail, line };
  const thickness = viscosityPaS(temperatureC) / VISCOSITY_20_PA_S;
  return { supply: RESTING_SUPPLY, temperatureC, railPa: 0, thickness, lines: NO_FLOWS, mass };
}

/** What leaves the rail at a pressure, m3/s at ambient pressure, beside what is burnt. */
function railLeaks(parameters: EngineParameters, railPa: number, drive: FuelDrive): LineFlows {
  const { relief, rail, pump, injectors } = parameters;
  const { rig } = drive;
  const control = drive.running ? (injectors.controlM3 * drive.speedRadS) / (2 * Math.PI) : 0;
  return {
    deliveryM3S: rig.testValve ? relief.slopeM3SPa * Math.max(0, railPa - relief.crackingPa) : 0,
    pumpM3S: pump.checkLeakM3SPa * railPa,
    injectorM3S: rig.portsBlocked ? 0 : injectors.leakM3SPa * railPa + control,
    reliefM3S:
      rail.relief.leakM3SPa * railPa + rail.relief.slopeM3SPa * Math.max(0, railPa - rail.relief.crackingPa),
  };
}

const vesselFlow = (lines: LineFlows, { intoVessel }: Rig): number =>
  intoVessel === 'crank delivery'
    ? lines.deliveryM3S
    : intoVessel === 'pump return'
      ? lines.pumpM3S
      : intoVessel === 'injector return'
        ? lines.injectorM3S
        : intoVessel === 'relief valve return'
          ? lines.reliefM3S
          : 0;

interface Moved {
  readonly pumped: PumpVolumes;
  readonly flows: SupplyFlows;
  readonly leaks: LineFlows;
  readonly burntKg: number;
}

/** One step. Mass is only moved from one account to another, so fuel in = fuel out + stored. */
export function stepFuelPath(
  parameters: EngineParameters,
  path: FuelPath,
  drive: FuelDrive,
  dtSeconds: number,
): FuelPath {
  const { temperatureC, mass: before, railPa, thickness } = path;
  const rail = railVolume(parameters, temperatureC);
  const density = rail.densityKgM3;
  const viscosity = viscosityPaS(temperatureC);
  const galleryPa = before.gallery / (parameters.supply.complianceM3Pa * density);
  const { fromRad, toRad, opening, speedRadS } = drive;
  const pumpInputs = { fromRad, toRad, opening, galleryPa, air: path.supply.air, railPa, viscosityPaS: viscosity, dtSeconds }; // prettier-ignore
  const pumped = pumpVolumes(parameters, pumpInputs);
  const dry = tankShare(parameters, before) < parameters.tank.pickUpShare;
  const supplyDrive = { speedRadS, dry, takenM3S: pumped.drawnM3 / dtSeconds, thickness, dtSeconds };
  const { supply, flows } = stepSupply(parameters, { ...path.supply, galleryPa }, supplyDrive);
  const burntKg = Math.min(drive.burntKgS * dtSeconds, Math.max(0, before.rail - railMassKg(rail, 0)));
  const inflowKgS = (pumped.deliveredM3 * density - burntKg) / dtSeconds;
  const net = (pressurePa: number): number =>
    inflowKgS - sumM3S(railLeaks(parameters, pressurePa, drive)) * density;
  const leaks = railLeaks(parameters, midpointPressurePa(rail, before.rail, net, dtSeconds), drive);
  const moved = { pumped, flows, leaks, burntKg };
  const lines = linesOf(moved, dtSeconds);
  const step = { density, dtSeconds };
  const intoLineKg = vesselFlow(lines, drive.rig) * density * dtSeconds;
  const accounts = account(before, moved, { ...step, intoLineKg });
  const mass = drive.rig.intoVessel === null ? accounts : collect(parameters, accounts, step);
  const warmingK = warmingKS(parameters, path, moved, step) * dtSeconds;
  return {
    supply,
    temperatureC: temperatureC + warmingK,
    thickness,
    railPa: railPressurePa(rail, mass.rail),
    lines,
    mass,
  };
}

const sumM3S = (lines: LineFlows): number =>
  lines.deliveryM3S + lines.pumpM3S + lines.injectorM3S + lines.reliefM3S;

/** What runs out of each line: the pump's return carries what leaks past its plungers and checks, and what lubricates it. */
function linesOf({ pumped, flows, leaks }: Moved, dtSeconds: number): LineFlows {
  const housing = pumped.gapLeakM3 / dtSeconds + flows.lubricationM3S + flows.crackM3S;
  const { deliveryM3S, injectorM3S, reliefM3S } = leaks;
  return { deliveryM3S, injectorM3S, reliefM3S, pumpM3S: leaks.pumpM3S + housing };
}

/** Accounts after a step: every line runs back to the tank but the one that is led towards the vessel. */
function account(
  before: FuelMasses,
  moved: Moved,
  step: FuelStep & { readonly intoLineKg: number },
): FuelMasses {
  const { density, dtSeconds, intoLineKg } = step;
  const { pumped, flows, leaks, burntKg } = moved;
  const kg = density * dtSeconds;
  const housing = (flows.lubricationM3S + flows.crackM3S) * kg;
  const filter = flows.filterM3S * kg;
  const relief = flows.reliefM3S * kg;
  const railOut = sumM3S(leaks) * kg;
  const back = Math.max(0, -filter) + relief + housing + railOut + pumped.gapLeakM3 * density;
  return {
    brought: before.brought,
    gallery: before.gallery + filter - housing - pumped.drawnM3 * density,
    rail: before.rail + pumped.deliveredM3 * density - railOut - burntKg,
    line: before.line + intoLineKg,
    vessel: before.vessel,
    drawn: before.drawn + Math.max(0, filter) + relief,
    returned: before.returned + Math.max(0, back - intoLineKg),
    burnt: before.burnt + burntKg,
    spilled: before.spilled,
    emptied: before.emptied,
  };
}

interface FuelStep {
  readonly density: number;
  readonly dtSeconds: number;
}

/** The line runs out into the vessel, which holds so much and no more. */
function collect(
  { drain, vesselCapacityM3 }: EngineParameters,
  mass: FuelMasses,
  { density, dtSeconds }: FuelStep,
): FuelMasses {
  const hangs = drain.clingM3 * density;
  const runs = Math.max(0, mass.line - hangs) * -Math.expm1(-dtSeconds / drain.lagS);
  const vessel = Math.min(vesselCapacityM3 * density, mass.vessel + runs);
  const { brought, gallery, rail, drawn, returned, burnt, emptied } = mass; // named one by one: a spread is several times slower here
  const spilled = mass.spilled + (mass.vessel + runs - vessel);
  return { brought, gallery, rail, line: mass.line - runs, vessel, drawn, returned, burnt, spilled, emptied };
}

/** K/s: what leaks past gaps and seats warms pump and rail; metal and the leaking fuel take the heat away. */
function warmingKS(parameters: EngineParameters, path: FuelPath, moved: Moved, step: FuelStep): number {
  const { pumped, flows, leaks } = moved;
  const throttled = pumped.gapLeakM3 / step.dtSeconds + leaks.pumpM3S;
  const carriedKgS = (throttled + flows.lubricationM3S + flows.crackM3S) * step.density;
  const coolingWK = parameters.pumpCoolingWK + carriedKgS * SPECIFIC_HEAT;
  const warmerC = path.temperatureC - parameters.fuelTemperatureC;
  return (path.railPa * throttled - coolingWK * warmerC) / parameters.pumpHeatCapacityJK;
}

/** What stays at the glass when a vessel is poured out, m3 (common practice, no source). */
const FILM_M3 = 3e-7;

/** The vessel is poured out, which takes no time; a film stays. */
export function pourOut(path: FuelPath): FuelPath {
  const vessel = Math.min(path.mass.vessel, FILM_M3 * densityKgM3(path.temperatureC));
  const emptied = path.mass.emptied + path.mass.vessel - vessel;
  return { ...path, mass: { ...path.mass, vessel, emptied } };
}

/** How full the tank is, 0 to 1. */
export const tankShare = (
  { tank, fuelTemperatureC }: EngineParameters,
  { drawn, returned }: FuelMasses,
): number =>
  Math.max(0, tank.filledShare - (drawn - returned) / (tank.volumeM3 * densityKgM3(fuelTemperatureC)));

/** Another line is put into the vessel: what hung in the first one runs to the tank, the new one is wetted as much. */
export function changeLine({ drain }: EngineParameters, path: FuelPath): FuelPath {
  const { mass } = path;
  const spare = Math.max(0, mass.line - drain.clingM3 * densityKgM3(path.temperatureC));
  return { ...path, mass: { ...mass, line: mass.line - spare, returned: mass.returned + spare } };
}

/** Gallery pressure that the hand primer leaves, Pa (common practice, no source). */
const PRIMED_PA = 150_000;

/** The hand primer: pushes the air out through the return and leaves some pressure. */
export function prime(parameters: EngineParameters, path: FuelPath): FuelPath {
  const density = densityKgM3(path.temperatureC);
  const wanted = parameters.supply.complianceM3Pa * PRIMED_PA * density;
  const added = Math.max(0, wanted - path.mass.gallery);
  const { mass } = path;
  return {
    ...path,
    supply: {
      ...path.supply,
      air: parameters.suction.airShare,
      galleryPa: Math.max(PRIMED_PA, path.supply.galleryPa),
    },
    mass: { ...mass, gallery: mass.gallery + added, drawn: mass.drawn + added },
  };
}

/** How full of air a part leaves the low-pressure side when it was changed and nothing was primed. */
const AIR_AFTER_WORK = 1;

/** The fuel path was opened for work: its pressure is gone and air is in it. */
export function opened(parameters: EngineParameters, path: FuelPath): FuelPath {
  const { mass } = path;
  const rail = Math.min(mass.rail, railMassKg(railVolume(parameters, path.temperatureC), 0));
  const lost = mass.rail - rail + mass.gallery;
  return {
    ...path,
    railPa: 0,
    supply: { ...RESTING_SUPPLY, air: AIR_AFTER_WORK },
    mass: { ...mass, rail, gallery: 0, returned: mass.returned + lost },
  };
}
