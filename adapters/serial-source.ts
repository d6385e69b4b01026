import { Observable } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';
import type { Millis } from '../src/quantities/time.ts';
import { identifyPort } from './serial-identity.ts';
import { DEFAULT_BAUD_RATE, type PortLike, type SerialChoice } from './serial-port.ts';
import { startSerialSession } from './serial-session.ts';

/** Bytes that the browser keeps for us while the page is busy: 5 s at 115,200 baud, so a slow frame loses nothing. */
export const BUFFER_BYTES = 65_536;

/** A port as a choice, named as the browser tells and at the usual speed. */
export function serialChoice(port: PortLike): SerialChoice {
  const { kind, device } = identifyPort(port);
  return { port, baudRate: DEFAULT_BAUD_RATE, device, kind };
}

/**
 * `open` of a serial source. One for the life of an adapter: it remembers ports that are still closing, so that the next
 * opening of the same port waits for that and finds it free.
 */
export function serialOpener(clock: () => Millis): (choice: SerialChoice) => Observable<LinkEvent> {
  const closings = new WeakMap<PortLike, Promise<void>>();
  return ({ port, baudRate, device }) =>
    new Observable<LinkEvent>((subscriber) => {
      const settings = { port, device, baudRate, bufferSize: BUFFER_BYTES };
      const before = closings.get(port) ?? Promise.resolve();
      const close = startSerialSession(settings, clock, subscriber, before);
      return () => {
        closings.set(port, close());
      };
    });
}
