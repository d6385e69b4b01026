import type { SchedulerLike, Subscriber } from 'rxjs';
import type { LinkEvent, WriteBytes } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { closingProblem, type SocketClosing } from './socket-close.ts';

/** The members of a WebSocket that are used, so that a fake or another implementation can stand in. */
export interface SocketLike {
  binaryType: string;
  readonly readyState: number;
  readonly bufferedAmount: number;
  send(bytes: Uint8Array<ArrayBuffer>): void;
  close(): void;
  addEventListener(type: 'open', listener: () => void): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  addEventListener(type: 'close', listener: (event: SocketClosing) => void): void;
  addEventListener(type: 'error', listener: () => void): void;
  removeEventListener(type: 'open', listener: () => void): void;
  removeEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  removeEventListener(type: 'close', listener: (event: SocketClosing) => void): void;
  removeEventListener(type: 'error', listener: () => void): void;
}

export interface SocketSettings {
  readonly device: string;
  readonly lineMessages: boolean;
  /** Throws where the browser forbids the address. */
  readonly open: () => SocketLike;
}

/** Longest wait for a bridge to answer, ms. */
export const CONNECT_MS = 5_000;
/** Bytes that may wait to be sent. A bridge is sent a few commands: this much means that it takes nothing. */
export const BACKLOG_BYTES = 65_536;
const SILENT = `no answer within ${CONNECT_MS / 1000} s`;
/** A browser does not say why; that it does not trust a certificate is one of the reasons. */
const UNREACHABLE = 'it cannot be reached, or over wss its certificate is not trusted';
/** `readyState` of an open WebSocket. */
const OPEN = 1;

/**
 * Runs one connection until the returned function is called or the bridge is lost. Events go to `subscriber`; loss is its error.
 * Closing lets go of the socket at once: the browser sends what was handed over, and the closing, by itself.
 */
export function startSocketSession(
  settings: SocketSettings,
  stamp: () => Millis,
  subscriber: Subscriber<LinkEvent>,
  scheduler: SchedulerLike,
): () => void {
  const { device } = settings;
  const socket = openSocket(settings);
  if ('code' in socket) {
    subscriber.error(socket);
    return ignore;
  }
  let wasOpen = false;
  const timer = scheduler.schedule(() => subscriber.error(notOpened(device, SILENT)), CONNECT_MS);
  const onOpen = () => {
    wasOpen = true;
    timer.unsubscribe();
    subscriber.next({ kind: 'open', atMs: stamp(), device, write: writer(socket, device) });
  };
  const onMessage = ({ data }: { readonly data: unknown }) => {
    const bytes = bytesOf(data, settings.lineMessages);
    if (bytes === null) subscriber.error(unknownKind(device));
    else if (bytes.length > 0) subscriber.next({ kind: 'bytes', atMs: stamp(), bytes });
  };
  const onClose = (closing: SocketClosing) =>
    subscriber.error(wasOpen ? closingProblem(closing, device) : notOpened(device, UNREACHABLE));
  const unhear = hear(socket, { onOpen, onMessage, onClose });
  return () => {
    timer.unsubscribe();
    unhear();
    socket.close();
  };
}

interface SocketEars {
  onOpen(): void;
  onMessage(event: { readonly data: unknown }): void;
  onClose(closing: SocketClosing): void;
}

/** Listens to a socket. @returns how to stop; `error` stays heard: a socket let go of while it connects says so, to nobody. */
function hear(socket: SocketLike, { onOpen, onMessage, onClose }: SocketEars): () => void {
  socket.addEventListener('open', onOpen);
  socket.addEventListener('message', onMessage);
  socket.addEventListener('close', onClose);
  socket.addEventListener('error', ignore);
  return () => {
    socket.removeEventListener('open', onOpen);
    socket.removeEventListener('message', onMessage);
    socket.removeEventListener('close', onClose);
  };
}

const notOpened = (device: string, detail: string): Problem =>
  problem('link.open-failed', { device, detail });

const unknownKind = (device: string): Problem =>
  problem('device.socket-protocol', { device, why: 'it sent an unknown kind of data' });

/** An error tells nothing in browsers; the `close` that follows it does. */
const ignore = (): void => undefined;

function openSocket({ open, device }: SocketSettings): SocketLike | Problem {
  try {
    const socket = open();
    socket.binaryType = 'arraybuffer';
    return socket;
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return problem('device.socket-forbidden', { device, detail });
  }
}

const LINE_FEED = 10;

/** A message as bytes; null for what is neither binary nor text. Text comes as UTF-8, the form in which it was sent. */
function bytesOf(data: unknown, lineMessages: boolean): Uint8Array | null {
  if (data instanceof ArrayBuffer) return new Uint8Array(data);
  if (ArrayBuffer.isView(data)) return new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  if (typeof data !== 'string') return null;
  const bytes = new TextEncoder().encode(data);
  const last = bytes.at(-1);
  if (!lineMessages || last === undefined || last === LINE_FEED || last === 13) return bytes;
  return Uint8Array.of(...bytes, LINE_FEED);
}

const writer =
  (socket: SocketLike, device: string): WriteBytes =>
  (bytes) => {
    if (socket.readyState !== OPEN) return Promise.resolve(failed(problem('link.closed')));
    if (socket.bufferedAmount + bytes.length > BACKLOG_BYTES)
      return Promise.resolve(
        failed(problem('link.write-failed', { device, detail: 'the bridge takes nothing' })),
      );
    try {
      socket.send(Uint8Array.from(bytes));
      return Promise.resolve(ok(undefined));
    } catch (error) {
      return Promise.resolve(failed(problem('link.write-failed', { device, detail: String(error) })));
    }
  };
