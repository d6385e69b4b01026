import { parameterOf } from '../j1939/spn-table.ts';
import type { SignalId } from '../quantities/reading.ts';
import type { Dimension, UnitId } from '../quantities/unit.ts';
import { dimensionOf } from '../quantities/convert.ts';

/** What a named signal is called, and how it is shown where the person chose nothing else. */
export interface SignalInfo {
  readonly label: string;
  readonly shortLabel: string;
  readonly dimension: Dimension;
  readonly unit: UnitId; // shown by default
  readonly decimals: number; // in that unit
  readonly spn: number;
  /** Index into SPN_TABLE. */
  readonly parameter: number;
}

type Row = readonly [label: string, shortLabel: string, unit: UnitId, decimals: number, spn: number];

const info = ([label, shortLabel, unit, decimals, spn]: Row): SignalInfo => ({
  label,
  shortLabel,
  dimension: dimensionOf(unit),
  unit,
  decimals,
  spn,
  parameter: parameterOf(spn),
});

/** All signals. Values are held in the canonical unit of their dimension; `unit` is only how they are shown. */
export const SIGNALS: Readonly<Record<SignalId, SignalInfo>> = {
  engineSpeed: info(['Engine speed', 'Speed', 'rpm', 0, 190]),
  railPressure: info(['Rail pressure', 'Rail', 'MPa', 1, 157]),
  commandedRailPressure: info(['Commanded rail pressure', 'Rail cmd', 'MPa', 1, 5313]),
  rail2Pressure: info(['Rail 2 pressure', 'Rail 2', 'MPa', 1, 1349]),
  injectionControlPressure: info(['Injection control pressure', 'Inj. control', 'MPa', 1, 164]),
  supplyPressure: info(['Supply pressure', 'Supply', 'kPa', 0, 94]),
  filterDifferentialPressure: info(['Fuel filter differential pressure', 'Filter dP', 'kPa', 0, 95]),
  suctionFilterDifferentialPressure: info([
    'Suction filter differential pressure',
    'Suction dP',
    'kPa',
    0,
    1382,
  ]),
  oilPressure: info(['Oil pressure', 'Oil', 'kPa', 0, 100]),
  batteryVoltage: info(['Battery voltage', 'Battery', 'V', 1, 168]),
  keySwitchVoltage: info(['Key-switch voltage', 'Key switch', 'V', 1, 158]),
  coolantTemperature: info(['Coolant temperature', 'Coolant', 'degC', 0, 110]),
  fuelTemperature: info(['Fuel temperature', 'Fuel temp.', 'degC', 0, 174]),
  oilTemperature: info(['Oil temperature', 'Oil temp.', 'degC', 0, 175]),
  boostPressure: info(['Boost pressure', 'Boost', 'kPa', 0, 102]),
  fuelLevel: info(['Fuel level', 'Fuel level', 'percent', 0, 96]),
  waterInFuel: info(['Water in fuel', 'Water', 'state', 0, 97]),
  actualTorque: info(['Actual torque', 'Torque', 'percent', 0, 513]),
  starterMode: info(['Starter mode', 'Starter', 'state', 0, 1675]),
  engineHours: info(['Engine hours', 'Hours', 'h', 1, 247]),
};
