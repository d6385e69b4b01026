import type { Subscriber } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { risingClock } from './rising-clock.ts';
import type { PortLike } from './serial-port.ts';
import { serialReader } from './serial-reader.ts';
import { serialWriter } from './serial-writer.ts';

/** What one connection needs to know. `bufferSize` in bytes; too small a buffer overruns in a busy page. */
export interface SerialSettings {
  readonly port: PortLike;
  readonly device: string;
  readonly baudRate: number;
  readonly bufferSize: number;
}

/**
 * Runs one connection until `close` is called or the device is lost. Events go to `subscriber`; loss is its error.
 * `after` is the closing of the connection before on the same port: a port cannot be opened while it closes.
 * @returns `close`: stops reading, lets sending end, frees the locks and the port. Safe at any moment, and twice.
 */
export function startSerialSession(
  settings: SerialSettings,
  clock: () => Millis,
  subscriber: Subscriber<LinkEvent>,
  after: Promise<void>,
): () => Promise<void> {
  const stamp = risingClock(clock);
  const reader = serialReader(settings.port, settings.device, {
    bytes: (bytes) => subscriber.next({ kind: 'bytes', atMs: stamp(), bytes }),
    gap: (gap) => subscriber.next({ kind: 'gap', atMs: stamp(), problem: gap }),
  });
  const writer = serialWriter(settings.port, settings.device);
  let stopped = false;
  const stop = () => {
    stopped = true;
    writer.refuse();
    reader.cancel();
  };
  // The teardown that an error sets off stops the rest.
  const over = (cause: Problem) => (stopped ? undefined : subscriber.error(cause));
  const onLost = () => over(problem('link.lost', { device: settings.device }));
  const whileOpen = async () => {
    if (stopped) return;
    const write = settings.port.writable === null ? null : writer.write;
    subscriber.next({ kind: 'open', atMs: stamp(), device: settings.device, write });
    await reader.readAll();
    onLost();
    await writer.end();
  };
  const run = async () => {
    await after;
    if (stopped) return;
    const opened = await withOpenPort(settings, onLost, whileOpen);
    if (!opened.ok) over(opened.problem);
  };
  const finished = run();
  return () => {
    stop();
    return finished;
  };
}

/** Opens the port, does `work` and closes it again, watching for the device being unplugged meanwhile. */
async function withOpenPort(
  settings: SerialSettings,
  onLost: () => void,
  work: () => Promise<void>,
): Promise<Result<void>> {
  const { port } = settings;
  const opened = await openPort(settings);
  if (!opened.ok) return opened;
  port.addEventListener?.('disconnect', onLost);
  // Some bridges send only with DTR raised; ports without control lines refuse, and work all the same.
  void port.setSignals?.({ dataTerminalReady: true, requestToSend: true }).catch(() => undefined);
  await work();
  port.removeEventListener?.('disconnect', onLost);
  await port.close().catch(() => undefined);
  return opened;
}

async function openPort({ port, device, baudRate, bufferSize }: SerialSettings): Promise<Result<void>> {
  try {
    await port.open({ baudRate, bufferSize });
    return ok(undefined);
  } catch (error) {
    return failed(whyNotOpened(error, port, device));
  }
}

/**
 * InvalidStateError: open in this page already. NetworkError: not there, or the system did not hand it over.
 * Over WebUSB only: NotFoundError when the device is gone, SecurityError when a driver of the system holds it.
 */
function whyNotOpened(error: unknown, port: PortLike, device: string): Problem {
  const name = error instanceof DOMException ? error.name : '';
  const isGone = name === 'NotFoundError' || (name === 'NetworkError' && port.connected === false);
  if (isGone)
    return problem('link.open-failed', { device, detail: 'it is unplugged, switched off or out of reach' });
  if (name === 'SecurityError') return problem('device.usb-driver', { device });
  if (name === 'InvalidStateError' || name === 'NetworkError') return problem('link.port-busy');
  return problem('link.open-failed', {
    device,
    detail: error instanceof Error ? error.message : String(error),
  });
}
