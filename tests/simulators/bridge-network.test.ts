import { connect, type Socket } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { createPlayer, type BenchPlayer } from '../../simulators/bridge/bench-player.ts';
import { parseScript } from '../../simulators/bridge/bench-script.ts';
import type { HostPort, OpenedPort } from '../../simulators/cli/host-port.ts';
import { playBench, type PlayedHow } from '../../simulators/cli/play-bench.ts';
import { openTcpPort } from '../../simulators/cli/tcp-port.ts';
import { openWebSocketPort } from '../../simulators/cli/web-socket-port.ts';
import { SCENARIO_BY_ID, type ScenarioId } from '../../simulators/scenarios.ts';
import { bytesOf, textOf, HANDSHAKE, playBench as playDirectly } from './bench-runs.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import { throughPipeline } from './pipeline-runs.ts';

const playerOf = (id: ScenarioId, keys: string): BenchPlayer => {
  const script = parseScript(keys);
  if ('mistake' in script) throw new TypeError(script.mistake);
  return createPlayer({ scenario: SCENARIO_BY_ID[id], seed: 1, script, repeats: false, busCode: '5' });
};

const portOf = (opened: OpenedPort): HostPort => {
  if ('mistake' in opened) throw new TypeError(opened.mistake);
  return opened.port;
};

let endings: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  await Promise.all(endings.map((end) => end()));
  endings = [];
});

/** Plays until the test is over. Gives what the person was told. */
function playing(player: BenchPlayer, port: HostPort, how: Partial<PlayedHow> = {}): string[] {
  const told: string[] = [];
  let end = (): void => undefined;
  const asked = new Promise<void>((resolve) => (end = resolve));
  const played = playBench(player, port, {
    speed: Infinity,
    durationMs: null,
    format: 'slcan',
    whenSlow: 'wait',
    forNewHost: (same) => same,
    asked,
    tell: (words) => told.push(words),
    ...how,
  });
  endings.push(async () => {
    end();
    await played;
    await port.close();
  });
  return told;
}

const numberIn = (port: HostPort): number => Number(/:(\d+)/.exec(port.place)![1]);

interface Host {
  heard(): string;
  say(text: string): void;
  leave(): Promise<void>;
}

async function tcpHost(port: HostPort): Promise<Host> {
  const socket: Socket = connect(numberIn(port), '127.0.0.1');
  let text = '';
  socket.on('data', (chunk) => (text += chunk.toString('latin1')));
  socket.on('error', () => undefined);
  await new Promise((resolve) => socket.once('connect', resolve));
  const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()));
  return {
    heard: () => text,
    say: (words) => void socket.write(words),
    leave: () => (socket.destroy(), closed),
  };
}

const until = async (what: () => boolean): Promise<void> => {
  while (!what()) await new Promise((resolve) => setTimeout(resolve, 5));
};

describe('the bridge on a TCP port', () => {
  test('is silent until opened, refuses with BEL, and listen-only sends nothing to the bus', async () => {
    const port = portOf(await openTcpPort('127.0.0.1', 0));
    playing(playerOf('healthy', 'on@0'), port, { speed: 1 });
    const host = await tcpHost(port);
    host.say('Q\rV\rN\rS5\r');
    await until(() => host.heard().length >= 14);
    expect(host.heard()).toBe('\x07V1013\rNM101\r\r');
    host.say('Z1\rL\rT18EAFFF93ECFE00\rF\r');
    await until(() => host.heard().includes('F00\r'));
    expect(host.heard().replace(/T[0-9A-F]{29}\r/g, '')).toBe('\x07V1013\rNM101\r\r\r\r\x07F00\r');
  });

  test('serves one host after the other, and each opens it afresh', async () => {
    const port = portOf(await openTcpPort('127.0.0.1', 0));
    const told = playing(playerOf('healthy', 'on@0'), port, { speed: 5 });
    for (let turn = 0; turn < 3; turn++) {
      const host = await tcpHost(port);
      host.say('S5\rL\r');
      await until(() => host.heard().length > 1000);
      expect(host.heard()).toMatch(/^\r\r(T[0-9A-F]{25}\r)+/);
      await host.leave();
      await until(() => !port.isPresent());
    }
    await until(() => told.length === 6);
    expect(told.filter((words) => words.includes('away'))).toHaveLength(3);
  });

  test('turns a second host away while one is there, who notices nothing', async () => {
    const port = portOf(await openTcpPort('127.0.0.1', 0));
    playing(playerOf('healthy', 'on@0'), port, { speed: 5 });
    const first = await tcpHost(port);
    first.say('S5\rL\r');
    await until(() => first.heard().length > 100);
    const second = await tcpHost(port);
    second.say('V\r');
    await second.leave();
    const before = first.heard().length;
    await until(() => first.heard().length > before + 500);
    expect(second.heard()).toBe('');
  });

  test('says so when the port is taken, with the remedy', async () => {
    const first = portOf(await openTcpPort('127.0.0.1', 0));
    endings.push(() => first.close());
    const second = await openTcpPort('127.0.0.1', numberIn(first));
    expect('mistake' in second && second.mistake).toMatch(/another program listens.*0 takes a free one/);
  });
});

const TWO_SHORT_CRANKS = [
  { untilMs: 1000, keyOn: true, starterOn: false },
  { untilMs: 6000, keyOn: true, starterOn: true },
  { untilMs: 8000, keyOn: true, starterOn: false },
  { untilMs: 13_000, keyOn: true, starterOn: true },
  { untilMs: 16_000, keyOn: true, starterOn: false },
];

/** Each line at its own stamp, as a host without delay gets it; the run is shorter than a turn of the stamps. */
const arrivalsOf = (said: string) =>
  (said.match(/[^\r\x07]*[\r\x07]/g) ?? []).map((line) => ({
    atMs: parseInt(/^T[0-9A-F]{25}([0-9A-F]{4})\r$/.exec(line)?.[1] ?? '0', 16),
    bytes: bytesOf(line),
  }));

/** A port that is full from the first thing sent to it on, and has a host who opened the bridge. */
function fullPort(): HostPort & { readonly sent: () => string } {
  let [text, said] = ['', 'S5\rL\r'];
  return {
    place: 'here',
    playsAlone: false,
    isPresent: () => true,
    visits: () => 1,
    isFull: () => text !== '',
    hear: () => {
      const bytes = bytesOf(said);
      said = '';
      return bytes;
    },
    send: (bytes) => void (text += textOf(bytes)),
    ended: new Promise(() => undefined),
    close: async () => undefined,
    sent: () => text,
  };
}

describe('a host that does not read', () => {
  const how = {
    speed: Infinity,
    format: 'slcan',
    forNewHost: (same: BenchPlayer) => same,
    tell: () => undefined,
  } as const;

  test('holds the bench up where that was asked: no more is sent and time stands', async () => {
    const port = fullPort();
    const asked = new Promise((resolve) => setTimeout(resolve, 60));
    const over = await playBench(playerOf('healthy', 'on@0'), port, {
      ...how,
      durationMs: 5000,
      whenSlow: 'wait',
      asked,
    });
    expect(over).toBeNull();
    expect(port.sent().length).toBeLessThan(1000); // one step of 100 ms
  });

  test('loses frames where that was asked, and the bench goes on to its end', async () => {
    const port = fullPort();
    const never = new Promise(() => undefined);
    await playBench(playerOf('healthy', 'on@0'), port, {
      ...how,
      durationMs: 1000,
      whenSlow: 'lose',
      asked: never,
    });
    expect(port.sent().length).toBeLessThan(1000);
  });
});

describe('the bridge on a WebSocket', () => {
  test('gives our own pipeline the same bytes, and so the same two cranks, as the bench direct', async () => {
    const port = portOf(await openWebSocketPort('127.0.0.1', 0));
    playing(playerOf('healthy', 'on@0 crank@1 on@6 crank@8 on@13'), port);
    const socket = new WebSocket(port.place);
    let text = '';
    socket.on('message', (data) => (text += Buffer.from(data as Buffer).toString('latin1')));
    await new Promise((resolve) => socket.once('open', resolve));
    socket.send(HANDSHAKE);
    const direct = playDirectly(SCENARIO_BY_ID.healthy, TWO_SHORT_CRANKS, { seed: 1 }).text;
    await until(() => text.length >= direct.length);
    socket.close();
    const cranksOf = (said: string) => crankTable(throughPipeline(arrivalsOf(said)), { over: true }).cranks;
    expect(text.slice(0, direct.length)).toBe(direct);
    expect(cranksOf(direct)).toHaveLength(2);
    expect(cranksOf(text.slice(0, direct.length))).toEqual(cranksOf(direct));
  }, 20_000);
});
