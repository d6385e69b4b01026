import { defer } from 'rxjs';
import type { Availability, DeviceAdapter } from '../src/link/adapter.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { identifyPort, SERIAL_PORT_SERVICE_CLASS } from './serial-identity.ts';
import type { PortLike, SerialChoice } from './serial-port.ts';
import { watchReturns, type PortPlaces } from './serial-return.ts';
import { serialChoice, serialOpener } from './serial-source.ts';

export { DEFAULT_BAUD_RATE, type SerialChoice } from './serial-port.ts';

/** The members of `navigator.serial` that are used. Those that a fake may lack are optional. */
export interface SerialLike {
  requestPort(options?: { allowedBluetoothServiceClassIds?: string[] }): Promise<PortLike>;
  getPorts?(): Promise<readonly PortLike[]>;
  addEventListener?(type: 'connect', listener: (event: { readonly target: unknown }) => void): void;
  removeEventListener?(type: 'connect', listener: (event: { readonly target: unknown }) => void): void;
}

/**
 * Serial ports of this computer by Web Serial, USB and Bluetooth. `serial` is `navigator.serial`, or undefined where there
 * is none; `clock` stamps arrivals, ms; `secure` is `isSecureContext`, for saying why there is none.
 * A disturbed stream is a `gap` and reading goes on; loss is one `link.lost` on the error channel.
 * Key: USB vendor and product id, or the Bluetooth service class; null where nothing tells.
 */
export function webSerialAdapter(
  serial: SerialLike | undefined,
  clock: () => Millis,
  secure = globalThis.isSecureContext !== false,
): DeviceAdapter<SerialChoice> {
  const open = serialOpener(clock);
  const returns = watchReturns(serial ? placesOf(serial) : null);
  return {
    id: 'web-serial',
    availability: () => availability(serial, secure),
    choose: () => choose(serial),
    open: (choice) =>
      defer(() => {
        returns.noteOpened(choice.port);
        return open(choice);
      }),
    key: ({ port }) => identifyPort(port).key,
    known: async () => (await knownPorts(serial)).map(serialChoice),
    returned$: returns.returned$,
  };
}

function availability(serial: SerialLike | undefined, secure: boolean): Availability {
  if (serial) return { usable: true };
  return { usable: false, problem: problem(secure ? 'link.no-web-serial' : 'link.insecure-page') };
}

async function choose(serial: SerialLike | undefined): Promise<Result<SerialChoice>> {
  if (!serial) return failed(problem('link.no-web-serial'));
  try {
    return ok(
      serialChoice(
        await serial.requestPort({ allowedBluetoothServiceClassIds: [SERIAL_PORT_SERVICE_CLASS] }),
      ),
    );
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError')
      return failed(problem('link.refused'));
    return failed(
      problem('link.not-allowed', { detail: error instanceof Error ? error.message : String(error) }),
    );
  }
}

/** Ports that were granted before. A page that may not ask (a policy) knows none. */
async function knownPorts(serial: SerialLike | undefined): Promise<readonly PortLike[]> {
  return (await serial?.getPorts?.().catch(() => [])) ?? [];
}

const placesOf = (serial: SerialLike): PortPlaces => ({
  getPorts: () => knownPorts(serial),
  onConnect: (listener) => {
    // The event comes from the port itself and bubbles to `navigator.serial`.
    const hear = ({ target }: { readonly target: unknown }) => isPort(target) && listener(target);
    serial.addEventListener?.('connect', hear);
    return () => serial.removeEventListener?.('connect', hear);
  },
});

const isPort = (target: unknown): target is PortLike =>
  typeof target === 'object' && target !== null && 'open' in target && 'readable' in target;
