import type { AdapterId } from '../src/link/adapter.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { usualSerialPath } from './usb-path.ts';

/** What the browser has, each as its object or as yes or no. `secure`: the page came over https or from this computer. */
export interface Capabilities {
  readonly serial: unknown;
  readonly usb: unknown;
  readonly bluetooth: unknown;
  readonly webSocket: unknown;
  readonly secure: boolean;
  readonly android?: boolean;
}

/** One kind of source as data. `load` fetches its code, which is not part of the page until then. */
export interface Source<Id extends AdapterId = AdapterId> {
  readonly id: Id;
  /** What the screen calls it. */
  readonly title: string;
  /** What it is for, in a sentence or two. */
  readonly blurb: string;
  /** Why this browser cannot do it, with the cure; null where it can. */
  readonly hindrance: (capabilities: Capabilities) => Problem | null;
  readonly load: () => Promise<object>;
}

/** A source as offered to the person. Those that cannot be used are listed too: the problem says why and what cures it. */
export interface SourceOffer {
  readonly id: AdapterId;
  readonly title: string;
  readonly blurb: string;
  readonly usable: boolean;
  readonly problem: Problem | null;
  /** The usual way to a USB serial bridge in this browser. */
  readonly usual: boolean;
}

const ANYWHERE = (): null => null;

/** The browser keeps devices from pages that came unencrypted: then that is the reason, whatever it has. */
const needs =
  (
    has: 'serial' | 'usb' | 'bluetooth',
    code: Problem['code'],
    insecure: Problem['code'] = 'link.insecure-page',
  ) =>
  (capabilities: Capabilities): Problem | null => {
    if (capabilities[has]) return null;
    return problem(capabilities.secure ? code : insecure);
  };

/** Every kind of source, in the order in which they are offered. */
export const SOURCES = [
  {
    id: 'web-serial',
    title: 'Serial port',
    blurb: 'A J1939-to-serial bridge on USB, or a Bluetooth one that this computer shows as a serial port.',
    hindrance: needs('serial', 'link.no-web-serial'),
    load: () => import('./web-serial.ts'),
  },
  {
    id: 'web-bluetooth',
    title: 'Bluetooth LE',
    blurb: 'A bridge that sends its lines over Bluetooth LE. Nothing needs to be paired before.',
    hindrance: needs('bluetooth', 'bluetooth.no-web-bluetooth', 'bluetooth.insecure-page'),
    load: () => import('./web-bluetooth.ts'),
  },
  {
    id: 'web-usb',
    title: 'USB without a driver',
    blurb:
      'A USB bridge of the standard serial class (CDC-ACM), for phones, tablets and browsers without serial ports.',
    hindrance: needs('usb', 'device.no-web-usb'),
    load: () => import('./web-usb.ts'),
  },
  {
    id: 'web-socket',
    title: 'Network',
    blurb: 'A bridge on Wi-Fi or cable network that offers a WebSocket, by its address.',
    hindrance: ({ webSocket }) => (webSocket ? null : problem('device.no-web-socket')),
    load: () => import('./web-socket.ts'),
  },
  {
    id: 'log-file',
    title: 'Log file',
    blurb: 'A speed log (CSV) or a CAN text log from another program.',
    hindrance: ANYWHERE,
    load: () => import('./log-file.ts'),
  },
  {
    id: 'typed',
    title: 'Typed numbers',
    blurb: 'Crank times and speeds from a stopwatch and a tachometer, typed by hand.',
    hindrance: ANYWHERE,
    load: () => import('./typed.ts'),
  },
  {
    id: 'replay',
    title: 'Recording',
    blurb: 'Something recorded here before, played again.',
    hindrance: ANYWHERE,
    load: () => import('./replay.ts'),
  },
  {
    id: 'bench',
    title: 'Bench',
    blurb: 'A simulated engine, to try everything without one.',
    hindrance: ANYWHERE,
    load: () => import('./bench.ts'),
  },
] as const satisfies readonly Source[];

/** All sources for this browser, in the order of SOURCES: what each is, and whether it can be used. */
export function sourceList(capabilities: Capabilities): readonly SourceOffer[] {
  const usual = usualSerialPath({
    serial: Boolean(capabilities.serial),
    usb: Boolean(capabilities.usb),
    android: capabilities.android ?? false,
  });
  return SOURCES.map(({ id, title, blurb, hindrance }) => {
    const found = hindrance(capabilities);
    return { id, title, blurb, usable: found === null, problem: found, usual: id === usual };
  });
}
