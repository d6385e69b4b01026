import type { BenchCommand } from '../../simulators/bench-command.ts';
import { benchView, createBench, stepBench, type BenchState } from '../../simulators/bench.ts';
import type { Defect } from '../../simulators/engine/defects.ts';
import { SCENARIO_BY_ID, type Scenario } from '../../simulators/scenarios.ts';
import { bytesOf, HANDSHAKE, readLines, textOf, word } from './bench-runs.ts';

/** The bench so many seconds later, the commands given at the beginning; `each` sees it after every 20 ms. */
export function after(
  bench: BenchState,
  seconds: number,
  commands: readonly BenchCommand[] = [],
  each: (bench: BenchState, seconds: number) => void = () => {},
): BenchState {
  let state = bench;
  for (let piece = 0; piece < Math.round(seconds * 50); piece += 1) {
    state = stepBench(state, { fromHost: null, commands: piece === 0 ? commands : [] }, 20).state;
    each(state, 0.02 * (piece + 1));
  }
  return state;
}

export const key = (at: 'off' | 'on' | 'crank'): BenchCommand => ({ kind: 'key', at });
export const railMPa = (bench: BenchState): number => bench.engine.fuel.railPa / 1e6;
export const levelMl = (bench: BenchState): number => benchView(bench).vessel.levelMl;

const engineWith = (id: 'healthy' | 'sound-engine', defects: readonly Defect[]): Scenario => ({
  ...SCENARIO_BY_ID[id],
  defects,
});
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/** One crank of 6 s through the test valve. */
export function deliveryRun(defects: readonly Defect[]) {
  const rpm: number[] = [];
  const volts: number[] = [];
  const cranked = after(
    createBench(engineWith('healthy', defects), 1),
    6,
    [key('crank')],
    (bench, seconds) => {
      if (seconds < 2) return;
      rpm.push(benchView(bench).speedRpm);
      volts.push(bench.engine.batteryV);
    },
  );
  const delivery = levelMl(after(cranked, 1, [key('on')]));
  return { delivery, crankRpm: mean(rpm), batteryV: mean(volts) };
}

/** As driven in, injection blocked, cranked for 4 s. `buildSeconds` is Infinity where 20 MPa are not reached. */
export function crankingRun(defects: readonly Defect[]) {
  let buildSeconds = Infinity;
  const supply: number[] = [];
  const blocked: readonly BenchCommand[] = [{ kind: 'injection', blocked: true }, key('crank')];
  after(createBench(engineWith('sound-engine', defects), 1), 4, blocked, (bench, seconds) => {
    if (railMPa(bench) >= 20) buildSeconds = Math.min(buildSeconds, seconds);
    if (seconds > 3) supply.push(benchView(bench).gauges.supplyKPa);
  });
  return { buildSeconds, supplyCranking: mean(supply) };
}

/** Started, then idle, raised rail, high idle and key off. Null where it did not start. */
export function runningRun(defects: readonly Defect[]) {
  const idle = after(after(createBench(engineWith('sound-engine', defects), 1), 4, [key('crank')]), 6, [
    key('on'),
  ]);
  if (!benchView(idle).engineRunning) return null;
  const collect = (from: BenchState, into: 'pump return' | 'injector return' | 'relief valve return') =>
    levelMl(after(from, 5, [{ kind: 'line', into }, { kind: 'empty vessel' }]));
  const rail: number[] = [];
  const steady = after(idle, 5, [], (bench) => rail.push(railMPa(bench)));
  const raised = after(idle, 4, [{ kind: 'raise rail', on: true }]);
  const high = benchView(after(idle, 6, [{ kind: 'pedal', at: 'high idle' }]));
  const at: number[] = [];
  after(steady, 8, [key('off')], (bench, seconds) => {
    if (railMPa(bench) < 35 && at.length === 0) at.push(seconds);
    if (railMPa(bench) < 20 && at.length === 1) at.push(seconds);
  });
  return {
    supplyIdle: benchView(idle).gauges.supplyKPa,
    supplyHighIdle: high.gauges.supplyKPa,
    restriction: high.gauges.suctionKPa,
    railSpread: spread(rail),
    injectorReturn: collect(idle, 'injector return'),
    pumpReturn: collect(raised, 'pump return'),
    reliefReturn: collect(raised, 'relief valve return'),
    decaySeconds: (at[1] ?? 8) - (at[0] ?? 0),
  };
}

/** What a bridge says in 12 s with the key on, cranked for the last 8: speed frames, their longest gap, and rail pressure as reported. */
export function bridgeRun(defects: readonly Defect[]) {
  const scenario = engineWith('healthy', defects);
  let { state, toHost } = stepBench(
    createBench(scenario, 1),
    { fromHost: bytesOf(HANDSHAKE), commands: [key('on')] },
    4000,
  );
  let text = textOf(toHost);
  ({ state, toHost } = stepBench(state, { fromHost: null, commands: [key('crank')] }, 8000));
  text += textOf(toHost);
  const lines = readLines(text);
  const times = lines.filter(({ pgn }) => pgn === 61444).map(({ timeMs }) => timeMs);
  const rail = lines
    .filter(({ pgn, timeMs }) => pgn === 65243 && timeMs > 7000)
    .map(({ data }) => word(data, 2) / 256);
  return {
    speedFrames: times.length,
    longestGapMs: Math.max(...times.map((ms, place) => (place === 0 ? 0 : ms - times[place - 1]!))),
    reportedRailSpread: spread(rail),
    reportedRailOff: Math.abs(mean(rail) - railMPa(state)),
  };
}
