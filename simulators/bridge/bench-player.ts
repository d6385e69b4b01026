import { createBench, stepBench, type BenchInputs, type BenchState } from '../bench.ts';
import type { Scenario } from '../scenarios.ts';
import { scriptMs, type BenchAct } from './bench-script.ts';
import { hearHost, noticeOverrun, type SlcanDevice } from './slcan-device.ts';

/** A bench on which a script is carried out. Replaced by each step. */
export interface BenchPlayer {
  readonly bench: BenchState;
  readonly script: readonly BenchAct[];
  /** Begins anew when it is over. */
  readonly repeats: boolean;
  /** When the present round of the script began, and which of its acts is next. */
  readonly roundMs: number;
  readonly next: number;
}

export interface PlayedScenario {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly script: readonly BenchAct[];
  readonly repeats: boolean;
  /** Bit rate code of the bus that the bridge is plugged into. */
  readonly busCode: string;
}

/** The bench at rest, the bridge closed, the script not begun. */
export function createPlayer({ scenario, seed, script, repeats, busCode }: PlayedScenario): BenchPlayer {
  const bench = createBench(scenario, seed);
  const device = { ...bench.device, traits: { ...bench.device.traits, busCode } };
  return { bench: { ...bench, device }, script, repeats, roundMs: 0, next: 0 };
}

/** Time since the beginning, ms. */
export const playedMs = ({ bench }: BenchPlayer): number => bench.timeMs + bench.pendingMs;

/**
 * The bench `dtMs` later, with what the script asks for done at its instants, and what the bridge sent meanwhile. However a
 * stretch of time is cut, the bytes are the same.
 */
export function stepPlayer(
  player: BenchPlayer,
  fromHost: Uint8Array | null,
  dtMs: number,
): { readonly player: BenchPlayer; readonly toHost: readonly Uint8Array[] } {
  const untilMs = playedMs(player) + dtMs;
  const sent: Uint8Array[] = [];
  let state = player;
  const step = (inputs: BenchInputs, ms: number): void => {
    const { state: bench, toHost } = stepBench(state.bench, inputs, ms);
    if (toHost.length > 0) sent.push(toHost);
    state = { ...state, bench };
  };
  if (fromHost) step({ fromHost }, 0);
  for (let act = nextAct(state); act && act.atMs <= untilMs; act = nextAct(state)) {
    step({ fromHost: null }, act.atMs - playedMs(state));
    step({ fromHost: null, commands: [act.command] }, 0);
    state = afterAct(state);
  }
  step({ fromHost: null }, untilMs - playedMs(state));
  // What the host had sent to the bus interests nobody here, and would only grow.
  return { player: withDevice(state, { ...state.bench.device, transmitted: [] }), toHost: sent };
}

/** The next act at its instant since the beginning of all. */
function nextAct({ script, next, roundMs }: BenchPlayer): BenchAct | null {
  const act = script[next];
  return act ? { ...act, atMs: roundMs + act.atMs } : null;
}

function afterAct(player: BenchPlayer): BenchPlayer {
  const next = player.next + 1;
  if (next < player.script.length || !player.repeats) return { ...player, next };
  return { ...player, next: 0, roundMs: player.roundMs + scriptMs(player.script) };
}

const withDevice = (player: BenchPlayer, device: SlcanDevice): BenchPlayer => ({
  ...player,
  bench: { ...player.bench, device },
});

/** The host went away: the channel is shut, as the bridge's own settings stay. */
export const withoutHost = (player: BenchPlayer): BenchPlayer =>
  withDevice(player, { ...player.bench.device, channel: 'closed', pending: '' });

/** Frames did not go out because the host reads too slowly: the status tells of it. */
export const withOverrun = (player: BenchPlayer): BenchPlayer =>
  withDevice(player, noticeOverrun(player.bench.device));

/** As after these commands of a host, each with its CR; what is answered is not sent. */
export function commanded(player: BenchPlayer, commands: string): BenchPlayer {
  const bytes = Uint8Array.from(commands, (letter) => letter.charCodeAt(0));
  return withDevice(player, hearHost(player.bench.device, bytes).device);
}
