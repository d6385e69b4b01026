import type { UnitId } from '../quantities/unit.ts';

/**
 * Where a suspect parameter lies and how it scales: value = raw * scale + offset, in `unit`. Bytes and bits count from 1 as in the
 * standard; numbers are least significant byte first. `sources` are the keys of the public sources that agree (reference/j1939.md).
 */
export interface SpnEntry {
  readonly spn: number;
  readonly name: string;
  readonly pgn: number;
  readonly startByte: number;
  readonly startBit: number;
  readonly bits: 2 | 4 | 8 | 16 | 32;
  readonly scale: number;
  readonly offset: number;
  readonly unit: UnitId;
  readonly sources: string;
}

type Place = readonly [pgn: number, startByte: number, bits: SpnEntry['bits'], startBit?: number];
type Scaling = readonly [scale: number, offset: number, unit: UnitId];

type EntryRow = readonly [spn: number, name: string, place: Place, scaling: Scaling, sources: string];

const entry = (...[spn, name, place, scaling, sources]: EntryRow): SpnEntry => ({
  spn,
  name,
  pgn: place[0],
  startByte: place[1],
  startBit: place[3] ?? 1,
  bits: place[2],
  scale: scaling[0],
  offset: scaling[1],
  unit: scaling[2],
  sources,
});

const EEC1 = 61444;
const FLUIDS_1 = 65263;
const FLUIDS_2 = 65243;
const EEC9 = 64765;
const POWER_1 = 65271;
const TEMPERATURES_1 = 65262;
const INTAKE_1 = 65270;
const HOURS = 65253;
const DASH = 65276;
const OPERATOR = 65279;
const FUEL_SYSTEM = 65130;

const RAIL: Scaling = [1 / 256, 0, 'MPa'];
const VOLTS: Scaling = [0.05, 0, 'V'];
const FOUR_KPA: Scaling = [4, 0, 'kPa'];
const TWO_KPA: Scaling = [2, 0, 'kPa'];
const DEGREES: Scaling = [1, -40, 'degC'];
const STATE: Scaling = [1, 0, 'state'];

/** Parameters of J1939-71 / J1939DA that Meniscus reads. SpnBatch holds indexes into this table. */
export const SPN_TABLE: readonly SpnEntry[] = [
  entry(190, 'engine speed', [EEC1, 4, 16], [0.125, 0, 'rpm'], 'DA CB VJ BL CS LJ PJ GD RD'),
  entry(157, 'injector metering rail 1 pressure', [FLUIDS_2, 3, 16], RAIL, 'DA CB BL RD'),
  entry(5313, 'commanded engine fuel rail pressure', [EEC9, 5, 16], RAIL, 'DA RD'),
  entry(1349, 'injector metering rail 2 pressure', [FLUIDS_2, 7, 16], RAIL, 'DA CB BL'),
  entry(164, 'injection control pressure', [FLUIDS_2, 1, 16], RAIL, 'DA CB BL'), // measured: not the commanded rail pressure
  entry(94, 'fuel delivery pressure', [FLUIDS_1, 1, 8], FOUR_KPA, 'DA VJ BL CS RD'),
  entry(95, 'fuel filter differential pressure', [DASH, 3, 8], TWO_KPA, 'DA BL CS'),
  entry(1382, 'fuel filter (suction side) differential pressure', [FUEL_SYSTEM, 3, 8], TWO_KPA, 'DA'),
  entry(100, 'engine oil pressure', [FLUIDS_1, 4, 8], FOUR_KPA, 'DA VJ BL PJ'),
  entry(168, 'battery potential / power input 1', [POWER_1, 5, 16], VOLTS, 'DA VJ BL PJ CB RD'),
  entry(158, 'key-switch battery potential', [POWER_1, 7, 16], VOLTS, 'DA VJ BL LJ RD'),
  entry(110, 'coolant temperature', [TEMPERATURES_1, 1, 8], DEGREES, 'DA CB VJ BL LJ PJ GD'),
  entry(174, 'fuel temperature 1', [TEMPERATURES_1, 2, 8], DEGREES, 'DA CB VJ BL LJ PJ GD'),
  entry(175, 'oil temperature 1', [TEMPERATURES_1, 3, 16], [0.03125, -273, 'degC'], 'DA CB VJ BL PJ'),
  entry(102, 'intake manifold 1 pressure', [INTAKE_1, 2, 8], TWO_KPA, 'DA CB VJ BL GD'),
  entry(96, 'fuel level 1', [DASH, 2, 8], [0.4, 0, 'percent'], 'DA BL CS'),
  entry(97, 'water-in-fuel indicator', [OPERATOR, 1, 2], STATE, 'DA CS'),
  entry(513, 'actual engine torque', [EEC1, 3, 8], [1, -125, 'percent'], 'DA CB VJ BL LJ PJ GD'),
  entry(1675, 'engine starter mode', [EEC1, 7, 4], STATE, 'DA CB VJ BL LJ'),
  entry(247, 'engine total hours', [HOURS, 1, 32], [0.05, 0, 'h'], 'DA CB VJ BL GD'),
];

/** Index into SPN_TABLE of a parameter, -1 when Meniscus does not read it. */
export const parameterOf = (spn: number): number => SPN_TABLE.findIndex((each) => each.spn === spn);
