import { benchView, createBench, stepBench, type BenchState } from '../../simulators/bench.ts';
import type { BenchCommand } from '../../simulators/bench-command.ts';
import type { Scenario } from '../../simulators/scenarios.ts';
import { benchSetUp, setUpCommands } from '../../src/app/bench-set-up.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineState,
} from '../../src/pipeline/pipeline.ts';
import { millis } from '../../src/quantities/time.ts';
import { bytesOf, HANDSHAKE } from '../simulators/bench-runs.ts';

/** One carrying-out of a check at the bench: what the bridge sent, heard by the product, and what the person wrote down. */
export interface PlayedCheck {
  readonly pipeline: PipelineState;
  readonly entries: readonly RunEntry[];
}

const NOTED = { atIso: '2026-01-02T10:00:00Z', reason: '' };
const key = (at: 'off' | 'on' | 'crank'): BenchCommand => ({ kind: 'key', at });
/** Nobody holds a starter for longer (common practice, no source). */
const LONGEST_CRANK_S = 15;
/** A 500 mL cylinder is poured out here, and what comes after is added. */
const NEARLY_FULL_ML = 440;

/** The bench in the hands of somebody who carries out one check, and the product listening. */
class Player {
  #bench: BenchState;
  #fromHost: Uint8Array | null = bytesOf(HANDSHAKE);
  #pipeline = startPipeline({
    wire: 'slcan',
    crankSettings: DEFAULT_CRANK_SETTINGS,
    givenIntervalMs: null,
  });

  constructor(scenario: Scenario, seed: number) {
    this.#bench = createBench(scenario, seed);
  }

  get nowMs(): number {
    return this.#bench.timeMs;
  }

  get view() {
    return benchView(this.#bench);
  }

  act(seconds: number, ...commands: readonly BenchCommand[]): void {
    for (let piece = 0; piece < Math.round(seconds * 10); piece += 1) {
      const inputs = { fromHost: this.#fromHost, commands: piece === 0 ? commands : [] };
      const { state, toHost } = stepBench(this.#bench, inputs, 100);
      this.#bench = state;
      this.#fromHost = null;
      const atMs = millis(state.timeMs);
      this.#pipeline = stepPipeline(this.#pipeline, { kind: 'bytes', atMs, bytes: toHost });
    }
  }

  /** Cranks until it runs; false where it does not. */
  start(): boolean {
    this.act(1, key('on'));
    for (let second = 0; second < LONGEST_CRANK_S && !this.view.engineRunning; second += 1)
      this.act(1, key('crank'));
    this.act(2, key('on'));
    return this.view.engineRunning;
  }

  /** Collects for so long; what was read off the vessel. */
  collect(seconds: number): readonly number[] {
    const readings: number[] = [];
    this.act(0.1, { kind: 'empty vessel' });
    for (let second = 0; second < seconds; second += 1) {
      this.act(1);
      if (this.view.vessel.levelMl < NEARLY_FULL_ML || second === seconds - 1) continue;
      readings.push(this.view.vessel.readingMl ?? 0);
      this.act(0, { kind: 'empty vessel' });
    }
    return [...readings, this.view.vessel.readingMl ?? 0];
  }

  finish(...entries: readonly RunEntry[]): PlayedCheck {
    return { pipeline: finishPipeline(this.#pipeline), entries };
  }
}

const volume = (readingsMl: readonly number[]): RunEntry => ({
  ...NOTED,
  kind: 'volume',
  readingsMl: [...readingsMl],
  typed: readingsMl.join(' + '),
});

/** Runs at this for so long; null where the engine does not start. */
const running =
  (seconds: number) =>
  (player: Player): PlayedCheck | null => {
    if (!player.start()) return null;
    player.act(seconds);
    return player.finish();
  };

const cranking =
  (seconds: number) =>
  (player: Player): PlayedCheck => {
    player.act(1, key('on'));
    player.act(seconds, key('crank'));
    player.act(2, key('on'));
    return player.finish();
  };

/** Settles, then collects for 30 s by the clock. */
function collecting(player: Player): PlayedCheck | null {
  if (!player.start()) return null;
  player.act(10);
  const startMs = player.nowMs + 100;
  const readings = player.collect(30);
  const watch = { kind: 'stopwatch', clock: 'source', startMs, endMs: player.nowMs, by: 'hand' } as const;
  return player.finish({ ...NOTED, ...watch }, volume(readings));
}

function returnCranking(player: Player): PlayedCheck {
  player.act(1, key('on'), { kind: 'empty vessel' });
  player.act(15, key('crank'));
  player.act(4, key('on'));
  return player.finish(volume([player.view.vessel.readingMl ?? 0]));
}

/** The key comes on again at once, or the controllers fall asleep before the pressure is gone. */
function decaying(player: Player): PlayedCheck | null {
  if (!player.start()) return null;
  player.act(8);
  player.act(2, key('off'));
  player.act(20, key('on'));
  return player.finish();
}

function delivering(player: Player): PlayedCheck {
  player.act(2, key('on'), { kind: 'empty vessel' });
  for (const rest of [5, 4]) {
    player.act(15, key('crank'));
    player.act(rest, key('on'));
  }
  return player.finish(volume([player.view.vessel.readingMl ?? 0]));
}

/** Key on and nothing else. */
function resting(player: Player): PlayedCheck {
  player.act(15, key('on'));
  return player.finish();
}

const PLAYS: Readonly<Record<string, (player: Player) => PlayedCheck | null>> = {
  'suction-restriction': running(18),
  'supply-cranking': cranking(8),
  'supply-idle': running(18),
  'supply-high-idle': running(18),
  'supply-load': running(16),
  'rail-at-rest': resting,
  'rail-build': cranking(7),
  'pump-return': collecting,
  'injector-return-cranking': returnCranking,
  'injector-return-idle': collecting,
  'relief-valve-leak': collecting,
  'rail-decay': decaying,
  'crank-delivery': delivering,
  'final-drive': running(126),
};

/** The check carried out once on this engine, set up as the page sets the bench up. Null where it has to run and does not start. */
export function playCheck(scenario: Scenario, checkId: string, seed: number): PlayedCheck | null {
  const play = PLAYS[checkId];
  if (!play) throw new Error(`nobody knows how to play ${checkId}`);
  const player = new Player(scenario, seed);
  player.act(0.1, ...setUpCommands(benchSetUp(checkId)));
  return play(player);
}
