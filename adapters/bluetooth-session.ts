import type { Subscriber } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { connectAndDiscover, CONNECT_LIMIT_MS, type Attempt } from './bluetooth-connect.ts';
import { errorText, type CharacteristicLike } from './bluetooth-device.ts';
import type { Hold } from './bluetooth-holds.ts';
import { endsOf, knownEnds, type FoundCharacteristic, type SerialEnds } from './bluetooth-discovery.ts';
import type { CharacteristicPick } from './bluetooth-profiles.ts';
import { risingClock } from './rising-clock.ts';
import { bluetoothWriter, type BluetoothWriter } from './bluetooth-writer.ts';
import { within } from './bluetooth-within.ts';

/** Longest time that closing waits for the device to take the end of notifications, ms. */
const STOP_LIMIT_MS = 500;

/** What one connection needs to know. `pick` null: the table of profiles decides. */
export interface BluetoothSettings extends Omit<Attempt, 'signal'> {
  readonly pick: CharacteristicPick | null;
  /** Called before the problem that ends it is told: whoever hears that may open the device again at once. */
  readonly onOver: () => void;
}

/**
 * Runs one connection until `close` is called or the device is lost. Events go to `subscriber`; loss is its error.
 * `after` is the closing of the connection before to the same device.
 * @returns `close`: lets sending end, ends notifications, gives the device back. Safe at any moment, and twice.
 */
export function startBluetoothSession(
  settings: BluetoothSettings,
  clock: () => Millis,
  subscriber: Subscriber<LinkEvent>,
  after: Promise<void>,
): () => Promise<void> {
  const stopping = new AbortController();
  const stopped = () => stopping.signal.aborted;
  const fail = (cause: Problem) => {
    settings.onOver();
    subscriber.error(cause); // the teardown that it sets off stops the rest
  };
  const run = async () => {
    await after;
    if (stopped()) return;
    const found = await connectAndDiscover({ ...settings, signal: stopping.signal });
    if (stopped()) return;
    const ends = found.ok ? chooseEnds(found.value, settings) : found;
    if (!ends.ok) return fail(ends.problem);
    const line = { settings, stamp: risingClock(clock), subscriber, signal: stopping.signal };
    const cause = await runLine(ends.value, line);
    if (cause !== null && !stopped()) fail(cause);
  };
  const finished = run().finally(() => settings.hold.release());
  return () => {
    stopping.abort();
    return finished;
  };
}

function chooseEnds(
  found: readonly FoundCharacteristic[],
  { pick, device }: BluetoothSettings,
): Result<SerialEnds> {
  const ends = pick === null ? knownEnds(found) : endsOf(found, pick);
  if (ends !== null) return ok(ends);
  return failed(problem(pick === null ? 'bluetooth.no-profile' : 'bluetooth.pick-missing', { device }));
}

interface Line {
  readonly settings: BluetoothSettings;
  readonly stamp: () => Millis;
  readonly subscriber: Subscriber<LinkEvent>;
  /** Aborted when the subscriber is gone. */
  readonly signal: AbortSignal;
}

/** Starts notifications and passes them on until the device is lost or `signal` is aborted. @returns why it is over. */
async function runLine(ends: SerialEnds, line: Line): Promise<Problem | null> {
  const { peripheral, gatt, device, hold } = line.settings;
  const writer = ends.write === null ? null : bluetoothWriter(ends.write, device, hold.operate);
  const gate = bytesGate(line, writer);
  const over = new AbortController();
  // The event of an earlier disconnecting may come late: what counts is that it is not connected.
  const onDisconnected = () => (gatt.connected ? undefined : over.abort());
  const onStop = () => {
    writer?.refuse();
    over.abort();
  };
  const onValue = () => gate.take(ends.notify.value);
  peripheral.addEventListener('gattserverdisconnected', onDisconnected);
  ends.notify.addEventListener('characteristicvaluechanged', onValue);
  line.signal.addEventListener('abort', onStop);
  const failure = await start(ends.notify, line.settings, over.signal);
  onDisconnected();
  if (failure === null && !over.signal.aborted) {
    gate.open();
    await aborted(over.signal);
  }
  peripheral.removeEventListener('gattserverdisconnected', onDisconnected);
  ends.notify.removeEventListener('characteristicvaluechanged', onValue);
  line.signal.removeEventListener('abort', onStop);
  const lost = !gatt.connected;
  if (lost) writer?.abandon();
  else await end(ends.notify, writer, hold);
  return lost ? problem('link.lost', { device }) : failure;
}

async function start(
  notify: CharacteristicLike,
  { device, hold }: BluetoothSettings,
  signal: AbortSignal,
): Promise<Problem | null> {
  const starting = hold.operate(() => notify.startNotifications());
  const started = await within(starting, CONNECT_LIMIT_MS, signal);
  if (started.kind === 'done' || started.kind === 'stopped') return null;
  const detail = started.kind === 'failed' ? errorText(started.error) : 'it did not answer';
  return problem('bluetooth.services-failed', { device, detail });
}

async function end(notify: CharacteristicLike, writer: BluetoothWriter | null, hold: Hold): Promise<void> {
  await writer?.end();
  await within(
    hold.operate(() => notify.stopNotifications()),
    STOP_LIMIT_MS,
  );
}

/**
 * Passes bytes on, but none before `open` went out: notifications may come before the browser says that they have started.
 * Each notification is copied: the browser may use its memory again.
 */
function bytesGate({ settings, stamp, subscriber }: Line, writer: BluetoothWriter | null) {
  const early: LinkEvent[] = [];
  let isOpen = false;
  const take = (value: DataView | undefined) => {
    if (value === undefined || value.byteLength === 0) return;
    const bytes = new Uint8Array(value.buffer, value.byteOffset, value.byteLength).slice();
    const event: LinkEvent = { kind: 'bytes', atMs: stamp(), bytes };
    if (isOpen) subscriber.next(event);
    else early.push(event);
  };
  const open = () => {
    isOpen = true;
    const atMs = early[0]?.atMs ?? stamp();
    subscriber.next({ kind: 'open', atMs, device: settings.device, write: writer?.write ?? null });
    for (const event of early) subscriber.next(event);
  };
  return { take, open };
}

function aborted(signal: AbortSignal): Promise<void> {
  if (signal.aborted) return Promise.resolve();
  return new Promise((resolve) => signal.addEventListener('abort', () => resolve(), { once: true }));
}
