/** Where the fuel is and where it went, kg. `brought` was in rail, gallery and drain line at the start. */
export interface FuelMasses {
  readonly brought: number;
  readonly gallery: number;
  readonly rail: number;
  readonly line: number; // in the line that runs into the vessel
  readonly vessel: number;
  readonly drawn: number; // out of the tank
  readonly returned: number; // leaks and surplus, back to the tank
  readonly burnt: number;
  readonly spilled: number; // over the rim of a full vessel
  readonly emptied: number; // poured out of the vessel
}

/** Fuel brought and drawn, less all that left and all that is stored, over what was brought and drawn: 0 within rounding. */
export function fuelBalance(mass: FuelMasses): number {
  const gone = mass.returned + mass.burnt + mass.spilled + mass.emptied;
  const stored = mass.gallery + mass.rail + mass.line + mass.vessel;
  return (mass.brought + mass.drawn - gone - stored) / (mass.brought + mass.drawn);
}
