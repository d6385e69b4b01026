import { createServer, type AddressInfo, type Socket } from 'node:net';
import { failureWords, NOTHING, type HostPort, type OpenedPort } from './host-port.ts';

/** A host that is gone without a word, such as a laptop that fell asleep, is found out after about this long. */
const KEEP_ALIVE_MS = 10_000;

/** A network bridge on a TCP port: one host at a time, any number one after the other. */
export async function openTcpPort(host: string, port: number): Promise<OpenedPort> {
  let socket: Socket | null = null;
  let visits = 0;
  const server = createServer({ noDelay: true, keepAlive: true, keepAliveInitialDelay: KEEP_ALIVE_MS });
  server.on('connection', (next) => {
    next.on('error', () => next.destroy()); // a reset is a host that went away
    if (socket) return void next.destroy();
    socket = next;
    visits += 1;
    next.on('readable', () => undefined); // bytes are fetched by `hear`; what is not fetched holds the host up
    next.on('end', () => next.destroy());
    next.on('close', () => (socket = null));
  });
  const ended = new Promise<string | null>((resolve) =>
    server.on('error', (error) => resolve(failureWords(error))),
  );
  server.listen(port, host);
  const failure = await Promise.race([
    ended,
    new Promise<null>((resolve) => server.on('listening', () => resolve(null))),
  ]);
  if (failure !== null) return { mistake: `tcp:${port} on ${host}: ${failure}` };
  const opened: HostPort = {
    place: `tcp:${(server.address() as AddressInfo).port} on ${host}`,
    playsAlone: false,
    isPresent: () => socket !== null,
    visits: () => visits,
    isFull: () => socket?.writableNeedDrain ?? false,
    hear: () => (socket?.read() as Buffer | null | undefined) ?? NOTHING,
    send: (bytes) => void socket?.write(bytes),
    ended,
    close: () => {
      socket?.destroy();
      return new Promise((resolve) => server.close(() => resolve()));
    },
  };
  return { port: opened };
}
