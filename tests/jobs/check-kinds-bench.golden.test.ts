import { describe, expect, it } from 'vitest';
import type { BenchCommand } from '../../simulators/bench-command.ts';
import { createBench, stepBench } from '../../simulators/bench.ts';
import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import type { CheckSettings } from '../../src/checks/check-settings.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import { checkFacts, type CheckFacts } from '../../src/jobs/check-facts.ts';
import { startingValues } from '../../src/jobs/run-entries.ts';
import type { LimitSheet } from '../../src/limits/limit-sheet.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import { finishPipeline, startPipeline, stepPipeline } from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { noiseFrom } from '../checks/example-signals.ts';
import { bytesOf, HANDSHAKE } from '../simulators/bench-runs.ts';
import { judgeExample, sheetOf } from './example-checks.ts';

/** Key on, cranked for 4 s until it runs, idle, under load, idle, shut off, key on again so that the bus does not fall asleep: what the bench sent, and what was true. */
const DRIVE: readonly (readonly [seconds: number, command: BenchCommand])[] = [
  [1, { kind: 'key', at: 'on' }],
  [4, { kind: 'key', at: 'crank' }],
  [16, { kind: 'key', at: 'on' }],
  [14, { kind: 'pedal', at: 'load' }],
  [10, { kind: 'pedal', at: 'idle' }],
  [2, { kind: 'key', at: 'off' }],
  [14, { kind: 'key', at: 'on' }],
];

interface Arrival {
  readonly atMs: number;
  readonly bytes: Uint8Array;
}

interface Played {
  readonly pieces: readonly Arrival[];
  /** True rail pressure and time since the beginning, each 20 ms. */
  readonly truth: readonly { readonly atMs: number; readonly railKPa: number }[];
}

function play(scenario: 'sound-engine' | 'leaking-pump'): Played {
  let state = createBench(SCENARIO_BY_ID[scenario], 1);
  let fromHost: Uint8Array | null = bytesOf(HANDSHAKE);
  const pieces: Arrival[] = [];
  const truth: Played['truth'][number][] = [];
  for (const [seconds, command] of DRIVE)
    for (let piece = 0; piece < seconds * 50; piece++) {
      const step = stepBench(state, { fromHost, commands: piece === 0 ? [command] : [] }, 20);
      state = step.state;
      fromHost = null;
      pieces.push({ atMs: state.timeMs, bytes: step.toHost });
      const { fuel } = state.engine;
      truth.push({ atMs: state.timeMs, railKPa: fuel.railPa / 1000 });
    }
  return { pieces, truth };
}

/** The facts of a run after these pieces of bytes, as the page gathers them. */
function factsOf(pieces: readonly Arrival[]): CheckFacts {
  let state = startPipeline({ wire: 'slcan', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null });
  for (const { atMs, bytes } of pieces)
    state = stepPipeline(state, { kind: 'bytes', atMs: millis(atMs), bytes });
  state = finishPipeline(state);
  return checkFacts(state, crankTable(state, { over: true }), startingValues(null), '2026-01-02');
}

/** The same bytes with several arrivals cut into pieces of one byte to a few hundred, each at the instant at which it came. */
function recut(pieces: readonly Arrival[], seed: number): readonly Arrival[] {
  const noise = noiseFrom(seed);
  return pieces.flatMap(({ atMs, bytes }) => {
    const cut: Arrival[] = [];
    for (let at = 0; at < bytes.length;) {
      const length = 1 + Math.floor((noise() + 0.5) ** 3 * 400);
      cut.push({ atMs, bytes: bytes.subarray(at, at + length) });
      at += length;
    }
    return cut;
  });
}

const STEADY: CheckSettings = {
  kind: 'steady pressure',
  signal: 'supplyPressure',
  speed: { minRpm: 500, maxRpm: 1000 },
  leastSeconds: 5,
  steadyWithinKPa: 120,
  vacuum: false,
};
const BUILD: CheckSettings = {
  kind: 'pressure build',
  signal: 'railPressure',
  fromKPa: 0,
  toKPa: 20_000,
  from: 'crank start',
};
const DECAY: CheckSettings = {
  kind: 'pressure decay',
  signal: 'railPressure',
  fromKPa: 25_000,
  toKPa: 10_000,
};
const DEVIATION: CheckSettings = {
  kind: 'pressure deviation',
  actual: 'railPressure',
  commanded: 'commandedRailPressure',
  stretchSeconds: 5,
  speedBandsRpm: [900, 1500],
  loadBandsPercent: [25, 75],
  leastCommandedKPa: 80_000,
  leastSeconds: 20,
};
const runs = { 'sound-engine': play('sound-engine'), 'leaking-pump': play('leaking-pump') };
const facts = {
  'sound-engine': factsOf(runs['sound-engine'].pieces),
  'leaking-pump': factsOf(runs['leaking-pump'].pieces),
};
const judge = (scenario: keyof typeof runs, settings: CheckSettings, sheet: LimitSheet) =>
  judgeExample(settings, sheet, facts[scenario]);

/** How long the true pressure took, from the list of the bench itself. */
function trueDecayMs(scenario: keyof typeof runs): number {
  const { truth } = runs[scenario];
  const off = truth.findLastIndex(({ railKPa }) => railKPa > 25_000);
  const low = truth.findIndex(({ railKPa }, place) => place > off && railKPa <= 10_000);
  return truth[low]!.atMs - truth[off]!.atMs;
}

describe('the checks on the bench engines', () => {
  // Issue 6 (common practice, no source): 1200 to 1350 kPa of supply pressure at idle on the sound engine. Sensor and step: a few kPa.
  // But SPN 94 ends at 1000 kPa: at least 800 is sure, 1150 to 1400 is not known from the bus, and no false "fail low".
  it('supply pressure at idle of the sound engine passes 800 kPa; for 1150 kPa a gauge must be read', () => {
    expect(judge('sound-engine', STEADY, sheetOf('pressure', 800, null)).verdict?.word).toBe('pass');
    const { verdict } = judge('sound-engine', STEADY, sheetOf('pressure', 1150, 1400));
    expect(verdict).toMatchObject({ word: 'not valid', reasons: [{ code: 'check.at-top-of-range' }] });
  });

  it.each(['sound-engine', 'leaking-pump'] as const)(
    'the decay of the %s takes what it truly took',
    (scenario) => {
      const { valueSummary } = judge(scenario, DECAY, sheetOf('time', 0, null));
      const trueMs = trueDecayMs(scenario);
      // The sensor lags alike at both ends; 20 ms of the list and 100 ms of the broadcast on either side.
      expect(Math.abs((valueSummary?.value ?? NaN) - trueMs)).toBeLessThan(0.05 * trueMs + 250);
    },
  );

  it('tell the leaking pump from the sound one by the decay', () => {
    // Half-way between what the two truly took decides: each is on its own side.
    const middle = (trueDecayMs('leaking-pump') + trueDecayMs('sound-engine')) / 2;
    expect(judge('sound-engine', DECAY, sheetOf('time', middle, null)).verdict?.word).toBe('pass');
    expect(judge('leaking-pump', DECAY, sheetOf('time', middle, null)).verdict?.word).toBe('fail low');
  });

  it.each(['sound-engine', 'leaking-pump'] as const)(
    'the build of the %s is what it truly was',
    (scenario) => {
      const { valueSummary } = judge(scenario, BUILD, sheetOf('time', null, 6000));
      // The starter was turned on at 1 s; speed is reported up to 0.6 s late, rail pressure twice a second.
      const trueMs = runs[scenario].truth.find(({ railKPa }) => railKPa >= 20_000)!.atMs - 1000;
      expect(Math.abs((valueSummary?.value ?? NaN) - trueMs)).toBeLessThan(600 + 500);
      expect(judge(scenario, BUILD, sheetOf('time', null, 6000)).verdict?.word).toBe('pass');
    },
  );

  it('the sound engine holds its rail within a tenth under load, the leaking one falls further short', () => {
    const short = (scenario: keyof typeof runs) =>
      judge(scenario, DEVIATION, sheetOf('pressure', null, 20_000)).valueSummary?.value ?? NaN;
    expect(short('leaking-pump')).toBeGreaterThan(short('sound-engine'));
  });
});

describe('live and replayed', () => {
  it.each([1, 2, 3])('give the same for the bytes cut at other places (%i)', (seed) => {
    const again = factsOf(recut(runs['leaking-pump'].pieces, seed));
    for (const settings of [STEADY, BUILD, DECAY, DEVIATION]) {
      const quantity =
        settings.kind === 'steady pressure' || settings.kind === 'pressure deviation' ? 'pressure' : 'time';
      const sheet = sheetOf(quantity, 100, null);
      expect(judgeExample(settings, sheet, again)).toEqual(judge('leaking-pump', settings, sheet));
    }
  });
});
