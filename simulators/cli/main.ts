import { existsSync, statSync } from 'node:fs';
import { commanded, createPlayer, type BenchPlayer } from '../bridge/bench-player.ts';
import { CLEAN_LINE } from '../bridge/line-noise.ts';
import {
  bridgeList,
  BRIDGE_USAGE,
  parseBridgeArguments,
  type Outlet,
  type PlayOptions,
} from './bridge-arguments.ts';
import type { OpenedPort } from './host-port.ts';
import { makeTerminalPort } from './made-terminal.ts';
import { playBench } from './play-bench.ts';
import { stdoutPort } from './stdout-port.ts';
import { openTcpPort } from './tcp-port.ts';
import { openTerminalPort } from './terminal-port.ts';

const PLAYED = 0;
const UNUSABLE = 2;

/** The bridge player. Gives the exit code: 0 when it was played, 2 for input that cannot be used. */
export async function main(argv: readonly string[]): Promise<number> {
  const command = parseBridgeArguments(argv);
  if ('mistake' in command) return refuse(command.mistake);
  if (command.name !== 'play') {
    process.stdout.write(command.name === 'help' ? BRIDGE_USAGE : bridgeList());
    return PLAYED;
  }
  const asked = endAsked(); // before the port is opened: what is made has to be removed
  const opened = await openOutlet(command.to);
  if ('mistake' in opened) return refuse(opened.mistake);
  const { port } = opened;
  const { scenario, seed, speed } = command;
  const pace = speed === Infinity ? 'as fast as it goes' : `${speed} times real time`;
  tell(`'${scenario.id}', seed ${seed}, ${pace}, on ${port.place}. Ctrl-C ends it.`);
  const failure = await playBench(playerOf(command), port, {
    ...command,
    forNewHost: (player) => (command.fresh ? playerOf(command) : player),
    asked,
    tell,
  });
  await port.close();
  return failure === null ? PLAYED : refuse(failure);
}

/** The bench at its beginning. Without a host it plays as a bridge that one has opened listen-only. */
function playerOf({ to, stamps, format, ...options }: PlayOptions): BenchPlayer {
  const clean = { ...options.scenario, noise: CLEAN_LINE };
  const candump = format === 'candump';
  const player = createPlayer(candump ? { ...options, scenario: clean } : options);
  const set = commanded(player, stamps || candump ? 'Z1\r' : 'Z0\r');
  const rate = options.busCode;
  return to.kind === 'stdout' ? commanded(set, `S${rate}\rL\r`) : set;
}

async function openOutlet(to: Outlet): Promise<OpenedPort> {
  switch (to.kind) {
    case 'stdout':
      return { port: stdoutPort(process.stdout) };
    case 'tcp':
      return openTcpPort(to.host, to.port);
    case 'ws': {
      const { openWebSocketPort } = await import('./web-socket-port.ts');
      return openWebSocketPort(to.host, to.port);
    }
    case 'path':
      return openPath(to.path, to.baud);
  }
}

function openPath(path: string, baud: number | null): OpenedPort | Promise<OpenedPort> {
  if (!existsSync(path)) return makeTerminalPort(path);
  if (!statSync(path).isCharacterDevice())
    return { mistake: `${path} is no serial port; for a file, use --to stdout and send it there with >` };
  return openTerminalPort(path, baud);
}

/** Resolves when the person, or the system, asks for the end. */
const endAsked = (): Promise<unknown> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, resolve);
  });

const tell = (words: string): void => void process.stderr.write(`bridge: ${words}\n`);

function refuse(reason: string): number {
  tell(`${reason}.`);
  return UNUSABLE;
}
