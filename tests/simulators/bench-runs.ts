import { benchView, createBench, stepBench, type BenchState } from '../../simulators/bench.ts';
import { SCENARIO_BY_ID, type Scenario, type ScenarioId } from '../../simulators/scenarios.ts';

export const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
export const textOf = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

export const HANDSHAKE = 'C\rV\rS5\rZ1\rL\r';
export const HANDSHAKE_REPLY = '\x07V1013\r\r\r\r';

/** What a person does from an instant on. */
export interface Act {
  readonly untilMs: number;
  readonly keyOn: boolean;
  readonly starterOn: boolean;
  readonly emptyVessel?: boolean;
}

/** Two cranks of 15 s with 5 s between, as the demonstration sheet asks. */
export const TWO_CRANKS: readonly Act[] = [
  { untilMs: 3000, keyOn: true, starterOn: false },
  { untilMs: 18_000, keyOn: true, starterOn: true },
  { untilMs: 23_000, keyOn: true, starterOn: false },
  { untilMs: 38_000, keyOn: true, starterOn: true },
  { untilMs: 43_000, keyOn: true, starterOn: false },
];

export interface BenchRun {
  readonly state: BenchState;
  readonly text: string;
}

/** Plays the acts on a fresh bench; `cuts` gives the lengths of the steps in ms, taken in turn (20 ms by default). */
export function playBench(
  scenario: Scenario,
  acts: readonly Act[],
  options: { seed?: number; cuts?: readonly number[]; handshake?: string } = {},
): BenchRun {
  const { seed = 1, cuts = [20], handshake = HANDSHAKE } = options;
  let state = createBench(scenario, seed);
  let text = '';
  let turn = 0;
  let fromHost: Uint8Array | null = bytesOf(handshake);
  for (const { untilMs, ...inputs } of acts) {
    let first = true;
    while (state.timeMs + state.pendingMs < untilMs - 1e-9) {
      const left = untilMs - state.timeMs - state.pendingMs;
      const step = stepBench(
        state,
        { ...inputs, fromHost, emptyVessel: first && inputs.emptyVessel === true },
        Math.min(left, cuts[turn++ % cuts.length]!),
      );
      state = step.state;
      text += textOf(step.toHost);
      fromHost = null;
      first = false;
    }
  }
  return { state, text };
}

export const playScenario = (id: ScenarioId): BenchRun => playBench(SCENARIO_BY_ID[id], TWO_CRANKS);

/** A 29-bit frame line, read here by hand so that the tests do not lean on the decoder that the product uses. */
export interface ReadLine {
  readonly pgn: number;
  readonly address: number;
  readonly priority: number;
  readonly data: readonly number[];
  readonly stampMs: number;
  readonly timeMs: number; // stamps unwrapped
}

/** All `T` lines with a 4-digit stamp. */
export function readLines(text: string): ReadLine[] {
  let turns = 0;
  let lastMs = 0;
  return text.split('\r').flatMap((line) => {
    const parts = /^T([0-9A-F]{8})8([0-9A-F]{16})([0-9A-F]{4})$/.exec(line);
    if (parts === null) return [];
    const id = parseInt(parts[1]!, 16);
    const stampMs = parseInt(parts[3]!, 16);
    if (stampMs < lastMs) turns += 1;
    lastMs = stampMs;
    const data = parts[2]!.match(/../g)!.map((pair) => parseInt(pair, 16));
    const pgn = (id >>> 8) & 0x3ffff; // all groups of the bench are broadcast (PDU2)
    return [
      { pgn, address: id & 0xff, priority: id >>> 26, data, stampMs, timeMs: 60_000 * turns + stampMs },
    ];
  });
}

/** Two bytes, least significant first. */
export const word = (data: readonly number[], at: number): number => data[at]! + 256 * data[at + 1]!;

/** Speed of the EEC1 frames: bytes 4 and 5, 0.125 rpm a bit (j1939.md). */
export const speedsOf = (lines: readonly ReadLine[]): { timeMs: number; rpm: number }[] =>
  lines
    .filter(({ pgn, address }) => pgn === 61444 && address === 0)
    .map(({ timeMs, data }) => ({ timeMs, rpm: word(data, 3) * 0.125 }));

export const readingOf = (run: BenchRun): number | null => benchView(run.state).vessel.readingMl;
