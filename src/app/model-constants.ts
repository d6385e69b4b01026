import { SOUND_ENGINE, type EngineParameters } from '../../simulators/engine/engine-parameters.ts';
import { RAD_S_PER_RPM } from '../../simulators/engine/crankshaft.ts';
import { BENCH_CYLINDER } from '../../simulators/vessel.ts';
import { fromCanonical, toCanonical } from '../quantities/convert.ts';
import type { FactRow } from '../ui/fact-list.ts';
import type { ModelPartId } from '../ui/model-layout.ts';

const ML_PER_M3 = 1e6;
const L_PER_M3 = 1e3;
const SECONDS_PER_MINUTE = 60;
/** One litre a minute: what a resistance is shown at. */
const ONE_L_MIN = 1 / (L_PER_M3 * SECONDS_PER_MINUTE);
/** What leaks are shown at, Pa. */
const GALLERY_PA = 1e6;
const RAIL_PA = 1e8;
const STEP_PA = 1e5;
const STEP_RAIL_PA = 1e6;

const kPa = (pa: number): number => toCanonical(pa, 'Pa');
const mPa = (pa: number): number => fromCanonical(kPa(pa), 'MPa');
const mlPerMin = (m3S: number): number => m3S * ML_PER_M3 * SECONDS_PER_MINUTE;
const lPerMin = (m3S: number): number => m3S * L_PER_M3 * SECONDS_PER_MINUTE;
const percent = (share: number): number => share * 100;
const milli = (value: number): number => value * 1e3;
const micro = (value: number): number => value * 1e6;

/** Three figures are enough for what is invented. */
const row = (name: string, value: number, unit: string): FactRow => ({
  name,
  value: value.toLocaleString('en', { maximumSignificantDigits: 3 }),
  unit,
});

type Rows = (engine: EngineParameters) => readonly FactRow[];

/** The constants of each part of the drawing, in a technician's units. */
const ROWS: Readonly<Record<ModelPartId, Rows>> = {
  battery: ({ battery }) => [
    row('Voltage at rest', battery.emfV, 'V'),
    row('Inner resistance at 20 °C', milli(battery.resistanceOhm), 'mΩ'),
    row('More of it under a lasting load', milli(battery.polarisationOhm), 'mΩ'),
    row('That comes within about', battery.polarisationS, 's'),
    row('Controllers and lamps draw', battery.idleLoadA, 'A'),
    row('Temperature', battery.temperatureC, '°C'),
  ],
  starter: ({ starter }) => [
    row('Resistance of the cable', milli(starter.cableOhm), 'mΩ'),
    row('Resistance of the winding', milli(starter.windingOhm), 'mΩ'),
    row('Torque at the crankshaft for each ampere', starter.constantVS, 'N·m'),
    row('Efficiency', percent(starter.efficiency), '%'),
    row('Current without a load', starter.noLoadA, 'A'),
  ],
  crankshaft: ({ crankshaft }) => [
    row('Cylinders', crankshaft.cylinders, ''),
    row('Moment of inertia', crankshaft.inertiaKgM2, 'kg·m²'),
    row('Dry friction', crankshaft.frictionNm, 'N·m'),
    row('More friction for each 100 rpm', crankshaft.viscousNmS * 100 * RAD_S_PER_RPM, 'N·m'),
    row('Ripple of the compressions', crankshaft.compressionNm, 'N·m'),
    row('Loss of the compressions', crankshaft.compressionLossNm, 'N·m'),
    row('A held compression leaks away in about', crankshaft.leakDownS, 's'),
    row('Temperature of the oil', crankshaft.oilTemperatureC, '°C'),
  ],
  combustion: ({ firing }) => [
    row('Fires from a rail pressure of', mPa(firing.fromPa), 'MPa'),
    row('Idle', firing.idleRadS / RAD_S_PER_RPM, 'rpm'),
    row('High idle', firing.highIdleRadS / RAD_S_PER_RPM, 'rpm'),
    row('Loaded pull, held at', firing.loadRadS / RAD_S_PER_RPM, 'rpm'),
    row('Load of that pull', firing.loadNm, 'N·m'),
    row('Most torque at idle', firing.mostNm, 'N·m'),
    row('Most torque with the pedal down', firing.fullNm, 'N·m'),
    row('Torque follows within about', firing.lagS, 's'),
    row('Efficiency', percent(firing.efficiency), '%'),
  ],
  tank: ({ tank, fuelTemperatureC }) => [
    row('Holds', tank.volumeM3 * L_PER_M3, 'L'),
    row('Filled at the start to', percent(tank.filledShare), '%'),
    row('Pick-up draws air below', percent(tank.pickUpShare), '%'),
    row('Temperature of the fuel', fuelTemperatureC, '°C'),
  ],
  'suction line': ({ suction }) => [
    row('Pull at 1 L/min', kPa(suction.linePaS * ONE_L_MIN), 'kPa'),
    row('Air in what the pump draws', percent(suction.airShare), '%'),
  ],
  'suction filter': ({ suction }) => [row('Pull at 1 L/min', kPa(suction.filterPaS * ONE_L_MIN), 'kPa')],
  'supply pump': ({ supply }) => [
    row('Moves in each turn of the engine', supply.displacementM3 * ML_PER_M3, 'mL'),
    row('Slips back at 1,000 kPa', lPerMin(supply.slipM3SPa * GALLERY_PA), 'L/min'),
    row('Its relief opens at', kPa(supply.reliefPa), 'kPa'),
    row('Relief lets through for each 100 kPa more', lPerMin(supply.reliefM3SPa * STEP_PA), 'L/min'),
    row('Leaks back while it stands, at 1,000 kPa', mlPerMin(supply.backLeakM3SPa * GALLERY_PA), 'mL/min'),
  ],
  'pressure filter': ({ supply }) => [
    row('Drop at 1 L/min', kPa(supply.filterPaS * ONE_L_MIN), 'kPa'),
    row('Space behind it takes for each 100 kPa', supply.complianceM3Pa * STEP_PA * ML_PER_M3, 'mL'),
    row('Fuel that sweeps the air out', supply.airVolumeM3 * ML_PER_M3, 'mL'),
  ],
  'metering valve': ({ metering }) => [
    row('Lets through when open, at 1,000 kPa', lPerMin(metering.fullM3SRootPa * Math.sqrt(GALLERY_PA)), 'L/min'), // prettier-ignore
    row('Opens at most', percent(metering.mostOpen), '%'),
    row('Stays put for changes below', percent(metering.stickBand), '%'),
    row('Follows within about', metering.lagS, 's'),
    row('Leak of the housing at 1,000 kPa', lPerMin(metering.crackM3SPa * GALLERY_PA), 'L/min'),
  ],
  'pumping elements': ({ pump, ...engine }) => [
    row('Both move in each turn of the engine', pump.displacementM3 * ML_PER_M3, 'mL'),
    row('Elements that work', pump.elements[0] + pump.elements[1], 'of 2'),
    row('Strokes of each in a turn', pump.strokesPerTurn, ''),
    row('Half filled at', kPa(pump.halfFillPa), 'kPa'),
    row('Dead space beside the stroke', percent(pump.deadRatio), '%'),
    row('Diameter of the plunger', milli(pump.gap.diameterM), 'mm'),
    row('Play all round the plunger', micro(pump.gap.clearanceM), 'µm'),
    row('Length of that gap', milli(pump.gap.lengthM), 'mm'),
    row('Lubrication at 1,000 kPa', mlPerMin(pump.lubricationM3SPa * GALLERY_PA), 'mL/min'),
    row('Heat to warm the pump by 1 °C', engine.pumpHeatCapacityJK / 1e3, 'kJ'),
  ],
  'outlet check valves': ({ pump }) => [
    row('Leak back at 100 MPa', mlPerMin(pump.checkLeakM3SPa * RAIL_PA), 'mL/min'),
  ],
  rail: ({ rail }) => [
    row('Holds', rail.volumeM3 * ML_PER_M3, 'mL'),
    row('Bulk modulus of the fuel', mPa(rail.stiffness.bulkModulusPa), 'MPa'),
    row('Twice as stiff at', mPa(rail.stiffness.stiffeningPa), 'MPa'),
  ],
  'rail sensor': ({ rail }) => [
    row('Shows of the true pressure', percent(rail.sensorGain), '%'),
    row('And adds', mPa(rail.sensorOffsetPa), 'MPa'),
    row('Noise', mPa(rail.sensorNoisePa), 'MPa'),
  ],
  injectors: ({ injectors }) => [
    row('Leak at rest, all together, at 100 MPa', mlPerMin(injectors.leakM3SPa * RAIL_PA), 'mL/min'),
    row('Used to work them, for each turn', injectors.controlM3 * ML_PER_M3, 'mL'),
  ],
  'relief valve': ({ rail: { relief } }) => [
    row('Opens at', mPa(relief.crackingPa), 'MPa'),
    row('Lets through for each MPa more', mlPerMin(relief.slopeM3SPa * STEP_RAIL_PA), 'mL/min'),
    row('Leak while shut, at 100 MPa', mlPerMin(relief.leakM3SPa * RAIL_PA), 'mL/min'),
  ],
  'test relief valve': ({ relief }) => [
    row('Opens at', mPa(relief.crackingPa), 'MPa'),
    row('Lets through for each MPa more', mlPerMin(relief.slopeM3SPa * STEP_RAIL_PA), 'mL/min'),
  ],
  'return lines': ({ drain }) => [
    row('Run out within about', drain.lagS, 's'),
    row('Stays hanging in the line', drain.clingM3 * ML_PER_M3, 'mL'),
  ],
  vessel: ({ vesselCapacityM3 }) => [
    row('Holds', vesselCapacityM3 * ML_PER_M3, 'mL'),
    row('One division', BENCH_CYLINDER.graduationMl, 'mL'),
  ],
  controller: ({ crankshaft, coolantTemperatureC }) => [
    row('Renews the speed after each', 720 / crankshaft.cylinders, '° of turning'),
    row('Coolant at the start', coolantTemperatureC, '°C'),
  ],
  bridge: ({ bridge }) => [
    row('Messages lost', percent(bridge.framesLost), '%'),
    row('Looseness of the cable', percent(bridge.looseness), '%'),
  ],
};

/** The constants of a part as they are to be shown, of a sound engine unless another is given. */
export const modelConstants = (part: ModelPartId, engine = SOUND_ENGINE): readonly FactRow[] =>
  ROWS[part](engine);
