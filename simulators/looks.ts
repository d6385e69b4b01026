import { benchView, createBench, stepBench, type BenchState } from './bench.ts';
import { chanceFrom, nextChance, uniform, type Chance } from './chance.ts';
import type { Defect, DefectKind } from './engine/defects.ts';
import type { BenchScenario } from './scenarios.ts';

/** What somebody who looks, listens or measures by hand finds at one point of an inspection of the shipped procedure. */
export interface BenchLook {
  readonly inOrder: boolean;
  /** One sentence, as a colleague at the engine would call it out. */
  readonly words: string;
}

const ODD: Readonly<Record<string, string>> = {
  'fuel-quality/vent': 'Air rushes in when the cap is opened.',
  'filters/indicator': 'The indicator stands in its red area at high idle.',
  'filters/age': 'The date on the filter is long past.',
  'filters/element': 'The element is black and slimy.',
  'air-in-fuel/bubbles': 'A steady stream of bubbles runs through the clear hose.',
  'air-in-fuel/connections': 'A clamp on the suction hose is loose and damp.',
};

/**
 * How likely somebody sees the point out of order, at severity 0 and at severity 1, straight between (invented: the bench has no eyes). Nothing is seen
 * that is not there, and what the bench does not hold (level, age of the fuel, water) is in order.
 */
const SEEN: Partial<Record<DefectKind, Readonly<Record<string, readonly [least: number, most: number]>>>> = {
  'clogged filter': { 'filters/element': [0.4, 1], 'filters/age': [0.4, 0.7], 'filters/indicator': [0, 1] },
  'suction restriction': { 'fuel-quality/vent': [0, 0.3] },
  'air leak': { 'air-in-fuel/bubbles': [0.5, 1], 'air-in-fuel/connections': [0.3, 0.5] },
};

/** Voltage at rest, while cranking, lost on the way to the starter, V, and speed, rpm, that are still in order on a 12 V engine (common practice, no source). */
const LEAST_REST_V = 12.3;
const LEAST_CRANKING_V = 10;
const MOST_DROP_V = 1;
const LEAST_RPM = 160;

/**
 * What is found at each point of one check, by its id, on an engine with these defects. The same seed gives the same look: somebody who overlooked it
 * looks past it again. Points of checks that the bench does not know are in order. The batteries are measured once, on a turning engine.
 */
export function lookAround(
  scenario: BenchScenario,
  seed: number,
  checkId: string,
): (pointId: string) => BenchLook {
  if (checkId === 'batteries') {
    const starting = measureStarting(scenario);
    return (pointId) => lookAtBatteries(starting, pointId);
  }
  return (pointId) => {
    const point = `${checkId}/${pointId}`;
    const seen = scenario.defects.some((defect) => showsAt(defect, point, chanceAt(seed, point)));
    return seen
      ? { inOrder: false, words: ODD[point] ?? 'Not in order.' }
      : { inOrder: true, words: 'Nothing odd to see.' };
  };
}

function showsAt({ kind, severity }: Defect, point: string, chance: Chance): boolean {
  const odds = SEEN[kind]?.[point];
  return odds !== undefined && uniform(chance) < odds[0] + (odds[1] - odds[0]) * severity;
}

function chanceAt(seed: number, point: string): Chance {
  const mixed = [...point].reduce((sum, letter) => Math.imul(sum ^ letter.charCodeAt(0), 0x01000193), seed);
  return nextChance(nextChance(chanceFrom(mixed)));
}

function lookAtBatteries({ restV, crankingV, dropV, rpm }: Starting, pointId: string): BenchLook {
  const weak = crankingV < LEAST_CRANKING_V || dropV > MOST_DROP_V;
  switch (pointId) {
    case 'rest':
      return { inOrder: restV >= LEAST_REST_V, words: `${restV.toFixed(1)} V at rest.` };
    case 'cranking':
      return {
        inOrder: crankingV >= LEAST_CRANKING_V,
        words: `${crankingV.toFixed(1)} V at the batteries while cranking.`,
      };
    case 'drop':
      return {
        inOrder: dropV <= MOST_DROP_V,
        words: `${dropV.toFixed(1)} V are lost between batteries and starter, both ways together.`,
      };
    default:
      return {
        inOrder: weak || rpm >= LEAST_RPM,
        words: `It turns at ${rpm.toFixed(0)} rpm${weak ? ', no wonder at that voltage' : ''}.`,
      };
  }
}

interface Starting {
  readonly restV: number;
  readonly crankingV: number;
  readonly dropV: number;
  readonly rpm: number;
}

/** Cranked for 2.5 s with injection blocked, then read over 1.5 s. */
function measureStarting(scenario: BenchScenario): Starting {
  const fresh = createBench(scenario, 1);
  const rest = stepBench(fresh, { fromHost: null, commands: [{ kind: 'injection', blocked: true }] }, 20);
  const crank = { fromHost: null, commands: [{ kind: 'key', at: 'crank' }] } as const;
  let state = stepBench(rest.state, crank, 2500).state;
  const read: BenchState[] = [];
  for (let piece = 0; piece < 75; piece += 1) {
    state = stepBench(state, { fromHost: null }, 20).state;
    read.push(state);
  }
  const mean = (of: (bench: BenchState) => number) =>
    read.reduce((sum, bench) => sum + of(bench), 0) / read.length;
  return {
    restV: rest.state.engine.batteryV,
    crankingV: mean(({ engine }) => engine.batteryV),
    dropV: mean(({ engine }) => engine.starterA * engine.parameters.starter.cableOhm),
    rpm: mean((bench) => benchView(bench).speedRpm),
  };
}
