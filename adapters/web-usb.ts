import { defer } from 'rxjs';
import type { DeviceAdapter } from '../src/link/adapter.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { identifyPort } from './serial-identity.ts';
import type { PortLike, SerialChoice } from './serial-port.ts';
import { watchReturns, type PortPlaces } from './serial-return.ts';
import { serialChoice, serialOpener } from './serial-source.ts';
import { usbPort, type PolyfillPort, type UsbLike } from './usb-port.ts';

/** The one member of web-serial-polyfill that is used. Its constructor throws where the device is no CDC-ACM device. */
export interface SerialPolyfill {
  readonly SerialPort: new (device: USBDevice) => PolyfillPort;
}

/** Communications device class. Source: USB CDC 1.1, 4.1. */
const COMMUNICATIONS_CLASS = 2;

const loadPolyfill = (): Promise<SerialPolyfill> => import('web-serial-polyfill');

/**
 * USB serial bridges that keep to the standard class (CDC-ACM), through WebUSB: for browsers without Web Serial, and by hand.
 * `usb` is `navigator.usb`, or undefined where there is none. The polyfill is loaded when a device is first looked at.
 * Events, gaps, loss and key are those of Web Serial: the same session runs on a port made to look the same.
 */
export function webUsbAdapter(
  usb: UsbLike | undefined,
  clock: () => Millis,
  secure = globalThis.isSecureContext !== false,
  load = loadPolyfill,
): DeviceAdapter<SerialChoice> {
  const open = serialOpener(clock);
  const places = usb ? placesOf(usb, portMaker(usb, load)) : null;
  const returns = watchReturns(places);
  return {
    id: 'web-usb',
    availability: () =>
      usb
        ? { usable: true }
        : { usable: false, problem: problem(secure ? 'device.no-web-usb' : 'link.insecure-page') },
    choose: () =>
      usb && places ? choose(usb, places) : Promise.resolve(failed(problem('device.no-web-usb'))),
    open: (choice) =>
      defer(() => {
        returns.noteOpened(choice.port);
        return open(choice);
      }),
    key: ({ port }) => identifyPort(port).key,
    known: async () => ((await places?.getPorts()) ?? []).map(serialChoice),
    returned$: returns.returned$,
  };
}

/** The port of a device, the same each time; null where the device is not a CDC-ACM device. Rejects if the polyfill cannot be loaded. */
type PortOf = (device: USBDevice) => Promise<PortLike | null>;

interface UsbPlaces extends PortPlaces {
  readonly portOf: PortOf;
}

function portMaker(usb: UsbLike, load: () => Promise<SerialPolyfill>): PortOf {
  const ports = new WeakMap<USBDevice, PortLike>();
  return async (device) => {
    const { SerialPort } = await load();
    const known = ports.get(device);
    if (known) return known;
    try {
      const port = usbPort(device, new SerialPort(device), usb);
      ports.set(device, port);
      return port;
    } catch {
      return null;
    }
  };
}

function placesOf(usb: UsbLike, portOf: PortOf): UsbPlaces {
  const orNone = (device: USBDevice) => portOf(device).catch(() => null);
  return {
    portOf,
    getPorts: async () => {
      const devices = await usb.getDevices().catch(() => []);
      const ports = await Promise.all(devices.map(orNone));
      return ports.filter((port) => port !== null);
    },
    onConnect: (listener) => {
      let stopped = false;
      const hear = async ({ device }: { readonly device: USBDevice }) => {
        const port = await orNone(device);
        if (port && !stopped) listener(port);
      };
      const hearAll = (event: { readonly device: USBDevice }) => void hear(event);
      usb.addEventListener('connect', hearAll);
      return () => {
        stopped = true;
        usb.removeEventListener('connect', hearAll);
      };
    },
  };
}

/** Asks the person first: their click does not outlast the loading of the polyfill on a slow line. */
async function choose(usb: UsbLike, { portOf }: UsbPlaces): Promise<Result<SerialChoice>> {
  const device = await requestDevice(usb);
  if (!device.ok) return device;
  try {
    const port = await portOf(device.value);
    return port ? ok(serialChoice(port)) : failed(problem('device.usb-not-serial'));
  } catch (error) {
    return failed(problem('device.not-loaded', { detail: textOf(error) }));
  }
}

async function requestDevice(usb: UsbLike): Promise<Result<USBDevice>> {
  try {
    return ok(await usb.requestDevice({ filters: [{ classCode: COMMUNICATIONS_CLASS }] }));
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError')
      return failed(problem('link.refused'));
    return failed(problem('link.not-allowed', { detail: textOf(error) }));
  }
}

const textOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
