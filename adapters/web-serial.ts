import { Observable } from 'rxjs';
import type { Adapter, Availability } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import type { PortLike } from './serial-port.ts';
import { startSerialSession } from './serial-session.ts';

/** The member of `navigator.serial` that is used. */
export interface SerialLike {
  requestPort(): Promise<PortLike>;
}

/** A serial port and how to open it. */
export interface SerialChoice {
  readonly port: PortLike;
  readonly baudRate: number;
  readonly device: string;
}

export const DEFAULT_BAUD_RATE = 115_200;

/** Bytes that the browser keeps for us while the page is busy: 5 s at 115,200 baud, so a slow frame loses nothing. */
const BUFFER_BYTES = 65_536;

/**
 * Serial ports of this computer by Web Serial. `serial` is `navigator.serial`, or undefined where there is none;
 * `clock` stamps arrivals, ms; `secure` is `isSecureContext`, for saying why there is none.
 * A disturbed stream is a `gap` and reading goes on; loss is one `link.lost` on the error channel.
 */
export function webSerialAdapter(
  serial: SerialLike | undefined,
  clock: () => Millis,
  secure = globalThis.isSecureContext !== false,
): Adapter<SerialChoice> {
  const closings = new WeakMap<PortLike, Promise<void>>();
  return {
    id: 'web-serial',
    availability: () => availability(serial, secure),
    choose: () => choose(serial),
    open: ({ port, baudRate, device }) =>
      new Observable<LinkEvent>((subscriber) => {
        const settings = { port, device, baudRate, bufferSize: BUFFER_BYTES };
        const before = closings.get(port) ?? Promise.resolve();
        const close = startSerialSession(settings, clock, subscriber, before);
        return () => {
          closings.set(port, close());
        };
      }),
  };
}

function availability(serial: SerialLike | undefined, secure: boolean): Availability {
  if (serial) return { usable: true };
  return { usable: false, problem: problem(secure ? 'link.no-web-serial' : 'link.insecure-page') };
}

async function choose(serial: SerialLike | undefined): Promise<Result<SerialChoice>> {
  if (!serial) return failed(problem('link.no-web-serial'));
  try {
    const port = await serial.requestPort();
    return ok({ port, baudRate: DEFAULT_BAUD_RATE, device: describePort(port) });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError')
      return failed(problem('link.refused'));
    return failed(
      problem('link.not-allowed', { detail: error instanceof Error ? error.message : String(error) }),
    );
  }
}

/** A name for a port, as well as the browser tells: the USB ids in hex, or plainly "serial port". */
function describePort(port: PortLike): string {
  const { usbVendorId, usbProductId } = port.getInfo?.() ?? {};
  if (usbVendorId === undefined || usbProductId === undefined) return 'serial port';
  const hex = (id: number) => id.toString(16).padStart(4, '0').toUpperCase();
  return `serial port (USB ${hex(usbVendorId)}:${hex(usbProductId)})`;
}
