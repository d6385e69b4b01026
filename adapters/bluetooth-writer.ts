import type { WriteBytes } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import { errorText, type CharacteristicLike } from './bluetooth-device.ts';
import type { Hold } from './bluetooth-holds.ts';
import { within } from './bluetooth-within.ts';

/** What every connection carries in one write: 23 bytes of ATT_MTU less 3 of header (Core Specification, Vol 3 Part F 3.2.8). */
export const SMALLEST_WRITE_BYTES = 20;
/** The longest value of a characteristic (Core Specification, Vol 3 Part F 3.2.9). */
const LONGEST_VALUE_BYTES = 512;
/** Longest time that closing waits for bytes still being sent, ms: a device that blocks must not hold the connection. */
const DRAIN_MS = 500;

/** Sends one message after the other, each in pieces that fit; a message is never cut by the next. */
export interface BluetoothWriter {
  readonly write: WriteBytes;
  /** From now on nothing more is taken. */
  refuse(): void;
  /** The connection is gone: what is on its way fails now. */
  abandon(): void;
  /** Lets what was taken go out, at most DRAIN_MS; after that it fails. */
  end(): Promise<void>;
}

/**
 * A writer for a characteristic of a connected device. `device` names it in problems; `operate` gives each piece its turn
 * among the operations of the device.
 */
export function bluetoothWriter(
  characteristic: CharacteristicLike,
  device: string,
  operate: Hold['operate'],
): BluetoothWriter {
  let closed = false;
  let tail: Promise<unknown> = Promise.resolve();
  let giveUp: (reason: Error) => void = () => undefined;
  const gaveUp = new Promise<never>((_, reject) => (giveUp = reject));
  gaveUp.catch(() => undefined); // heard only by a message that is on its way
  const send = sendTo(characteristic);
  const sendAll = async (bytes: Uint8Array<ArrayBuffer>): Promise<Result<void>> => {
    try {
      for (const piece of piecesOf(bytes, pieceBytesOf(characteristic)))
        await Promise.race([gaveUp, operate(() => send(piece))]);
      return ok(undefined);
    } catch (error) {
      return failed(problem('link.write-failed', { device, detail: errorText(error) }));
    }
  };
  const write: WriteBytes = (bytes) => {
    if (closed) return Promise.resolve(failed(problem('link.closed')));
    const copy = new Uint8Array(bytes); // the caller may use its bytes again
    const outcome = tail.then(() => sendAll(copy));
    tail = outcome;
    return outcome;
  };
  const refuse = () => void (closed = true);
  const abandon = () => {
    refuse();
    giveUp(new Error('the connection is over'));
  };
  const end = async () => {
    refuse();
    await within(tail, DRAIN_MS);
    abandon();
    await tail;
  };
  return { write, refuse, abandon, end };
}

/** How many bytes go into one write: what the browser says fits, else what always fits. */
function pieceBytesOf({ maxWriteWithoutResponseSize: size }: CharacteristicLike): number {
  return size !== undefined && size > SMALLEST_WRITE_BYTES
    ? Math.min(size, LONGEST_VALUE_BYTES)
    : SMALLEST_WRITE_BYTES;
}

function* piecesOf(bytes: Uint8Array<ArrayBuffer>, size: number): Generator<Uint8Array<ArrayBuffer>> {
  for (let from = 0; from < bytes.length; from += size) yield bytes.slice(from, from + size);
}

type Send = (piece: Uint8Array<ArrayBuffer>) => Promise<void>;

/** Without response where the characteristic allows it (several pieces an interval of the radio), else with. */
function sendTo(characteristic: CharacteristicLike): Send {
  if (characteristic.properties.writeWithoutResponse && characteristic.writeValueWithoutResponse)
    return (piece) => characteristic.writeValueWithoutResponse!(piece);
  if (characteristic.properties.write && characteristic.writeValueWithResponse)
    return (piece) => characteristic.writeValueWithResponse!(piece);
  return async (piece) => {
    if (!characteristic.writeValue) throw new Error('this browser cannot write to it');
    await characteristic.writeValue(piece);
  };
}
