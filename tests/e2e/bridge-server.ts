import type { AddressInfo } from 'node:net';
import { WebSocketServer, type WebSocket } from 'ws';
import { createBench, stepBench, type BenchState } from '../../simulators/bench.ts';
import { SCENARIO_BY_ID, type ScenarioId } from '../../simulators/scenarios.ts';

/** How often the bridge speaks, ms. */
const TICK_MS = 20;

/** A simulated engine behind a simulated SLCAN bridge that is reached over the network, for the page to find. */
export interface BridgeServer {
  readonly address: string;
  /** Turns the simulated key and starter. */
  turn(key: { readonly keyOn: boolean; readonly starterOn: boolean }): void;
  /** Cuts every connection, as a bridge does that loses its supply; from then on nobody is let in until `comeBack`. */
  goAway(): void;
  comeBack(): void;
  /** What hosts have sent so far, command by command. */
  readonly heard: readonly string[];
  close(): Promise<void>;
}

/** Plays a bench engine in real time to whoever connects; one host at a time. */
export async function openBridgeServer(scenario: ScenarioId = 'healthy', seed = 1): Promise<BridgeServer> {
  let bench: BenchState = createBench(SCENARIO_BY_ID[scenario], seed);
  let key = { keyOn: true, starterOn: false };
  let away = false;
  let host: WebSocket | null = null;
  let fromHost: number[] = [];
  let last = performance.now();
  const heard: string[] = [];
  const server = new WebSocketServer({ port: 0, host: '127.0.0.1' });
  server.on('connection', (socket) => {
    if (away) return socket.terminate();
    host = socket;
    socket.on('message', (data) => {
      const bytes = Buffer.isBuffer(data) ? data : Buffer.from(String(data));
      heard.push(...bytes.toString('latin1').split('\r').filter(Boolean));
      fromHost.push(...bytes);
    });
    socket.on('close', () => (host = host === socket ? null : host));
  });
  const timer = setInterval(() => {
    const inputs = { ...key, fromHost: fromHost.length > 0 ? Uint8Array.from(fromHost) : null };
    fromHost = [];
    // By the clock and not by the tick: a busy machine comes late, and simulated time must not lag behind.
    const now = performance.now();
    const { state, toHost } = stepBench(bench, inputs, now - last);
    last = now;
    bench = state;
    if (host && toHost.length > 0) host.send(toHost);
  }, TICK_MS);
  await new Promise((resolve) => server.once('listening', resolve));
  return {
    address: `ws://127.0.0.1:${(server.address() as AddressInfo).port}`,
    turn: (next) => void (key = next),
    goAway: () => {
      away = true;
      for (const socket of server.clients) socket.terminate();
    },
    comeBack: () => void (away = false),
    heard,
    close: async () => {
      clearInterval(timer);
      for (const socket of server.clients) socket.terminate();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
