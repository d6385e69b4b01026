import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { WebSocket as WsClient, WebSocketServer, type WebSocket as WsSocket } from 'ws';
import type { SocketLike } from '../../adapters/socket-session.ts';
import { webSocketAdapter } from '../../adapters/web-socket.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';

/** Node 20 has no WebSocket of its own; the client of `ws` has the browser's shape. Newer versions are tried with their own. */
const CLIENTS: readonly (readonly [string, (url: string) => SocketLike])[] = [
  ['the ws client', (url) => new WsClient(url) as unknown as SocketLike],
  ...(typeof WebSocket === 'undefined'
    ? []
    : ([["Node's own", (url: string) => new WebSocket(url)]] as const)),
];

const clock = () => millis(performance.now());
const ask = () => Promise.resolve(null);

interface Bridge {
  readonly url: string;
  readonly clients: WsSocket[];
  readonly heard: string[];
  stop(how: 'killed' | 'in order'): Promise<void>;
}

async function startBridge(port = 0): Promise<Bridge> {
  const server = new WebSocketServer({ host: '127.0.0.1', port });
  const clients: WsSocket[] = [];
  const heard: string[] = [];
  server.on('connection', (socket) => {
    clients.push(socket);
    socket.on('message', (data, isBinary) => heard.push(`${isBinary ? 'binary' : 'text'} ${String(data)}`));
  });
  await new Promise((resolve) => server.once('listening', resolve));
  const stop = async (how: 'killed' | 'in order') => {
    for (const socket of clients) {
      if (how === 'killed') socket.terminate();
      else socket.close(1000);
    }
    await new Promise((resolve) => server.close(resolve));
  };
  return { url: `ws://127.0.0.1:${(server.address() as AddressInfo).port}/`, clients, heard, stop };
}

describe.each(CLIENTS)('a real server on this computer, by %s', (_name, connect) => {
  let bridge: Bridge;
  beforeEach(async () => {
    bridge = await startBridge();
  });
  afterEach(() => bridge.stop('killed'));

  const open = (url = bridge.url) => {
    const adapter = webSocketAdapter({ clock, ask, securePage: true, connect });
    const seen = { events: [] as LinkEvent[], errors: [] as Problem[] };
    const subscription = adapter.open({ url, device: 'bridge' }).subscribe({
      next: (event) => seen.events.push(event),
      error: (problem: Problem) => seen.errors.push(problem),
    });
    return { ...seen, subscription };
  };
  const opened = async () => {
    const seen = open();
    await vi.waitFor(() => expect(seen.events[0]?.kind).toBe('open'));
    await vi.waitFor(() => expect(bridge.clients.length).toBeGreaterThan(0));
    return seen;
  };
  const textOf = (events: readonly LinkEvent[]) =>
    events
      .map((event) => (event.kind === 'bytes' ? new TextDecoder('latin1').decode(event.bytes) : ''))
      .join('');

  test('20,000 lines in a burst, binary and text in turn, arrive whole and in order', async () => {
    const { events, subscription } = await opened();
    const line = (n: number) => `T0CF004008FFFFFF${n.toString(16).toUpperCase().padStart(4, '0')}FFFFFF\r`;
    for (let n = 0; n < 20_000; n++) bridge.clients[0]!.send(n % 2 ? line(n) : Buffer.from(line(n)));
    await vi.waitFor(() => expect(events).toHaveLength(20_001), { timeout: 20_000 });
    expect(textOf(events)).toBe(Array.from({ length: 20_000 }, (_, n) => line(n)).join(''));
    subscription.unsubscribe();
  });

  test('what is written arrives as binary, in order, also when it is let go right after', async () => {
    const { events, subscription } = await opened();
    const [first] = events;
    const write = first?.kind === 'open' ? first.write! : null;
    const commands = ['C\r', 'S5\r', 'L\r'];
    const outcomes = commands.map((command) => write!(new TextEncoder().encode(command)));
    subscription.unsubscribe();
    expect((await Promise.all(outcomes)).every(({ ok }) => ok)).toBe(true);
    await vi.waitFor(() => expect(bridge.heard).toEqual(commands.map((command) => `binary ${command}`)));
  });

  test('a server killed midway is lost, and found again when it is back at the same address', async () => {
    const lost = await opened();
    bridge.clients[0]!.send('before');
    await vi.waitFor(() => expect(textOf(lost.events)).toBe('before'));
    const { port } = new URL(bridge.url);
    await bridge.stop('killed');
    await vi.waitFor(() => expect(lost.errors).toHaveLength(1));
    expect(lost.errors).toMatchObject([{ code: 'link.lost', context: { code: 1006 } }]);
    const away = open();
    await vi.waitFor(() => expect(away.errors).toMatchObject([{ code: 'link.open-failed' }]));
    bridge = await startBridge(Number(port));
    const again = await opened();
    bridge.clients[0]!.send('after');
    await vi.waitFor(() => expect(textOf(again.events)).toBe('after'));
    again.subscription.unsubscribe();
  });

  test('a server that closes in order is lost too: a live source has no end', async () => {
    const { errors, events } = await opened();
    await bridge.stop('in order');
    await vi.waitFor(() => expect(errors).toMatchObject([{ code: 'link.lost', context: { code: 1000 } }]));
    expect(events.map(({ kind }) => kind)).toEqual(['open']);
  });

  test('disconnecting lets the server know at once', async () => {
    const { subscription } = await opened();
    const closed = new Promise((resolve) => bridge.clients[0]!.once('close', resolve));
    subscription.unsubscribe();
    await closed;
    expect(bridge.clients[0]!.readyState).toBe(WsClient.CLOSED);
  });
});
