import {
  asyncScheduler,
  catchError,
  defer,
  filter,
  finalize,
  firstValueFrom,
  from,
  fromEvent,
  map,
  mergeMap,
  of,
  tap,
  throwError,
  timeout,
  type MonoTypeOperatorFunction,
  type Observable,
  type SchedulerLike,
} from 'rxjs';
import { z } from 'zod';
import type { LinkEvent } from '../link/link-event.ts';
import { problem, type Problem } from '../problems/problem.ts';

/** The members of a BroadcastChannel that are used. */
export interface ChannelLike {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  removeEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  close(): void;
}

/** A tab that has a device open: the device's key, the title of its run, and since when. */
export interface Holder {
  readonly key: string;
  readonly title: string;
  readonly sinceIso: string;
}

/** What the tabs of this page tell each other of the devices that they have open. */
export interface PortHolders {
  /** From now on this tab answers that it holds the device. Gives the way to let go; a second call of it is no harm. */
  hold(holder: Holder): () => void;
  /** Which other tab holds the device; null where none answers within 200 ms, or the device has no key. */
  whoHolds(key: string | null): Promise<Holder | null>;
  close(): void;
}

/** Name of the channel between the tabs. */
export const HOLDERS_CHANNEL = 'meniscus-ports';

/** How long another tab may take to answer, ms. A tab that the browser has frozen holds no open port. */
const ANSWER_MS = 200;

const Message = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('who'), key: z.string() }),
  z.object({ kind: z.literal('mine'), key: z.string(), title: z.string(), sinceIso: z.string() }),
]);
type Message = z.infer<typeof Message>;

/** @param channel null where tabs cannot talk: then nobody ever answers. */
export function portHolders(
  channel: ChannelLike | null,
  scheduler: SchedulerLike = asyncScheduler,
): PortHolders {
  const held = new Set<Holder>();
  const send = (message: Message) => channel?.postMessage(message);
  const answer = ({ data }: { readonly data: unknown }) => {
    const { data: asked } = Message.safeParse(data);
    if (asked?.kind !== 'who') return;
    for (const holder of held) if (holder.key === asked.key) send({ kind: 'mine', ...holder });
  };
  channel?.addEventListener('message', answer);
  return {
    hold: ({ key, title, sinceIso }) => {
      const holder = { key, title, sinceIso };
      held.add(holder);
      return () => void held.delete(holder);
    },
    whoHolds: (key) => {
      if (key === null || !channel) return Promise.resolve(null);
      const limit = { first: ANSWER_MS, scheduler, with: () => of(null) };
      const first = firstValueFrom(holdersOf(channel, key).pipe(timeout(limit)));
      send({ kind: 'who', key });
      return first;
    },
    close: () => {
      held.clear();
      channel?.removeEventListener('message', answer);
      channel?.close();
    },
  };
}

/** The tabs that say that they hold the device. Whatever else comes, from another version perhaps, is passed over. */
const holdersOf = (channel: ChannelLike, wanted: string): Observable<Holder | null> =>
  fromEvent<{ readonly data: unknown }>(channel, 'message').pipe(
    map(({ data }) => Message.safeParse(data).data),
    filter((message) => message?.kind === 'mine'),
    filter(({ key }) => key === wanted),
    map(({ key, title, sinceIso }) => ({ key, title, sinceIso })),
  );

export interface Holding {
  readonly key: string | null;
  readonly title: string;
  readonly nowIso: () => string;
}

/**
 * Over the events of a device: from its first `open` until it is let go this tab answers that it holds it; and where it cannot be
 * opened because it is in use, and another tab says that it holds it, the problem names that tab (`device.held-by-tab`).
 */
export function heldAs(
  holders: PortHolders,
  { key, title, nowIso }: Holding,
): MonoTypeOperatorFunction<LinkEvent> {
  return (event$) =>
    defer(() => {
      let letGo: (() => void) | null = null;
      return event$.pipe(
        tap(({ kind }) => {
          if (kind === 'open' && key !== null) letGo ??= holders.hold({ key, title, sinceIso: nowIso() });
        }),
        finalize(() => letGo?.()),
        catchError((cause: unknown) =>
          from(namedHolder(holders, key, cause)).pipe(mergeMap((named) => throwError(() => named))),
        ),
      );
    });
}

/** The cause, or in its place the tab that holds the device. */
async function namedHolder(holders: PortHolders, key: string | null, cause: unknown): Promise<unknown> {
  if ((cause as Partial<Problem> | null)?.code !== 'link.port-busy') return cause;
  const holder = await holders.whoHolds(key);
  return holder
    ? problem('device.held-by-tab', { title: holder.title, since: timeOfDay(holder.sinceIso) })
    : cause;
}

/** Hours and minutes as this person's clock shows them; a text that is no time stays as it is. */
function timeOfDay(iso: string): string {
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? iso : at.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
}
