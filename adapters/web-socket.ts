import { asyncScheduler, map, NEVER, Observable, type SchedulerLike } from 'rxjs';
import type { DeviceAdapter } from '../src/link/adapter.ts';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import type { Millis } from '../src/quantities/time.ts';
import { risingClock } from './rising-clock.ts';
import { startSocketSession, type SocketLike } from './socket-session.ts';
import { socketAddress } from './socket-url.ts';

/** The address of a bridge. Made by `socketChoice`, `choose` or `known`; an address that is wrong gives its problem on opening. */
export interface SocketChoice {
  readonly url: string;
  readonly device: string;
  /** Each text message is a line, whose end the sender leaves out: one is added where it lacks. Else bytes are as received. */
  readonly lineMessages?: boolean;
}

export interface SocketMeans {
  readonly clock: () => Millis;
  /** Asks the person for an address; null when they give none. */
  readonly ask: () => Promise<string | null>;
  /** The page came over https. */
  readonly securePage: boolean;
  /** Opens a WebSocket; undefined where there is none. By default the browser's. */
  readonly connect?: ((url: string) => SocketLike) | undefined;
  /** Addresses that were opened before. */
  readonly known?: () => Promise<readonly string[]>;
  /** Emits when this computer has a network again. By default the browser's `online` event. */
  readonly online$?: Observable<unknown>;
  readonly scheduler?: SchedulerLike;
}

/**
 * Bridges on the network by WebSocket, ws or wss. Binary and text messages both become bytes, one event a message. Opens only on
 * subscription; no answer within 5 s is a problem. The key is the address. A loss is `link.lost` even where the server
 * closed in order (socket-close.ts). Nothing tells that a bridge is back, so `returned$` emits when the network is.
 */
export function webSocketAdapter(means: SocketMeans): DeviceAdapter<SocketChoice> {
  const connect = 'connect' in means ? means.connect : browserSocket();
  const { securePage, clock, scheduler = asyncScheduler } = means;
  return {
    id: 'web-socket',
    availability: () =>
      connect ? { usable: true } : { usable: false, problem: problem('device.no-web-socket') },
    choose: async () => {
      if (!connect) return failed(problem('device.no-web-socket'));
      const typed = await means.ask();
      return typed === null ? failed(problem('link.refused')) : socketChoice(typed, securePage);
    },
    open: (choice) =>
      new Observable<LinkEvent>((subscriber) => {
        const address = socketAddress(choice.url, securePage);
        if (!connect || !address.ok)
          return subscriber.error(address.ok ? problem('device.no-web-socket') : address.problem);
        const { device, lineMessages = false } = choice;
        const settings = { device, lineMessages, open: () => connect(address.value.url) };
        return startSocketSession(settings, risingClock(clock), subscriber, scheduler);
      }),
    key: ({ url }) => url,
    known: async () => {
      const choices = ((await means.known?.()) ?? []).map((url) => socketChoice(url, securePage));
      return choices.flatMap((choice) => (choice.ok ? [choice.value] : []));
    },
    returned$: (choice) => (means.online$ ?? networkBack()).pipe(map(() => choice)),
  };
}

/** A choice from an address that a person typed, or what is wrong with it. */
export function socketChoice(typed: string, securePage: boolean): Result<SocketChoice> {
  const address = socketAddress(typed, securePage);
  if (!address.ok) return address;
  return ok({ url: address.value.url, device: `Network bridge ${address.value.host}` });
}

const browserSocket = (): SocketMeans['connect'] =>
  typeof WebSocket === 'undefined' ? undefined : (url) => new WebSocket(url);

function networkBack(): Observable<unknown> {
  if (typeof globalThis.addEventListener !== 'function') return NEVER;
  return new Observable((subscriber) => {
    const hear = (event: unknown) => subscriber.next(event);
    globalThis.addEventListener('online', hear);
    return () => globalThis.removeEventListener('online', hear);
  });
}
