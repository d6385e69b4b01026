import type { AddressInfo } from 'node:net';
import { WebSocketServer, type RawData, type WebSocket } from 'ws';
import { failureWords, NOTHING, type HostPort, type OpenedPort } from './host-port.ts';

/** So much may wait to be taken before no more is sent, bytes. */
const MOST_WAITING = 16_384;
/** A host is held up when so much of it has not been heard yet, bytes. */
const MOST_UNHEARD = 65_536;
/** "Try again later" (IANA, WebSocket close code number registry). */
const TRY_LATER = 1013;

/** A network bridge on a WebSocket, binary: one host at a time, any number one after the other. Text is taken too. */
export async function openWebSocketPort(host: string, port: number): Promise<OpenedPort> {
  let socket: WebSocket | null = null;
  let visits = 0;
  let unheard: Buffer[] = [];
  const server = new WebSocketServer({ host, port, maxPayload: MOST_UNHEARD });
  const take = (from: WebSocket, data: RawData): void => {
    unheard.push(Buffer.from(data as Buffer));
    if (unheard.reduce((sum, { length }) => sum + length, 0) >= MOST_UNHEARD) from.pause();
  };
  server.on('connection', (next) => {
    next.on('error', () => next.terminate()); // not the protocol, or too much in one message
    if (socket) return next.close(TRY_LATER, 'another host is connected');
    socket = next;
    visits += 1;
    next.on('message', (data) => take(next, data));
    next.on('close', () => {
      socket = null;
      unheard = [];
    });
  });
  const ended = new Promise<string | null>((resolve) =>
    server.on('error', (error) => resolve(failureWords(error))),
  );
  const listening = new Promise<null>((resolve) => server.on('listening', () => resolve(null)));
  const failure = await Promise.race([ended, listening]);
  if (failure !== null) return { mistake: `ws:${port} on ${host}: ${failure}` };
  const opened: HostPort = {
    place: `ws://${host}:${(server.address() as AddressInfo).port}`,
    playsAlone: false,
    isPresent: () => socket !== null,
    visits: () => visits,
    isFull: () => (socket?.bufferedAmount ?? 0) > MOST_WAITING,
    hear: () => {
      if (unheard.length === 0) return NOTHING;
      const bytes = Buffer.concat(unheard);
      unheard = [];
      socket?.resume();
      return bytes;
    },
    send: (bytes) => socket?.send(bytes),
    ended,
    close: () => {
      for (const each of server.clients) each.terminate();
      return new Promise((resolve) => server.close(() => resolve()));
    },
  };
  return { port: opened };
}
