import { Observable } from 'rxjs';
import { identifyPort } from './serial-identity.ts';
import type { PortLike, SerialChoice } from './serial-port.ts';

/** Where ports come and go: `navigator.serial`, or the like of it over WebUSB. */
export interface PortPlaces {
  getPorts(): Promise<readonly PortLike[]>;
  /** Calls `listener` with each port that appears. @returns how to stop. */
  onConnect(listener: (port: PortLike) => void): () => void;
}

export interface ReturnWatch {
  /** To be called when a port is opened: what else is plugged in then is another device, however alike. */
  noteOpened(port: PortLike): void;
  returned$(choice: SerialChoice): Observable<SerialChoice>;
}

/**
 * Tells when the device of a choice is back. It is the same port object, or a new one with the same key: a re-plugged USB
 * device gets a new object, and the old one never opens again. A port that was there beside it when it was opened is
 * not it: two bridges of one make must not be mixed up. A port without a key is known by its object alone.
 * One that came back before anybody listened is given at once. Never completes, never errors.
 */
export function watchReturns(places: PortPlaces | null): ReturnWatch {
  const besides = new WeakMap<PortLike, WeakSet<PortLike>>();
  const portsNow = async () => (await places?.getPorts().catch(() => [])) ?? [];
  const isReturn = ({ port }: SerialChoice, candidate: PortLike): boolean => {
    if (candidate === port) return true;
    const { key } = identifyPort(port);
    return key !== null && identifyPort(candidate).key === key && besides.get(port)?.has(candidate) !== true;
  };
  const noteOpened = async (port: PortLike) => {
    const others = (await portsNow()).filter((other) => other !== port);
    besides.set(port, new WeakSet(others));
  };
  const returned$ = (choice: SerialChoice) =>
    new Observable<SerialChoice>((subscriber) => {
      const given = new Set<PortLike>();
      const take = (port: PortLike) => {
        if (given.has(port) || !isReturn(choice, port)) return;
        // The same object may come again and again; a new one is heard of twice, by its event and by the list.
        if (port !== choice.port) given.add(port);
        subscriber.next({ ...choice, port });
      };
      const lookNow = async () => {
        const ports = await portsNow();
        if (!subscriber.closed && !ports.includes(choice.port)) ports.forEach(take);
      };
      const stop = places?.onConnect(take);
      void lookNow();
      return stop;
    });
  return { noteOpened: (port) => void noteOpened(port), returned$ };
}
