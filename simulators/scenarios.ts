import { CLEAN_LINE, type LineNoise } from './bridge/line-noise.ts';
import { applyDefects, type Defect } from './engine/defects.ts';
import { SOUND_ENGINE, type EngineParameters } from './engine/engine-parameters.ts';

/** What the run must earn on the demonstration sheet when done as asked (two cranks of 15 s, vessel read right). */
export interface Promised {
  readonly verdict: 'pass' | 'marginal' | 'fail low' | 'not valid';
  /** For `not valid`: why. */
  readonly because: 'too slow for the chart' | 'engine started' | null;
}

/** A named run as data. All numbers are invented. */
export interface Scenario {
  readonly id: ScenarioId;
  readonly title: string;
  readonly story: string;
  readonly defects: readonly Defect[];
  readonly seed: number;
  readonly fuelTemperatureC: number;
  readonly batteryTemperatureC: number;
  readonly oilTemperatureC: number;
  /** Turns after which it fires; null where injection is blocked as it should be. */
  readonly firesAfterTurns: number | null;
  readonly speedEveryMs: 10 | 20;
  readonly noise: LineNoise;
  readonly promise: Promised;
}

export type ScenarioId = 'healthy' | 'worn' | 'leaking' | 'weak-battery' | 'engine-fires';

const ORDINARY = {
  defects: [],
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
    defects: [{ kind: 'worn pump elements', severity: 0.66 }],
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
    firesAfterTurns: 12,
    promise: { verdict: 'not valid', because: 'engine started' },
  },
};

export const SCENARIOS: readonly Scenario[] = Object.values(SCENARIO_BY_ID);

/** The scenario of that name; null for a name that is in nobody's list. */
export const findScenario = (id: string): Scenario | null =>
  SCENARIOS.find((scenario) => scenario.id === id) ?? null;

/** The engine that a scenario describes. */
export function engineOf(scenario: Scenario): EngineParameters {
  const { battery, crankshaft, firing, ...sound } = SOUND_ENGINE;
  const placed: EngineParameters = {
    ...sound,
    battery: { ...battery, temperatureC: scenario.batteryTemperatureC },
    crankshaft: { ...crankshaft, oilTemperatureC: scenario.oilTemperatureC },
    firing: { ...firing, afterTurns: scenario.firesAfterTurns },
    fuelTemperatureC: scenario.fuelTemperatureC,
    coolantTemperatureC: scenario.oilTemperatureC,
  };
  return applyDefects(placed, scenario.defects);
}
