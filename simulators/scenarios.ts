import { CLEAN_LINE, type LineNoise } from './bridge/line-noise.ts';
import { applyDefects, type Defect } from './engine/defects.ts';
import { AS_DRIVEN, DELIVERY_TEST_RIG, type Rig } from './engine/rig.ts';
import { SOUND_ENGINE, type EngineParameters } from './engine/engine-parameters.ts';

/** What the run must earn on the demonstration sheet when done as asked (two cranks of 15 s, vessel read right). */
export interface Promised {
  readonly verdict: 'pass' | 'marginal' | 'fail low' | 'not valid';
  /** For `not valid`: why. */
  readonly because: 'too slow for the chart' | 'engine started' | null;
}

/** An engine at the bench as data, whether it has a name in the list or was drawn for training. All numbers are invented. */
export interface BenchScenario {
  /** What the driver says, for a job on this engine. */
  readonly complaint: string;
  readonly identity: EngineIdentity;
  /** How the engine stands there: set up for the crank delivery test, or as it was driven in. */
  readonly rig: Rig;
  readonly defects: readonly Defect[];
  readonly seed: number;
  readonly fuelTemperatureC: number;
  readonly batteryTemperatureC: number;
  readonly oilTemperatureC: number;
  /** Turns after which it fires; null where injection is blocked as it should be. */
  readonly firesAfterTurns: number | null;
  readonly speedEveryMs: 10 | 20;
  readonly noise: LineNoise;
}

/** A named run. */
export interface Scenario extends BenchScenario {
  readonly id: ScenarioId;
  readonly title: string;
  readonly story: string;
  readonly promise: Promised;
}

/** What is written on the invented engine and its invented vehicle. */
export interface EngineIdentity {
  readonly unit: string;
  readonly engineFamily: string;
  readonly serialNumber: string;
  readonly hours: number;
}

export type ScenarioId =
  'healthy' | 'worn' | 'leaking' | 'weak-battery' | 'engine-fires' | 'leaking-pump' | 'sound-engine';

/** What the engines of the list share. */
export const ORDINARY = {
  defects: [],
  complaint: 'Low rail pressure code; long cranking.',
  identity: { unit: 'Bench', engineFamily: 'Bench engine', serialNumber: '10001', hours: 11_842 },
  rig: DELIVERY_TEST_RIG,
  fuelTemperatureC: 20,
  batteryTemperatureC: 20,
  oilTemperatureC: 20,
  firesAfterTurns: null,
  speedEveryMs: 10,
  noise: CLEAN_LINE,
} as const;

/** The demonstration list; golden tests hold each promise. */
export const SCENARIO_BY_ID: Readonly<Record<ScenarioId, Scenario>> = {
  healthy: {
    ...ORDINARY,
    id: 'healthy',
    title: 'Healthy pump',
    story:
      'The trouble code came back after a filter change, so the pump is under suspicion. Invented engine.',
    seed: 11,
    promise: { verdict: 'pass', because: null },
  },
  worn: {
    ...ORDINARY,
    id: 'worn',
    title: 'Worn pump',
    story:
      'Long years of work; it starts well enough but derates on hills when the fuel is hot. Invented engine.',
    defects: [{ kind: 'worn pump elements', severity: 0.75 }],
    seed: 23,
    speedEveryMs: 20,
    promise: { verdict: 'marginal', because: null },
  },
  leaking: {
    ...ORDINARY,
    id: 'leaking',
    title: 'Leaking outlet check valve',
    story:
      'Cranks for long before it starts and stalls under load; rail pressure never comes up. Invented engine.',
    defects: [{ kind: 'leaking outlet check valve', severity: 0.6 }],
    seed: 37,
    promise: { verdict: 'fail low', because: null },
  },
  'weak-battery': {
    ...ORDINARY,
    id: 'weak-battery',
    title: 'Tired batteries',
    story:
      'It stood outside for a week of frost, and the ground cable is green. The pump may well be sound. Invented engine.',
    defects: [
      { kind: 'weak battery', severity: 0.4 },
      { kind: 'corroded starter cable', severity: 0.35 },
    ],
    seed: 41,
    fuelTemperatureC: 8,
    batteryTemperatureC: -5,
    oilTemperatureC: 8,
    promise: { verdict: 'not valid', because: 'too slow for the chart' },
  },
  'engine-fires': {
    ...ORDINARY,
    id: 'engine-fires',
    title: 'The engine starts',
    story:
      'Injection was not blocked before the test: a few seconds into the first crank it starts. Invented engine.',
    seed: 53,
    rig: { ...DELIVERY_TEST_RIG, portsBlocked: false, injectionBlocked: false },
    firesAfterTurns: 12,
    promise: { verdict: 'not valid', because: 'engine started' },
  },
  'leaking-pump': {
    ...ORDINARY,
    id: 'leaking-pump',
    title: 'The whole job',
    story:
      'A low rail pressure code comes back on long climbs. Work it from the complaint to the decision. Invented engine.',
    complaint: 'Low rail pressure code comes back on long climbs; starts badly when hot.',
    identity: { unit: 'Bench 7', engineFamily: 'Bench engine', serialNumber: '10007', hours: 9_417 },
    defects: [
      { kind: 'leaking outlet check valve', severity: 0.6 },
      { kind: 'worn pump elements', severity: 0.6 },
    ],
    rig: AS_DRIVEN,
    firesAfterTurns: 3,
    seed: 61,
    promise: { verdict: 'fail low', because: null },
  },
  'sound-engine': {
    ...ORDINARY,
    id: 'sound-engine',
    title: 'A sound engine',
    story: 'Nothing is wrong with it: what every check gives on an engine in order. Invented engine.',
    complaint: 'None: for comparison.',
    identity: { unit: 'Bench 1', engineFamily: 'Bench engine', serialNumber: '10002', hours: 2_305 },
    rig: AS_DRIVEN,
    firesAfterTurns: 3,
    seed: 67,
    promise: { verdict: 'pass', because: null },
  },
};

const ALL: readonly Scenario[] = Object.values(SCENARIO_BY_ID);

/** Engines that stand ready for the crank delivery test. */
export const SCENARIOS: readonly Scenario[] = ALL.filter(({ rig }) => rig.testValve);

/** Engines as they were driven in, for the whole job. */
export const JOB_SCENARIOS: readonly Scenario[] = ALL.filter(({ rig }) => !rig.testValve);

/** The scenario of that name; null for a name that is in nobody's list. */
export const findScenario = (id: string): Scenario | null =>
  ALL.find((scenario) => scenario.id === id) ?? null;

/** The engine that a scenario describes. */
export function engineOf(scenario: BenchScenario): EngineParameters {
  const { battery, crankshaft, firing, ...sound } = SOUND_ENGINE;
  const placed: EngineParameters = {
    ...sound,
    battery: { ...battery, temperatureC: scenario.batteryTemperatureC },
    crankshaft: { ...crankshaft, oilTemperatureC: scenario.oilTemperatureC },
    firing: { ...firing, afterTurns: scenario.firesAfterTurns },
    fuelTemperatureC: scenario.fuelTemperatureC,
    coolantTemperatureC: scenario.oilTemperatureC,
    hours: scenario.identity.hours,
  };
  return applyDefects(placed, scenario.defects);
}
